import type { EntityKind } from '../review/entities.ts';

const kindNames: Record<EntityKind, string> = {
  header: 'heading',
  course: 'course',
  plan: 'plan',
  footage: 'footage',
  mark: 'mark',
  cross: 'cross',
  drawing: 'drawing',
  track: 'track',
  fit: 'fit of the course to the picture',
};

const mend = 'Put back a copy of that folder, or start a new library in another one.';

/** Sentences of the store: what is wrong with which library or review, and what to do. */
export const libraryTroubles = {
  noSpace: (folder: string) =>
    `There is no room left on the disk for the library in ${folder}. Nothing was changed. ` +
    'Make some room, then do it again.',
  damaged: (folder: string) => `The library in ${folder} is damaged and cannot be read. ${mend}`,
  damagedInside: (folder: string, found: string) => `The library in ${folder} is damaged (${found}). ${mend}`,
  notALibrary: (database: string) =>
    `${database} is damaged: it is not a library any more. It was left as it is. ${mend}`,
  cutShort: (database: string) => `${database} is damaged: it was cut short. It was left as it is. ${mend}`,
  foreign: (database: string) =>
    `${database} belongs to another program. It was left as it is. Choose another folder for the library.`,
  tooNew: (folder: string, version: number, newest: number) =>
    `The library in ${folder} was written by a newer Walkback (format ${version}; this one knows up to ` +
    `${newest}). It was left as it is. Open it with the newer Walkback, or choose another folder.`,
  openElsewhere: (folder: string) =>
    `The library in ${folder} is already open. Close the other Walkback first, or use another folder.`,
  unusable: (folder: string, code: string) =>
    `The library in ${folder} cannot be read or written (${code}). Check that the folder is there and yours.`,

  textDamaged: (where: string) => `${where} cannot be read: its text is damaged.`,
  formDamaged: (where: string, problem: string) => `${where} cannot be read: ${problem}.`,
  note: (name: string) => `The library's note “${name}”`,
  clipFacts: (name: string) => `What is known of the clip “${name}”`,
  act: (act: number, reviewId: string) => `Act ${act} of the review ${reviewId}`,
  part: (kind: EntityKind, title: string, id: string) =>
    `The ${kindNames[kind]} of the review “${title}” (${id})`,

  cannotBeKept: (kind: EntityKind, problem: string) => `The ${kindNames[kind]} cannot be kept: ${problem}.`,
  unknownReview: 'There is no such review in this library.',
  reviewRemoved: (title: string) => `The review “${title}” was removed. Bring it back first.`,
  reviewThere: (title: string) => `The review “${title}” is in this library already.`,
  partMissing: (where: string) => `${where} is not there.`,
  full: (title: string, kind: EntityKind, most: number) =>
    `The review “${title}” cannot hold more than ${most} entries of the kind “${kindNames[kind]}”.`,
  nothingToUndo: 'There is nothing to undo.',
  nothingToRedo: 'There is nothing to redo.',
  actGone: (act: number, title: string) => `Act ${act} of the review “${title}” is gone from its log.`,
  actDiffers: 'This act was done already, with other changes. It was not done again.',
  otherReview: (title: string, kind: EntityKind) =>
    `A change to the review “${title}” names another review's ${kindNames[kind]}.`,
  cannotRemove: (title: string, kind: EntityKind) =>
    `A change would take the ${kindNames[kind]} from the review “${title}”; every review has one.`,
  otherEntity: (title: string, kind: EntityKind) =>
    `A change to the review “${title}” names one ${kindNames[kind]} and carries another.`,
  repeatedId: (kind: EntityKind, id: string) =>
    `Two entries of the kind “${kindNames[kind]}” carry the same id, ${id}.`,

  libraryAct: (act: number) => `Act ${act} of the library`,
  unknownLibraryAct: 'There is no such act in this library.',
  ruleBooks: {
    where: (name: string, id: string) => `The rule book “${name}” (${id})`,
    unknown: 'There is no such rule book in this library.',
    cannotBeKept: (problem: string) => `The rule book cannot be kept: ${problem}.`,
    full: (most: number) =>
      `A library holds ${most} rule books at the most. Remove one that you do not use, then take this one in.`,
    changedSince: 'This rule book was changed since. It was left as it is.',
  },
  dogs: {
    where: (name: string, id: string) => `What is kept of the dog “${name}” (${id})`,
    unknown: 'This dog is not in the library any more.',
    cannotBeKept: (problem: string) => `The dog cannot be kept: ${problem}.`,
    full: (most: number) =>
      `A library holds ${most} dogs at the most. Remove one that you do not coach any more, then add this one.`,
    changedSince: 'What is kept of this dog was changed since. It was left as it is; look at it again.',
    nameTaken: (name: string, other: string) =>
      `“${name}” cannot be kept: the dog “${other}” goes by that name already, or did before. Reviews tell dogs ` +
      'apart by name alone; add a word to it.',
  },

  unknownClip: 'There is no such clip in this library.',
  framesDamaged: (name: string) => `The frame times of “${name}” are damaged. Bring the clip in again.`,
} as const;
