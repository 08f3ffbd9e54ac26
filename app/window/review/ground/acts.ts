import { groundWords } from '../../../../src/words/groundPage.ts';
import { defineActs } from '../../keys/act.ts';

const words = groundWords.keys;
const place = 'review.ground';

/** Acts of fitting the course to the picture. While its cross-hair has the focus, the arrow keys move it too. */
export const groundActs = defineActs([
  { name: 'review.ground', label: words.open, key: 'F7', place: 'review.marking' },
  { name: 'review.ground.up', label: words.up, key: 'i', place, repeat: true },
  { name: 'review.ground.left', label: words.left, key: 'j', place, repeat: true },
  { name: 'review.ground.down', label: words.down, key: 'k', place, repeat: true },
  { name: 'review.ground.right', label: words.right, key: 'l', place, repeat: true },
  { name: 'review.ground.far', label: words.far, key: 'g', place },
  { name: 'review.ground.set', label: words.set, key: 'Enter', place },
  { name: 'review.ground.next', label: words.next, key: 'n', place },
  { name: 'review.ground.previous', label: words.previous, key: 'b', place },
  { name: 'review.ground.agree', label: words.agree, key: 'a', place },
  { name: 'review.ground.remove', label: words.remove, key: 'Delete', place },
  { name: 'review.ground.worst', label: words.worst, key: 'w', place },
  { name: 'review.ground.course', label: words.course, key: 'c', place },
  { name: 'review.ground.error', label: words.error, key: 'e', place },
  { name: 'review.ground.refit', label: words.refit, key: 'f', place },
  { name: 'review.ground.stretch', label: words.stretch, key: 's', place },
  { name: 'review.ground.over', label: words.over, key: 'x', place },
]);
