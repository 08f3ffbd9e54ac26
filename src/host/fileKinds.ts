/** Endings of video files that a coach's devices write. */
export const videoKinds: ReadonlySet<string> = new Set([
  '.mp4',
  '.mov',
  '.m4v',
  '.mkv',
  '.webm',
  '.avi',
  '.mts',
  '.m2ts',
  '.ts',
]);

/** Endings of all files that can be brought in: video, review files, pictures and PDFs of a map, courses. */
export const shownKinds: ReadonlySet<string> = new Set([
  ...videoKinds,
  '.json',
  '.png',
  '.jpg',
  '.jpeg',
  '.webp',
  '.pdf',
  '.svg',
]);
