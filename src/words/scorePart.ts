import type { RuleBook } from '../course/rules/book.ts';
import type { Score } from '../course/rules/score.ts';
import type { RunClock } from '../review/analysis.ts';
import { most, type Quantity } from '../time/quantity.ts';
import { figure } from './figures.ts';
import { plural } from './locale.ts';
import { scoreWords } from './score.ts';

/** Words of the score beside the splits of a run. */
export const scorePartWords = {
  title: 'Score',
  book: 'Rule book',
  noBook: 'none chosen',
  reading: 'Reading the rule book…',
  notHere: (name: string): string =>
    `The rule book “${name}” is not in this library. Take it in under Settings, or choose another.`,
  choose: 'Choose the rule book that this run is scored by.',
  by: (book: RuleBook, level: string): string => (level === '' ? book.name : `${book.name}, ${level}`),
  tries: (counted: number): string =>
    counted === 1 ? 'One try at the start.' : `${counted} tries at the start; the last one counts.`,
  run: 'Run',
  between: (fastest: Score, slowest: Score): string =>
    scoreWords.faultsBetween(fastest, slowest) ??
    `The plus or minus of the time lies across a limit. At its fastest: ${scoreWords.told(fastest)} At its slowest: ${scoreWords.told(slowest)}`,
  counted: 'What counts',
  faults: (faults: string): string => `${faults} faults`,
  notCounted: 'Noted, and does not count',
  onlyNoted: (n: number): string =>
    plural(n, {
      one: '# more event is noted that no rule book judges.',
      other: '# more events are noted that no rule book judges.',
    }),
  outside: (n: number): string =>
    plural(n, { one: '# lies in a try that does not count.', other: '# lie in tries that do not count.' }),
  unofficial: scoreWords.unofficial,
  toRules: 'Course times and level: page Rules of the Course',
  clock: {
    title: 'Clock',
    startMark: 'Clock starts at this frame',
    stopMark: 'Clock stops at this frame',
    hint: 'Where a start or finish line is in sight, mark the frame in which she crosses it; until then the clock runs from the first take-off to the last landing.',
    goStart: 'Go to its start',
    goStop: 'Go to its stop',
  },
  official: {
    title: 'What the ring said',
    time: 'Official time, s',
    faults: 'Faults on the course',
    eliminated: 'Eliminated',
    badTime: 'An official time is a number of seconds from 0.01 to 10,000. It was left as it was.',
    badFaults: 'Faults are a number from 0 to 10,000. They were left as they were.',
    act: 'What the ring said',
    agrees: (clock: RunClock): string => `Our clock agrees within its plus or minus (${figure(clock.time)}).`,
    differs: (difference: Quantity): string =>
      `Our clock reads ${figure({ ...difference, value: Math.abs(difference.value) })} ${difference.value > 0 ? 'more' : 'less'}: it runs between other moments than the ring’s, or a mark is off.`,
    notYet: 'Our clock does not read the whole run yet.',
    kept: 'Kept beside our figures; the score above goes by ours.',
  },
} as const;

/** How our clock stands to the ring's: within plus or minus, off by so much, or not to be held against it yet. */
export function besideOfficial(time: number, clock: RunClock | null): string {
  const words = scorePartWords.official;
  if (!clock?.complete) return words.notYet;
  // Timing equipment reads hundredths: half of one is its own doubt.
  const difference: Quantity = {
    value: clock.time.value - time,
    plusMinus: clock.time.plusMinus + 0.005,
    unit: 's',
  };
  const apart = most({ ...difference, value: -Math.abs(difference.value) }) < 0;
  return apart ? words.differs(difference) : words.agrees(clock);
}
