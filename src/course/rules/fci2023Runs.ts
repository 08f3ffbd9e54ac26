import { judgedRefusals } from '../refusals.ts';
import type { RuleBookInput } from './book.ts';
import { denmark, practice, remembered2018, singapore, various } from './fciSources.ts';

const wholeSecond = { toSeconds: 1, way: 'up' } as const;

export const fciTimes: NonNullable<RuleBookInput['times']> = {
  standard: [
    {
      levels: ['3'],
      rule: {
        value: { form: 'bestTime', addPercent: 15, rounding: wholeSecond },
        source: remembered2018,
        status: 'memory',
      },
    },
    {
      rule: {
        value: { form: 'lengthOverSpeed' },
        source: practice,
        status: 'practice',
        remark: 'The judge chooses the speed for the class; no number was found.',
      },
    },
  ],
  maximum: [
    {
      disciplines: ['agility'],
      rule: {
        value: { form: 'lengthOverSpeed', metresPerSecond: 2 },
        source: remembered2018,
        status: 'memory',
      },
    },
    {
      disciplines: ['jumping'],
      rule: {
        value: { form: 'lengthOverSpeed', metresPerSecond: 2.5 },
        source: remembered2018,
        status: 'memory',
      },
    },
  ],
};

const five = { value: 5, source: various.faults, status: 'seen' } as const;

export const fciScoring: NonNullable<RuleBookInput['scoring']> = {
  faults: { knockDown: five, missedContact: five, refusal: five, handlerTouch: five },
  refusals: { value: [...judgedRefusals], source: various.refusals, status: 'seen' },
  lastRefusal: {
    value: 3,
    source: various.olderEliminations,
    status: 'seen',
    remark: 'Counted over the whole course.',
  },
  contacts: {
    value: [
      { kind: 'aFrame', up: false, down: true },
      { kind: 'dogWalk', up: false, down: true },
      { kind: 'seeSaw', up: true, down: true },
    ],
    source: singapore,
    status: 'seen',
  },
  pawsToLeave: { value: 4, source: singapore, status: 'seen' },
  eliminations: {
    value: [
      'refusals',
      'overMaximumTime',
      'wrongOrder',
      'wrongDirection',
      'forgottenObstacle',
      'collar',
      'objectInHand',
      'handlerTookObstacle',
      'fouledRing',
      'leftRing',
      'restarted',
      'destroyedNextObstacle',
    ],
    source: various.olderEliminations,
    status: 'seen',
  },
  timeFaults: {
    value: { points: 1, perSeconds: 1, counting: 'exact' },
    source: various.timeFaults,
    status: 'seen',
  },
  resultClasses: {
    value: [
      { id: 'excellent', name: 'Excellent', upTo: 5.99 },
      { id: 'veryGood', name: 'Very good', upTo: 15.99 },
      { id: 'good', name: 'Good', upTo: 25.99 },
    ],
    source: various.older,
    status: 'seen',
    remark:
      'The text gives no class to more than 26 faults and leaves 26.00 itself open; here 26.00 has none.',
  },
  ranking: {
    value: { keys: ['total', 'courseFaults', 'time'], ties: 'equalPlaceOrRunOff' },
    source: denmark,
    status: 'seen',
  },
  levels: ['1', '2', '3'].map((id) => ({
    value: { id, name: id, beginners: id === '1' },
    source: remembered2018,
    status: 'memory' as const,
    remark: 'Everything counts: no text was found that leaves anything out for beginners.',
  })),
  runs: {
    trial: {
      value: { setAside: [], resultClass: true },
      source: practice,
      status: 'practice',
    },
    class: {
      value: { setAside: ['collar', 'objectInHand', 'restarted'], resultClass: false },
      source: practice,
      status: 'practice',
      remark: 'A lesson: a toy and a second set-up are normal.',
    },
    training: {
      value: {
        setAside: [
          'refusals',
          'overMaximumTime',
          'collar',
          'objectInHand',
          'handlerTookObstacle',
          'restarted',
        ],
        resultClass: false,
      },
      source: practice,
      status: 'practice',
      remark: 'Trying again is what training is for; faults are still noted.',
    },
  },
};
