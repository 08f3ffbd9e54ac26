import type { ObstacleKind } from '../course/kinds.ts';
import type { TurnClass } from '../review/compare/byTurn.ts';
import type { Lock } from '../review/compare/lock.ts';
import type { CompareRemark } from '../review/compare/remarks.ts';
import type { OtherCourse } from '../review/compare/sameCourse.ts';
import { against, type Quantity } from '../time/quantity.ts';
import { figure, signedFigure } from './figures.ts';
import { listed, plural } from './locale.ts';
import { obstacleWords } from './trade.ts';

/** Most runs that stand side by side. */
export const mostCompared = 4;

/** Letters by which runs are told apart where their titles have no room. */
export const runLetters = ['A', 'B', 'C', 'D'] as const;
export const letterOf = (run: number): string => runLetters[run] ?? String(run + 1);

const startWords = {
  clockStart: 'the mark of the start line',
  firstTakeOff: 'the first take-off',
} as const;

/** Words of the screen on which runs stand side by side. */
export const compareWords = {
  title: 'Compare',
  acts: {
    open: 'Compare runs',
    with: 'Compare with…',
    down: 'Next run of the list',
    up: 'Previous run of the list',
    begin: 'Compare the chosen runs',
    play: 'Play or stop',
    nextFrame: 'One frame on',
    previousFrame: 'One frame back',
    tenForward: 'Ten frames on',
    tenBack: 'Ten frames back',
    nextObstacle: 'To the next obstacle',
    previousObstacle: 'To the obstacle before',
    first: 'To the beginning',
    last: 'To the end',
    slower: 'Slower',
    faster: 'Faster',
    lock: 'Same place, or same clock',
    parts: 'Take the next run apart',
    otherClips: 'Other clips of the same runs',
    measure: 'Measure against the next run',
    choose: 'Choose other runs',
  },
  choose: {
    title: 'Choose two to four runs',
    intro:
      'Runs of one course are matched obstacle by obstacle. Of runs over different courses only what can be shared is shown.',
    sameCourse: 'The same course',
    isSame: 'the same course',
    looking: 'Looking for runs of the same course…',
    others: 'Other runs',
    runs: 'Runs',
    chosen: (n: number) => plural(n, { one: '# run chosen', other: '# runs chosen' }),
    begin: (n: number) => (n < 2 ? 'Compare' : plural(n, { one: 'Compare # run', other: 'Compare # runs' })),
    few: 'Choose at least two runs first.',
    full: `${mostCompared} runs are the most that can stand side by side. Take one out first.`,
    one: 'There is only one run in this library. Film the same course again, or take in another review, and come back.',
    none: 'There is no run in this library yet. Bring in a video in the Library first.',
    obstacles: (n: number) => plural(n, { one: '# obstacle', other: '# obstacles' }),
    toLibrary: 'To the Library',
  },
  sameTwice: 'You chose the same review twice. A run beside itself shows nothing: choose another one.',
  tooMany: `More than ${mostCompared} runs were chosen. The first ${mostCompared} are shown.`,
  gone: (why: string) => `One of the chosen runs could not be opened. ${why}`,
  goneNext: 'Choose other runs; those that are there stay chosen.',
  opening: 'Opening the runs…',
  footage: 'Footage',
  lane: (letter: string, title: string) => `${letter}: ${title}`,
  lockNames: {
    place: 'Same place of the course',
    clock: 'Same time since the start',
  } satisfies Record<Lock, string>,
  lockLabel: 'Hold the pictures together by',
  speed: (speed: number) => (speed === 1 ? 'real time' : `1/${Math.round(1 / speed)} of real time`),
  play: 'Play',
  stop: 'Stop',
  toReview: 'Open this review',
  measureFirst: 'the measure',
  makeMeasure: (letter: string) => `Measure against ${letter}`,
  standing: (place: number, gap: string) => `after ${place}: ${gap}`,
  clip: (name: string, at: number, of: number) => `Clip ${at} of ${of}: ${name}`,
  picture: {
    none: 'No footage in this review: its figures are compared, its picture cannot be.',
    missing: (name: string) => `“${name}” is not where it was. Find the file in the Library.`,
    needsCopy: (name: string) => `“${name}” needs a working copy before it can be watched here.`,
    opening: 'Opening the clip…',
    nothing: 'There is nothing by which this run could be held to the other: no number is marked in both.',
    before: (seconds: string) => `The clip begins ${seconds} s later`,
    after: (seconds: string) => `The clip ended ${seconds} s ago`,
  },
  line: {
    label: 'Gap along the course',
    hint: 'Drag, or use the arrow keys: all pictures go along.',
    value: (seconds: string, place: string) =>
      place === '' ? `${seconds} seconds` : `${seconds} seconds, after ${place}`,
    behind: 'behind',
    ahead: 'ahead',
    none: 'No gap can be drawn: the runs share fewer than two numbers that are marked in both.',
    told: (letter: string, gap: string) => `${letter} ${gap}`,
  },
  summary: {
    title: 'The run as a whole',
    time: 'Run time',
    none: 'no clock',
    soFar: 'so far',
    together: (a: string, b: string, n: number) =>
      `${b} against ${a}, ${plural(n, { one: 'over the # stretch that both ran', other: 'over the # stretches that both ran' })}`,
    distance: 'by the way run',
    speed: 'by speed',
  },
  table: {
    title: 'Stretch by stretch',
    stretch: 'Stretch',
    fromStart: 'start',
    difference: (letter: string) => `${letter}’s difference`,
    distance: 'By way',
    speed: 'By speed',
    quickest: 'Quickest',
    notMarked: 'not marked',
    withheld: 'withheld',
    cannotTell: 'cannot tell',
    slower: 'slower',
    quicker: 'quicker',
    empty: 'No stretch is marked in these runs. Mark where each obstacle was taken, in the review.',
    note: 'Out to out, in seconds. “Cannot tell” stands where a difference is no larger than its plus or minus.',
    partsNote:
      'By way: seconds that go to a longer way. By speed: seconds that go to a lower speed. Together they are the difference.',
    partsOf: 'Difference shown',
    goTo: (stretch: string) => `Go to ${stretch}`,
  },
  best: {
    title: 'Quickest stretches together',
    of: (n: number, letter: string) => plural(n, { one: `# from ${letter}`, other: `# from ${letter}` }),
    caution:
      'Nobody has run this sum. A quick stretch may have been paid for on the next one; take it as a hint where to look, not as a time to reach.',
    incomplete: 'Stretches that no run has marked at both ends are not in it.',
    against: (letter: string, by: string) => `${by} under ${letter}’s run`,
  },
  map: {
    title: 'The course',
    lines: 'Lines of the dogs as measured',
    none: 'No course map is drawn for these runs.',
  },
  differ: {
    title: 'These runs are of different courses',
    shared:
      'So they cannot be matched obstacle by obstacle. What can be shared stands below, and nothing else: a time over one course says nothing about another.',
    kinds: 'Time on obstacles, by kind',
    kind: 'Kind',
    kindsNone: 'No kind of obstacle is marked at both edges in two of these runs.',
    kindCell: (mean: string, n: number) => `${mean} (${plural(n, { one: '# time', other: '# times' })})`,
    turns: 'Speed, by how far the dog turns on a stretch',
    turn: 'Turn',
    turnWords: {
      straight: 'straight on, under 45°',
      turn: 'a turn, 45° to 135°',
      back: 'a turn back, over 135°',
    } satisfies Record<TurnClass, string>,
    turnCell: (speed: string, n: number) =>
      `${speed} (${plural(n, { one: '# stretch', other: '# stretches' })})`,
    turnsNone: 'No two of these runs have stretches of the same turn with a measured line.',
    none: '–',
  },
} as const;

/** Which number tells two courses apart, as a sentence. */
export function otherCourseSentence(letter: string, first: string, other: OtherCourse): string {
  switch (other.why) {
    case 'count':
      return `${letter} is another course than ${first}: ${first} goes up to number ${other.counts[0]}, ${letter} to number ${other.counts[1]}.`;
    case 'kind':
      return `${letter} is another course than ${first}: number ${other.number} is another kind of obstacle.`;
    case 'place':
      return `${letter} is another course than ${first}: number ${other.number} stands in another place.`;
    case 'direction':
      return `${letter} is another course than ${first}: number ${other.number} is taken from the other side.`;
  }
}

const numbers = (places: readonly number[]): string => listed(places.map(String));

/** A remark on the runs as a sentence. */
export function remarkSentence(r: CompareRemark): string {
  if (r.remark === 'clocks') {
    const each = r.startedBy.map((s, i) => `${letterOf(i)} by ${s === null ? 'nothing yet' : startWords[s]}`);
    return `The clocks of these runs start by different things (${listed(each)}), so run times cannot be set against each other: gaps count from the first out that both have.`;
  }
  const run = letterOf(r.run);
  switch (r.remark) {
    case 'otherCourse':
      return otherCourseSentence(run, letterOf(0), r.other);
    case 'noFootage':
      return `${run} has no footage: without frames nothing of it can be timed.`;
    case 'nothingMarked':
      return `${run} has no obstacle marked yet. Mark where each was taken, in its review.`;
    case 'missing':
      return `${run} has no way out marked at ${numbers(r.places)}: the stretches on both sides stay open.`;
    case 'cutShort':
      return `${run} was marked up to ${r.after} of ${r.of}: it is compared as far as it goes.`;
    case 'takenTwice':
      return `${run} has ${numbers(r.places)} marked twice in one try, as after a refusal: the later taking counts, with the time it cost.`;
    case 'offCourse': {
      const at = r.places.flatMap((p) => (p === null ? [] : [p]));
      const where = at.length > 0 ? ` at ${numbers(at)}` : '';
      return `${run} went off course${where}: the time that took lies in the stretch to the next number.`;
    }
  }
}

/** A difference and what it says in words: a figure inside its plus or minus says nothing. */
export function differenceTold(q: Quantity): {
  readonly figure: string;
  readonly word: string;
  readonly sure: boolean;
} {
  const stands = against(q, 0);
  const word =
    stands === 'open'
      ? compareWords.table.cannotTell
      : stands === 'above'
        ? compareWords.table.slower
        : compareWords.table.quicker;
  return { figure: signedFigure({ ...q, unit: '1' }), word, sure: stands !== 'open' };
}

/** A gap at a place, as the curve tells it. */
export function gapTold(q: Quantity): string {
  const stands = against(q, 0);
  const size = figure({ ...q, value: Math.abs(q.value) });
  if (stands === 'open') return `level or nearly: ${signedFigure(q)}`;
  return `${size} ${stands === 'above' ? compareWords.line.behind : compareWords.line.ahead}`;
}

/** Why parts are withheld: which runs have no line that was measured. */
export function withheldSentence(titles: readonly string[]): string {
  return `Way and speed are withheld: the dog’s line is not measured in ${listed(titles.map((t) => `“${t}”`))}.`;
}

export const partlyWithheld =
  'Where a part is withheld, the dog’s line does not reach from out to out in both runs.';

export const kindWord = (kind: ObstacleKind, dialect: 'british' | 'american'): string =>
  obstacleWords[dialect][kind];
