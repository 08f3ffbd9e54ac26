import { fileSize } from './locale.ts';

/** Sentences about a course file or drawing that cannot be taken in: what is wrong, and what to do. */
export const courseFileWords = {
  tooLarge: (bytes: number, most: number): string =>
    `The file is too large for a course: ${fileSize(bytes)}, and ${fileSize(most)} is the most.`,
  notCourse: 'This is not a course file: its "format" should be "walkback.course".',
  tooNew: (version: number, known: number): string =>
    `This course file has version ${version}; this program reads version ${known}. Update the program to open it.`,
  noSuchVersion: (known: number): string =>
    `This course file names no version that there is; this program reads version ${known}. Export the course again.`,
  drawingWithout:
    'This drawing carries no course that could be read back. Only drawings that Walkback itself exported do; another picture can be traced instead.',
  badDrawing: {
    notSvg: () => 'This is neither a course file nor an SVG drawing.',
    doctype: () =>
      'This drawing brings a document type of its own, which Walkback does not read. Choose the drawing as Walkback exported it.',
    tooDeep: () =>
      'This drawing is nested too deeply to be read. Choose the drawing as Walkback exported it.',
    malformed: (detail: string) =>
      `This drawing is damaged: it is not well-formed XML (${detail.slice(0, 200)}). Export it again.`,
  },
} as const;
