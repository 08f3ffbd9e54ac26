import { windowWords } from '../../../src/words/window.ts';
import { defineActs } from '../keys/act.ts';

/** Acts of the frame around all screens. */
export const frameActs = defineActs([
  { name: 'frame.keys', label: windowWords.acts.keys, key: '?', also: ['F1'], place: 'anywhere' },
  {
    name: 'frame.undo',
    label: windowWords.acts.undo,
    key: 'z',
    also: ['Ctrl+z'],
    place: 'anywhere',
    repeat: true,
  },
  {
    name: 'frame.redo',
    label: windowWords.acts.redo,
    key: 'y',
    also: ['Ctrl+y', 'Ctrl+Shift+z'],
    place: 'anywhere',
    repeat: true,
  },
  { name: 'frame.library', label: windowWords.acts.library, key: 'F2', place: 'anywhere' },
  { name: 'frame.course', label: windowWords.acts.course, key: 'F3', place: 'anywhere' },
  { name: 'frame.review', label: windowWords.acts.review, key: 'F4', place: 'anywhere' },
  { name: 'frame.compare', label: windowWords.acts.compare, key: 'F10', place: 'anywhere' },
  { name: 'frame.report', label: windowWords.acts.report, key: 'F6', place: 'anywhere' },
  { name: 'frame.settings', label: windowWords.acts.settings, key: 'F8', place: 'anywhere' },
  { name: 'frame.dismiss', label: windowWords.acts.dismiss, key: 'Backspace', place: 'anywhere' },
]);
