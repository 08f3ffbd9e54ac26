import type { JobHandlers } from '../desk.ts';
import { clipImport } from './clips.ts';
import { clipWrite } from './clipsOut.ts';
import { clipWorkingCopy } from './copies.ts';
import { clipsLineUp } from './lineUp.ts';
import { reportWrite } from './reports.ts';
import { reviewImport } from './reviewFiles.ts';

/** What does each job of the contract. */
export const jobHandlers = {
  'clip.import': clipImport,
  'clip.workingCopy': clipWorkingCopy,
  'clips.lineUp': clipsLineUp,
  'review.import': reviewImport,
  'report.write': reportWrite,
  'clip.write': clipWrite,
} satisfies JobHandlers;
