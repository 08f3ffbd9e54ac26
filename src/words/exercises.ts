import type { Exercise } from '../review/exercise.ts';
import type { WorkTheme } from '../review/workOn.ts';
import { beforeThisPage } from './cautions.ts';

/** What there is to work on, as a coach says it to a student. */
export const workThemeWords: Readonly<Record<WorkTheme, string>> = {
  stay: 'Waiting at the start',
  happy: 'A run she enjoys',
  lateCross: 'Showing the cross sooner',
  earlyCross: 'Staying until she is committed',
  entry: 'The weave poles',
  contact: 'The contacts',
  refusal: 'Sending her over it',
  order: 'Keeping her off the wrong obstacle',
  turn: 'Tighter turns',
  bar: 'The bars',
};

/** A few exercises to begin from, all common practice, told in our own words. The coach changes them as she likes. */
export const usualExercises: readonly Exercise[] = [
  {
    id: 'usual-stay',
    themes: ['stay'],
    title: 'Pay the wait',
    how: 'Set her up at one low jump. Walk out, come back and reward her where she sits, four times of five; release her the fifth time. If a paw moves, set her up again without a word, a step closer.',
  },
  {
    id: 'usual-happy',
    themes: ['happy'],
    title: 'Three and a party',
    how: 'Two tunnels and a low jump in a straight line, a favourite toy at the end. Run it once or twice and stop while she would like more. If she looks worried, make it easier, not longer.',
  },
  {
    id: 'usual-late',
    themes: ['lateCross'],
    title: 'A mark where the cue begins',
    how: 'Put a flat marker two strides before the jump, where you want your turn to begin. Walk it without the dog until your feet know it, then run it, film it and look at the frame of her take-off.',
  },
  {
    id: 'usual-early',
    themes: ['earlyCross'],
    title: 'Watch her commit',
    how: 'One low jump, on a straight line. Hold your line beside it until you see her eyes and weight go to the bar, say so aloud, and only then cross behind her. Let somebody film whether you were right.',
  },
  {
    id: 'usual-entry',
    themes: ['entry'],
    title: 'The fan',
    how: 'Send her into a short set of poles from a fan of places, the easy middle first, a step to either side each time. Two or three entries from each place, then rest.',
  },
  {
    id: 'usual-contact',
    themes: ['contact'],
    title: 'Show me the end',
    how: 'Lift her on near the end of the ramp, or use a plank on the ground. Reward where you want her paws to be. Then the whole obstacle, at a walk before at a run.',
  },
  {
    id: 'usual-refusal',
    themes: ['refusal', 'order'],
    title: 'That one, not this one',
    how: 'Two low jumps side by side. Your feet and eyes on the one you mean, hold the line until she has taken it, reward beyond it. Change which one, and from which side you come.',
  },
  {
    id: 'usual-turn',
    themes: ['turn'],
    title: 'Round the wing',
    how: 'One low bar. Slow down before her take-off, turn your shoulders, and reward close behind the wing as she lands. Both ways round, few times each: tight turns are hard on shoulders and toes.',
  },
  {
    id: 'usual-bar',
    themes: ['bar'],
    title: 'A quiet row',
    how: 'Three low bars in a row at an even distance, no handler running beside. Reward ahead of her. If she goes on touching bars she cleared before, have her looked at by a veterinarian before you train on.',
  },
];

/** What stands under every exercise (common practice among trainers and veterinarians). */
export const exerciseCautions = [
  'Warm up first and keep it short: few tries, low bars, ground that grips.',
  'Growing dogs do not drill full-height jumps, weave poles or contacts; repeated tight turns strain any dog.',
  beforeThisPage,
] as const;

/** Words of the list of exercises in Settings. */
export const exerciseListWords = {
  title: 'Exercises',
  intro:
    'What a report may put beside something to work on. The first of the list that helps with it is the one proposed.',
  one: 'Name',
  how: 'How it is done',
  helps: 'Helps with',
  add: 'Add an exercise',
  newTitle: 'A new exercise',
  remove: (title: string): string => `Take out “${title}”`,
  removeShort: 'Take out',
  up: (title: string): string => `Move “${title}” up`,
  upShort: 'Move up',
  usual: 'Back to the usual ones',
  none: 'The list is empty: what to work on is told without an exercise.',
  full: (most: number): string => `The list holds ${most} exercises at the most.`,
  needsTheme: 'An exercise helps with one thing at least. It was left as it was.',
  needsTitle: 'An exercise needs a name. It was left as it was.',
} as const;
