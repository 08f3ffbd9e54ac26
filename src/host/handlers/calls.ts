import type { CallHandlers } from '../desk.ts';
import { clipFrames, clipRelink } from './clips.ts';
import { filesList, filesRoots } from './files.ts';
import { jobCancel, uploadBegin } from './jobControl.ts';
import { libraryAbout } from './library.ts';
import { pictureKeep, pictureMedia } from './pictures.ts';
import { preferencesGet, preferencesSet } from './preferences.ts';
import * as reviews from './reviews.ts';

/** What answers each call of the contract. */
export const callHandlers = {
  'library.about': libraryAbout,
  'preferences.get': preferencesGet,
  'preferences.set': preferencesSet,
  'review.create': reviews.reviewCreate,
  'review.apply': reviews.reviewApply,
  'review.undo': reviews.reviewUndo,
  'review.redo': reviews.reviewRedo,
  'review.remove': reviews.reviewRemove,
  'review.restore': reviews.reviewRestore,
  'review.document': reviews.reviewDocument,
  'clip.frames': clipFrames,
  'clip.relink': clipRelink,
  'files.roots': filesRoots,
  'files.list': filesList,
  'picture.keep': pictureKeep,
  'picture.media': pictureMedia,
  'job.cancel': jobCancel,
  'upload.begin': uploadBegin,
} satisfies CallHandlers;
