import { verdictWords } from './verdicts.ts';

/** Words of the tables and the captions that are handed out as data. Names of columns are short and end in their unit. */
export const dataOutWords = {
  tables: {
    splits: 'splits',
    obstacles: 'obstacles',
    crosses: 'crosses',
    startLine: 'start-line',
    events: 'events',
    line: 'line',
    stretches: 'stretches',
  },
  chapters: 'chapters',
  remarks: 'remarks',
  analysis: 'analysis',
  folder: 'figures',

  crossed: (cross: string, verdict: keyof typeof verdictWords): string =>
    `${cross}: ${verdictWords[verdict]}.`,
} as const;
