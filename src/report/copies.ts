import { coachingReport as words } from '../words/coachingReport.ts';

/** Whom a copy is for. The coach's own has her notes to herself, and what was only seen. */
export const reportCopies = ['student', 'coach'] as const;
export type ReportCopy = (typeof reportCopies)[number];

/** What a copy calls itself. */
export const overlineOf = (copy: ReportCopy, overline: string): string =>
  copy === 'coach' ? words.forCoach(overline) : overline;
