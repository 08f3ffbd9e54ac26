import { courseWords } from '../../../src/words/course.ts';
import { defineActs } from '../keys/act.ts';

export const courseActs = defineActs([
  { name: 'course.addObstacle', label: courseWords.acts.addObstacle, key: 'a', place: 'course' },
  { name: 'course.attachPicture', label: courseWords.acts.attachPicture, key: 'p', place: 'course' },
  { name: 'course.placeNumbers', label: courseWords.acts.placeNumbers, key: 'n', place: 'course' },
  { name: 'course.addCross', label: courseWords.acts.addCross, key: 'x', place: 'course' },
  { name: 'course.nextNumber', label: courseWords.acts.nextNumber, key: '.', place: 'course', repeat: true },
  {
    name: 'course.previousNumber',
    label: courseWords.acts.previousNumber,
    key: ',',
    place: 'course',
    repeat: true,
  },
  { name: 'course.left', label: courseWords.acts.left, key: 'ArrowLeft', place: 'course', repeat: true },
  { name: 'course.right', label: courseWords.acts.right, key: 'ArrowRight', place: 'course', repeat: true },
  { name: 'course.up', label: courseWords.acts.up, key: 'ArrowUp', place: 'course', repeat: true },
  { name: 'course.down', label: courseWords.acts.down, key: 'ArrowDown', place: 'course', repeat: true },
]);
