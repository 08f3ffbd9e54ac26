import { reportWords } from '../../../src/words/report.ts';
import { defineActs } from '../keys/act.ts';

export const reportActs = defineActs([
  { name: 'report.write', label: reportWords.acts.write, key: 'w', place: 'report' },
  { name: 'report.open', label: reportWords.acts.open, key: 'o', place: 'report' },
  { name: 'report.save', label: reportWords.acts.save, key: 's', place: 'report' },
  { name: 'report.pdf', label: reportWords.acts.pdf, key: 'p', place: 'report' },
  { name: 'report.figures', label: reportWords.acts.figures, key: 'f', place: 'report' },
  { name: 'report.toTrain', label: reportWords.acts.toTrain, key: 't', place: 'report' },
]);
