/** Words of Settings. */
export const settingsWords = {
  title: 'Settings',
} as const;
