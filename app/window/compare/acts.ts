import { compareWords } from '../../../src/words/compare.ts';
import { defineActs } from '../keys/act.ts';

const words = compareWords.acts;

/** While runs are chosen, and while they stand side by side. */
const choosing = 'compare.choosing';
const beside = 'compare.beside';

export const compareActs = defineActs([
  { name: 'compare.down', label: words.down, key: 'ArrowDown', place: choosing, repeat: true },
  { name: 'compare.up', label: words.up, key: 'ArrowUp', place: choosing, repeat: true },
  { name: 'compare.begin', label: words.begin, key: 'c', place: choosing },
  { name: 'compare.play', label: words.play, key: 'Space', place: beside },
  { name: 'compare.nextFrame', label: words.nextFrame, key: 'ArrowRight', place: beside, repeat: true },
  {
    name: 'compare.previousFrame',
    label: words.previousFrame,
    key: 'ArrowLeft',
    place: beside,
    repeat: true,
  },
  {
    name: 'compare.tenForward',
    label: words.tenForward,
    key: '.',
    also: ['Shift+ArrowRight'],
    place: beside,
    repeat: true,
  },
  {
    name: 'compare.tenBack',
    label: words.tenBack,
    key: ',',
    also: ['Shift+ArrowLeft'],
    place: beside,
    repeat: true,
  },
  { name: 'compare.nextObstacle', label: words.nextObstacle, key: 'ArrowDown', place: beside, repeat: true },
  {
    name: 'compare.previousObstacle',
    label: words.previousObstacle,
    key: 'ArrowUp',
    place: beside,
    repeat: true,
  },
  { name: 'compare.first', label: words.first, key: 'Home', place: beside },
  { name: 'compare.last', label: words.last, key: 'End', place: beside },
  { name: 'compare.slower', label: words.slower, key: '[', place: beside },
  { name: 'compare.faster', label: words.faster, key: ']', place: beside },
  { name: 'compare.lock', label: words.lock, key: 'l', place: beside },
  { name: 'compare.parts', label: words.parts, key: 'd', place: beside },
  { name: 'compare.otherClips', label: words.otherClips, key: 'q', place: beside },
  { name: 'compare.measure', label: words.measure, key: 'm', place: beside },
  { name: 'compare.choose', label: words.choose, key: 'c', place: beside },
]);
