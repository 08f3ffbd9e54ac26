/** What is said in the terminal where Walkback is started. */
export const startWords = {
  at: (address: string) => `Walkback is at ${address}`,
  forOnce: 'The address is good once, for a minute. Press Enter for a new one, Ctrl+C to end.',
  noBrowser: 'No browser could be opened. Open the address above yourself.',
  portTaken: 'That port is taken by another program. Choose another with --port, or leave --port out.',
  portForbidden: 'That port may not be used here. Choose another with --port, or leave --port out.',
  opened: 'Walkback’s window is open.',
} as const;
