import { clipWords } from '../../../src/words/clip.ts';
import { defineActs } from '../keys/act.ts';

export const clipActs = defineActs([
  { name: 'clip.open', label: clipWords.acts.open, key: 'F7', place: 'anywhere' },
  { name: 'clip.short', label: clipWords.acts.short, key: 'c', place: 'report' },
]);
