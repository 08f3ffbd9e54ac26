import { libraryWords } from '../../../src/words/library.ts';
import { defineActs } from '../keys/act.ts';

export const libraryActs = defineActs([
  { name: 'library.bringIn', label: libraryWords.acts.bringIn, key: 'b', place: 'library' },
  { name: 'library.fromMachine', label: libraryWords.acts.fromMachine, key: 'm', place: 'library' },
  { name: 'library.newReview', label: libraryWords.acts.newReview, key: 'n', place: 'library' },
  { name: 'library.reviewFile', label: libraryWords.acts.reviewFile, key: 'r', place: 'library' },
  { name: 'library.compare', label: libraryWords.acts.compare, key: 'c', place: 'library' },
  { name: 'library.find', label: libraryWords.acts.find, key: '/', place: 'library' },
  { name: 'library.down', label: libraryWords.acts.down, key: 'ArrowDown', place: 'library', repeat: true },
  { name: 'library.up', label: libraryWords.acts.up, key: 'ArrowUp', place: 'library', repeat: true },
  { name: 'library.remove', label: libraryWords.acts.remove, key: 'Delete', place: 'library' },
]);
