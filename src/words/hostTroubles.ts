import { fileSize } from './locale.ts';

/** Sentences of the host: what could not be done, with which file, and what to do. */
export const hostTroubles = {
  internal: (detail: string) => `Something went wrong in the program itself: ${detail}.`,
  stopped: 'The work was stopped.',
  cannotBeTaken: (place: string, what: string) => `This cannot be taken: ${place}${place && ': '}${what}`,
  messageForm: 'A message to the library did not have the expected form.',
  messageTooLarge: (bytes: number, most: number) =>
    `This is too large to be handed over at once: ${fileSize(bytes)}, and ${fileSize(most)} is the most.`,
  unknownName: (name: string) => `The library knows nothing called “${name}”.`,
  closed: 'The library is closed.',
  tooManyListeners: 'This window listens to too many things at once. Close it and open it again.',
  gone: (detail: string) =>
    `The part of the program that keeps the library has ended (${detail}). ` +
    'What was confirmed is stored. Start Walkback again.',

  outsideAllowed: (path: string) =>
    `${path} is not in a folder that this window may look into. Choose a file in one of the folders shown.`,
  notThere: (path: string) => `${path} is not there any more.`,
  unreadableFile: (path: string) => `${path} cannot be read. Check that the file is there and may be read.`,
  notAFile: (path: string) => `${path} is not a file.`,
  notAFolder: (path: string) => `${path} is not a folder.`,
  pathNotAbsolute: (path: string) => `“${path}” does not say where the file lies: a full path is needed.`,
  ownDatabase: 'This file is the library itself and cannot be brought in.',

  unknownUpload: 'This upload is not known, or its bytes have not all arrived. Send the file again.',
  uploadTooLarge: (name: string, bytes: number, most: number) =>
    `“${name}” is too large to be sent: ${fileSize(bytes)}, and ${fileSize(most)} is the most.`,
  uploadNoSpace: (name: string, bytes: number, free: number) =>
    `There is no room for “${name}”: it needs ${fileSize(bytes)} and ${fileSize(free)} are free. ` +
    'Make some room, then send it again.',
  tooManyUploads: (most: number) => `${most} files are on their way already. Wait until one has arrived.`,
  uploadCutShort: (name: string) => `“${name}” did not arrive whole. Nothing was kept. Send it again.`,

  noDemo: 'The demo run is not here: its files are missing beside the program.',

  unknownClip: 'There is no such clip in this library.',
  unknownJob: 'There is no such work under way.',
  unknownPicture: 'There is no such picture in this library.',
  clipFileMissing: (name: string, path: string | null) =>
    path === null
      ? `The file of “${name}” is not here. Show where it lies first.`
      : `The file of “${name}” is not where it was (${path}). Show where it lies first.`,
  onlyByCopy: (name: string) =>
    `“${name}” can only be shown through its working copy; the original cannot be shown as it is.`,
  framesChanged: (name: string) =>
    `The frames of “${name}” were chosen anew. Its working copy is made again.`,
  notInterlaced: (name: string) =>
    `The pictures of “${name}” are whole ones: there are no half-pictures to step through.`,
  markedAlready: (name: string) =>
    `“${name}” has been marked already, frame by frame. Half-pictures can only be chosen, or given up, before that: ` +
    'each mark would lie on another frame.',
  otherFrames: (name: string) =>
    `“${name}” is in this library already with other frames: half-pictures are counted in one place and whole ` +
    'pictures in the other. The marks would not fit, so the review was not taken in.',
  emptyFile: (name: string) => `“${name}” is empty.`,
  otherContent: (name: string, file: string) =>
    `${file} is another file than “${name}”: its content differs. The clip stays as it is.`,
  footageUnknownClip: (name: string) => `The footage “${name}” names a clip that is not in this library.`,
  tooManyFrames: (name: string) => `“${name}” has more frames than Walkback can keep.`,

  pictureKind: (name: string) => `“${name}” is not a picture that can be kept. PNG, JPEG, WebP and PDF can.`,
  pictureHeic: (name: string) =>
    `“${name}” is a photo of the HEIC or AVIF kind, which cannot be shown here. Save or share it as JPEG, then attach that.`,
  megapixels: (most: number) => `${Math.round(most / 1e6)} million pixels`,
  pdfPage: (name: string, page: number, pages: number) =>
    `“${name}” has no page ${page}: ${pages === 1 ? 'it has one' : `it has ${pages}`}.`,
  pdf: {
    damaged: (name: string) =>
      `“${name}” is damaged, or not a PDF that can be drawn. Open it elsewhere, print it to a new PDF or take a picture of it, then attach that.`,
    locked: (name: string) =>
      `“${name}” is locked with a password. Save it without one, then attach it again.`,
    tooLong: (name: string) =>
      `“${name}” took too long to draw, so it was left. Save the one page as a picture, then attach that.`,
  },
  pictureDamaged: (name: string) => `“${name}” is damaged: its size cannot be read.`,
  pictureTooLarge: (name: string, most: string) => `“${name}” is too large: ${most} is the most.`,

  courseFile: (name: string, problems: readonly string[]) =>
    `The course in “${name}” was not taken in. ${problems.join(' ')}`,
  reviewFile: (name: string, problems: readonly string[]) =>
    `“${name}” was not taken in. ${problems.join(' ')}`,
  reviewTooLarge: (name: string, bytes: number, most: number) =>
    `“${name}” was not taken in: it is too large for a review (${fileSize(bytes)}; ${fileSize(most)} is the most).`,
  ruleBookFile: (name: string, problems: readonly string[]) =>
    `“${name}” was not taken in. ${problems.join(' ')}`,
  dogFile: (name: string, problems: readonly string[]) => `“${name}” was not taken in. ${problems.join(' ')}`,
  workedBookId: (file: string, id: string, worked: string) =>
    `“${file}” was not taken in: its id “${id}” belongs to “${worked}”, which is part of the program. ` +
    'Give your rule book another “id”, then take it in.',
  workedBookStays: (worked: string) => `“${worked}” is part of the program and cannot be removed.`,
  notText: (name: string) => `“${name}” was not taken in: it is not a text file.`,
} as const;
