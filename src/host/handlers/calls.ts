import type { CallHandlers } from '../desk.ts';
import { clipFrames, clipRelink } from './clips.ts';
import { courseExport, courseRead } from './courses.ts';
import { clipFields, clipOriginal, copiesAbout, copiesClear } from './copies.ts';
import * as dogs from './dogs.ts';
import { filesList, filesRoots } from './files.ts';
import { jobCancel, jobFirst, uploadBegin } from './jobControl.ts';
import { libraryAbout } from './library.ts';
import { pictureKeep, pictureMedia } from './pictures.ts';
import { preferencesGet, preferencesSet } from './preferences.ts';
import { reportFigures } from './reports.ts';
import * as reviews from './reviews.ts';
import * as ruleBooks from './ruleBooks.ts';
import { clipStill } from './stills.ts';

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
  'clip.original': clipOriginal,
  'clip.fields': clipFields,
  'clip.still': clipStill,
  'copies.about': copiesAbout,
  'copies.clear': copiesClear,
  'files.roots': filesRoots,
  'files.list': filesList,
  'course.export': courseExport,
  'course.read': courseRead,
  'picture.keep': pictureKeep,
  'picture.media': pictureMedia,
  'ruleBook.read': ruleBooks.ruleBookRead,
  'ruleBook.take': ruleBooks.ruleBookTake,
  'ruleBook.remove': ruleBooks.ruleBookRemove,
  'ruleBook.takeBack': ruleBooks.ruleBookTakeBack,
  'ruleBook.write': ruleBooks.ruleBookWrite,
  'dog.save': dogs.dogSave,
  'dog.remove': dogs.dogRemove,
  'dog.takeBack': dogs.dogTakeBack,
  'dog.take': dogs.dogTake,
  'dog.write': dogs.dogWrite,
  'report.figures': reportFigures,
  'job.cancel': jobCancel,
  'job.first': jobFirst,
  'upload.begin': uploadBegin,
} satisfies CallHandlers;
