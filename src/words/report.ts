/** Words of the Report screen. The report file itself has a catalogue of its own. */
export const reportWords = {
  title: 'Report',
  acts: {
    write: 'Write the report',
    open: 'Open the report',
    save: 'Save a copy',
  },
} as const;
