/** Words of the two shells: choosing, sending and saving files, and the line to the library. */
export const shellWords = {
  notOnDisk: (name: string) =>
    `“${name}” is not a file on this machine's disk. Save it first, then bring it in.`,
  sendStopped: (name: string) => `“${name}” was not brought in: sending it was stopped.`,
  sendFailed: (name: string) =>
    `“${name}” could not be sent to Walkback. See whether Walkback is still running, then try again.`,
  reportNotOpened: 'The browser kept the report from opening. Allow pop-ups for this page, then try again.',
  reportNotFound: 'The report could not be found. Write it again, then open it.',
  fileNotFound: 'The file could not be found. Export it again, then save it.',
  uploadUnclear: 'The file could not be taken in: its name or its size is not clear. Choose it once more.',
  uploadUnknown: 'This upload is not known any more. Bring the file in once more.',
  uploadsTooMany: 'Several files are coming in already. Wait until one of them is done, then try again.',
  uploadWrongLength:
    'The file changed while it was being sent, so it was not taken in. Bring it in once more when it is complete.',
  uploadNoSpace: 'The disk is full, so the file was not taken in. Make room, then bring it in once more.',
  uploadBroken: 'Sending the file broke off, so it was not taken in. Bring it in once more.',
  noVisit:
    'Open Walkback by the address that it prints where it was started. For a new address, press Enter there.',
  tokenSpent:
    'This address has been used before, or is older than a minute. Press Enter where Walkback was started: it ' +
    'prints a new one.',
  reportNotSaved: (name: string) =>
    `“${name}” could not be saved there. See whether there is room and whether the folder may be written to.`,
  filesFor: {
    video: 'Footage',
    picture: 'Pictures and PDFs',
    review: 'Review files',
    course: 'Courses and drawings',
    rules: 'Rule books',
    dog: 'Files of dogs',
    report: 'Coaching report',
    written: 'Exported file',
    all: 'All files',
  },
  print: 'Print…',
  menuFile: 'File',
  menuEdit: 'Edit',
  menuView: 'View',
  nothingHere: 'There is nothing here.',
  serverTrouble: 'Walkback could not answer. More is told where it was started.',
} as const;
