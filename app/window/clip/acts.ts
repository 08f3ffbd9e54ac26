import { clipWords } from '../../../src/words/clip.ts';
import { defineActs } from '../keys/act.ts';

const { open, short } = clipWords.acts;

export const clipActs = defineActs([
  { name: 'clip.review', label: open, key: '*', place: 'review' },
  { name: 'clip.compare', label: open, key: '*', place: 'compare.beside' },
  { name: 'clip.short', label: short, key: 'c', place: 'report' },
]);
