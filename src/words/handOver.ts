/** Words about a file that was written to hand over. */
export const handOverWords = {
  save: 'Save a copy',
  saved: 'A copy was saved.',
  place: 'It lies in',
} as const;
