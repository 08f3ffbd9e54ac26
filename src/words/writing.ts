/** Sentences about a file that could not be written. In each case nothing half-written is left behind. */
export const writingTroubles = {
  noSpace: (path: string) =>
    `${path} was not written: there is no room left on the disk. Make some room, then do it again.`,
  tooLarge: (path: string) =>
    `${path} was not written: the system allows no file of that size there. Choose another folder, or raise the limit.`,
  notAllowed: (path: string) =>
    `${path} was not written: the folder may not be written to. Choose another folder, or change its permissions.`,
  notAFolder: (folder: string) => `${folder} is a file, not a folder. Choose another place to write to.`,
  noFolderThere: (folder: string) =>
    `${folder} cannot be made: nothing can be kept there. Choose another place to write to.`,
  nameTooLong: (path: string) => `${path} was not written: the name is too long for this disk.`,
  isFolder: (path: string) => `${path} was not written: a folder of that name is in the way.`,
  other: (path: string, detail: string) => `${path} was not written: ${detail}.`,
} as const;
