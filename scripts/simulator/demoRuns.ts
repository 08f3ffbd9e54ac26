import type { Act, Handling, Trigger } from './actors/handling.ts';
import { demoCourse } from './ground/demoCourse.ts';
import type { RunOrder } from './run/run.ts';

interface Choice {
  readonly front: Trigger;
  readonly rearDelay: number;
  readonly blindDelay: number;
}

function acts(choice: Choice): Act[] {
  return [
    { do: 'go', when: { on: 'release', delay: 0.35 }, to: [{ x: 23.4, y: 8.3 }], speed: 4.4 },
    {
      do: 'cross',
      when: choice.front,
      place: 3,
      kind: 'front',
      before: 'right',
      after: 'left',
      cues: { slowing: 0, shoulders: 0.05, feet: 0.12, voice: 0.2 },
      turnTime: 0.62,
      through: [
        { x: 24.9, y: 9.4 },
        { x: 26.6, y: 11.0 },
      ],
      speed: 3.4,
    },
    {
      do: 'go',
      when: { on: 'dog', place: 4, moment: 'commit', delay: 0.15 },
      to: [{ x: 27.4, y: 12.4 }],
      speed: 3.6,
    },
    { do: 'say', when: { on: 'dog', place: 4, moment: 'in', delay: 0.1 }, word: 'tunnel' },
    {
      do: 'go',
      when: { on: 'dog', place: 5, moment: 'commit', delay: 0.2 },
      to: [
        { x: 29.4, y: 9.8 },
        { x: 28.4, y: 7.4 },
      ],
      speed: 4.2,
    },
    { do: 'say', when: { on: 'dog', place: 5, moment: 'out', delay: -0.1 }, word: 'jump' },
    {
      do: 'go',
      when: { on: 'dog', place: 6, moment: 'commit', delay: 0.1 },
      to: [{ x: 25.6, y: 4.5 }],
      speed: 4.4,
    },
    { do: 'say', when: { on: 'dog', place: 6, moment: 'landing', delay: 0 }, word: 'poles' },
    {
      do: 'go',
      when: { on: 'dog', place: 7, moment: 'in', delay: 0.3 },
      to: [{ x: 18.4, y: 4.3 }],
      speed: 2.9,
    },
    {
      do: 'go',
      when: { on: 'dog', place: 7, moment: 'out', delay: -0.1 },
      to: [
        { x: 14.2, y: 4.7 },
        { x: 11.6, y: 6.4 },
      ],
      speed: 4.6,
    },
    {
      do: 'go',
      when: { on: 'dog', place: 8, moment: 'commit', delay: 0.35 },
      to: [
        { x: 10.8, y: 7.6 },
        { x: 10.9, y: 10.4 },
      ],
      speed: 4.2,
    },
    {
      do: 'go',
      when: { on: 'dog', place: 9, moment: 'commit', delay: 0.3 },
      to: [
        { x: 11.6, y: 11.7 },
        { x: 14.9, y: 11.7 },
      ],
      speed: 4.4,
    },
    { do: 'say', when: { on: 'dog', place: 9, moment: 'landing', delay: 0 }, word: 'climb' },
    {
      do: 'cross',
      when: { on: 'dog', place: 10, moment: 'out', delay: choice.rearDelay },
      place: 11,
      kind: 'rear',
      before: 'left',
      after: 'right',
      cues: { slowing: null, shoulders: 0.1, feet: 0, voice: 0.25 },
      turnTime: 0.5,
      through: [
        { x: 17.3, y: 13.2 },
        { x: 18.9, y: 15.1 },
      ],
      speed: 4.8,
    },
    {
      do: 'go',
      when: { on: 'dog', place: 11, moment: 'landing', delay: 0.1 },
      to: [{ x: 20.6, y: 15.6 }],
      speed: 3.8,
    },
    {
      do: 'go',
      when: { on: 'dog', place: 12, moment: 'commit', delay: 0.3 },
      to: [
        { x: 17.4, y: 16.4 },
        { x: 9.6, y: 16.2 },
      ],
      speed: 5.0,
    },
    { do: 'say', when: { on: 'dog', place: 12, moment: 'landing', delay: 0 }, word: 'climb' },
    {
      do: 'go',
      when: { on: 'dog', place: 13, moment: 'out', delay: -0.15 },
      to: [{ x: 9.0, y: 15.4 }],
      speed: 4.2,
    },
    { do: 'say', when: { on: 'dog', place: 13, moment: 'out', delay: 0 }, word: 'tunnel' },
    {
      do: 'go',
      when: { on: 'dog', place: 14, moment: 'commit', delay: 0.25 },
      to: [
        { x: 10.4, y: 11.7 },
        { x: 15.4, y: 11.4 },
      ],
      speed: 5.0,
    },
    { do: 'say', when: { on: 'dog', place: 14, moment: 'out', delay: 0 }, word: 'climb' },
    {
      do: 'cross',
      when: { on: 'dog', place: 15, moment: 'in', delay: choice.blindDelay },
      place: 15,
      kind: 'blind',
      before: 'right',
      after: 'left',
      cues: { slowing: null, shoulders: 0.1, feet: 0, voice: null },
      turnTime: 0.5,
      through: [
        { x: 16.4, y: 10.6 },
        { x: 17.8, y: 8.3 },
      ],
      speed: 4.8,
    },
    {
      do: 'go',
      when: { on: 'dog', place: 16, moment: 'commit', delay: 0.1 },
      to: [{ x: 22.6, y: 8.0 }],
      speed: 4.2,
    },
    { do: 'say', when: { on: 'dog', place: 16, moment: 'in', delay: -0.2 }, word: 'turn' },
    {
      do: 'go',
      when: { on: 'dog', place: 17, moment: 'commit', delay: 0.0 },
      to: [
        { x: 18.6, y: 8.1 },
        { x: 12.8, y: 8.4 },
      ],
      speed: 5.2,
    },
  ];
}

const traits = { topSpeed: 6.6, reaction: 0.25, commitDistance: 4.2, weaveSpeed: 2.75 };

function handling(tries: Handling['tries'], choice: Choice): Handling {
  return { tries, acts: acts(choice), meet: { x: 9.0, y: 8.3 }, after: 3.4 };
}

/** The first run: broken stay and a second try, late front cross, bar at 9, wrong entry at 7. */
export const runA: RunOrder = {
  seed: 411,
  course: demoCourse,
  traits,
  happenings: { lowOver: [9], wrongEntry: [7], natural: false },
  handling: handling(
    [
      { leadOut: [{ x: 20.6, y: 8.3 }], leadSpeed: 3.2, breakAfter: 1.5, fakes: [], releaseAfter: 1 },
      { leadOut: [{ x: 19.2, y: 8.3 }], leadSpeed: 3.8, breakAfter: null, fakes: [], releaseAfter: 0.35 },
    ],
    { front: { on: 'expected', place: 3, lead: -0.3 }, rearDelay: 0.15, blindDelay: 0.7 },
  ),
};

/** A month later: the stay holds through a fake, the crosses come in time, the entry is clean. */
export const runB: RunOrder = {
  seed: 412,
  course: demoCourse,
  traits: { ...traits, topSpeed: 6.7, weaveSpeed: 2.85 },
  happenings: { natural: false },
  handling: handling(
    [{ leadOut: [{ x: 22.3, y: 8.4 }], leadSpeed: 3.4, breakAfter: null, fakes: [0.35], releaseAfter: 1.5 }],
    { front: { on: 'dog', place: 2, moment: 'in', delay: 0.12 }, rearDelay: 0.0, blindDelay: 0.6 },
  ),
};
