/** Words of the two shells: choosing, sending and saving files, and the line to the library. */
export const shellWords = {
  notOnDisk: (name: string) =>
    `“${name}” is not a file on this machine's disk. Save it first, then bring it in.`,
  sendStopped: (name: string) => `“${name}” was not brought in: sending it was stopped.`,
  sendFailed: (name: string) =>
    `“${name}” could not be sent to Walkback. See whether Walkback is still running, then try again.`,
  reportNotOpened: 'The browser kept the report from opening. Allow pop-ups for this page, then try again.',
  reportNotFound: 'The report could not be found. Write it again, then open it.',
} as const;
