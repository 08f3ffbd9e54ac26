import type { RunClock, Warning } from '../review/analysis.ts';
import type { Header } from '../review/document.ts';
import { locale, plural } from './locale.ts';
import { capital, say, type Sentence } from './sentence.ts';
import { crossWords } from './trade.ts';
import type { CrossKind } from '../plan/plan.ts';

/** Words of the coaching report, the file that the student receives. */
export const coachingReport = {
  overline: 'Coaching report',
  shortOverline: 'Coaching report in short',
  forCoach: (overline: string): string => `${overline} · the coach’s own copy`,
  headings: {
    wentWell: 'What went well',
    glance: 'The run at a glance',
    splits: 'Splits',
    courseAndSplits: 'The course and its splits',
    crosses: 'Crosses, one by one',
    startLine: 'At the start line',
    drawings: 'Drawn on the footage',
    events: 'Noted along the way',
    toTrain: 'To train',
    cautions: 'Before you train',
    notes: 'Notes from your coach',
    coachNotes: 'For the coach only',
    result: 'Result',
    crossesShort: 'Crosses',
    smallPrint: 'The small print',
    plusMinus: 'What plus or minus means',
    clips: 'Footage this was read from',
    doubts: 'What does not fit together yet',
  },
  runKind: { training: 'Training run', trial: 'Trial run', class: 'Run in class' } satisfies Record<
    Header['runKind'],
    string
  >,
  team: (handler: string, dog: string): string =>
    handler !== '' && dog !== '' ? `${handler} and ${dog}` : handler + dog,
  someDog: 'the dog',
  someHandler: 'the handler',
  runClock: 'On the clock',
  clockBy: (clock: Pick<RunClock, 'startedBy' | 'stoppedBy' | 'complete'>): string => {
    const from = clock.startedBy === 'clockStart' ? 'the start line' : 'the first take-off';
    const to = clock.stoppedBy === 'clockStop' ? 'the finish line' : 'the last landing';
    return clock.complete ? `from ${from} to ${to}` : `from ${from} to ${to}, as far as the run is marked`;
  },
  noClock: 'The run is not timed yet: its first and last obstacle are not both marked.',
  taken: 'Obstacles',
  takenOf: (taken: number, all: number): string =>
    all === 0
      ? plural(taken, { one: '# taken', other: '# taken' })
      : taken === all
        ? `all ${all} taken`
        : `${taken} of ${all} taken`,
  tries: 'Tries',
  countedTry: (tries: number, counted: number): string =>
    tries <= 1 ? 'one' : `${plural(tries, { one: '# try', other: '# tries' })}; try ${counted} is told here`,
  crossesInTime: 'Crosses',
  crossCount: (inTime: number, all: number): string => `${inTime} of ${all} in time`,
  noNumbers: 'no numbers yet',

  band: 'The run on one line of time. Each length is a stretch, each post the obstacle where it ended. The splits below give the same in figures.',
  bandCaption:
    'The run on one line of time, to scale: each length is a stretch, each post the obstacle where it ended. Small diamonds are things noted there.',
  bandCrosses: 'Signs below the line are crosses:',
  mapText: (obstacles: number): string =>
    `${plural(obstacles, { one: 'Map of the course with # number.', other: 'Map of the course with # numbers.' })} Drawn to scale, as it stands on the grass.`,
  numbersOnly: (numbers: number): string =>
    plural(numbers, {
      one: 'Where # number stands on the judge’s map, joined in order.',
      other: 'Where the # numbers stand on the judge’s map, joined in order.',
    }),

  result: 'Result, unofficial',
  lines: {
    both: 'The full line is the way she ran, the dashed one the way that was wanted.',
    real: 'The full line is the way she ran.',
    wanted: 'The dashed line is the way that was wanted.',
  },
  splitsCaption: 'Time from one obstacle to the next, out to out, and the clock as each was done.',
  columns: {
    obstacle: 'Obstacle',
    split: 'Split',
    clock: 'Clock',
    way: 'Way and speed',
    event: 'What',
    place: 'Where',
    note: 'Note',
    clip: 'Clip',
    frames: 'Frames',
    picture: 'Picture',
    marks: 'Marks',
  },
  start: 'Start',
  noSplits: 'No split can be given yet: mark at least two obstacles as taken.',

  crossAt: (kind: CrossKind, place: number): string => `${crossWords[kind]} at ${place}`,
  planned: (kind: CrossKind, secondChoice: CrossKind | undefined): string =>
    secondChoice
      ? `Planned: ${crossWords[kind]}, else ${crossWords[secondChoice]}.`
      : `Planned: ${crossWords[kind]}.`,
  thePlan: (cross: string): string => `${cross}: the plan`,
  secondChoiceRun: 'The plan’s second choice was run.',
  otherKindRun: 'It was run as another kind than planned.',
  unplanned: 'Not in the plan.',
  plannedOnly: 'In the plan, not marked in this run:',
  figures: {
    lead: (edge: string): string => `Cue to ${edge}`,
    leadFrames: 'In frames',
    finish: (edge: string): string => `Finished to ${edge}`,
    committed: 'Cue to commitment',
    stride: 'Stride asked for',
    price: (from: number, to: number): string => `From ${from} to ${to}, over the wanted line`,
  },
  commitment: 'commitment to the obstacle',
  cue: (cue: string): string => `cue begins: ${cue}`,
  cueUnnamed: 'cue begins',
  frame: (n: number): string => `frame ${n}`,
  frameIn: (n: number, clip: string): string => `frame ${n} of ${clip}`,
  onClock: 'on the clock',
  strip: 'The moments of this cross in the order they came, to scale. Those below give the same in words.',
  stillOf: (what: string, frame: string, where: string): string => `${capital(frame)}, ${where}: ${what}.`,
  stillsMissing: 'The footage was not at hand when this was written, so there are no pictures.',
  someStillsMissing: (n: number): string =>
    plural(n, { one: '# picture could not be made.', other: '# pictures could not be made.' }),
  stillsCapped: (n: number): string => `Pictures are shown for the first ${n} moments only.`,

  tryNamed: (n: number): string => `Try ${n}`,
  drawnAlt: 'The coach’s drawing on a frame of the run.',
  ownEvent: 'noted',
  eventsCaption: 'Events in the order of the obstacles.',
  nowhere: 'along the way',
  refusal: (event: string, how: string): string => `${event}, ${how}`,

  fact: {
    stay: (tries: number, n: number): string =>
      tries > 1 ? `The stay was kept in try ${n}.` : 'The stay was kept.',
    stayFor: <P>(tries: number, n: number, stay: P): Sentence<P> =>
      tries > 1
        ? say`The stay was kept in try ${String(n)}: ${stay} from setting up to the release.`
        : say`The stay was kept: ${stay} from setting up to the release.`,
    cross: <P>(kind: CrossKind, where: Sentence<P>, lead: P | null, edge: string): Sentence<P> =>
      lead === null
        ? [`The ${crossWords[kind]} at `, ...where, ' was in time.']
        : [`The ${crossWords[kind]} at `, ...where, ' was in time: the cue came ', lead, ` before ${edge}.`],
    clean: (from: number, to: number): string => `From ${from} to ${to} no fault was marked.`,
    wholeRun: (count: number): string =>
      `All ${count} obstacles were taken, and no fault was marked on the way.`,
    all: (count: number): string => `All ${count} obstacles were taken.`,
    happy: <P>(where: Sentence<P> | null): Sentence<P> =>
      where === null ? ['A happy sign was noted.'] : ['A happy sign was noted at ', ...where, '.'],
    reward: <P>(where: Sentence<P> | null): Sentence<P> =>
      where === null ? ['A reward was given.'] : ['A reward was given at ', ...where, '.'],
  },
  noFacts:
    'Too little is marked to say it in figures. That is no judgement: it only means the marks are not there yet.',

  /** Under what the run itself says to train, where the coach has not said it in her own words. */
  byTheRun: 'By what was marked and how far the dog is in training; your coach’s word goes before it.',
  alsoSeen: 'Also seen, for another day:',
  trainLost: (seconds: number): string => `took ${seconds.toFixed(1)} s over the wanted line`,
  inFull: 'The full report tells the rest.',
  moreCrosses: (n: number): string =>
    plural(n, {
      one: '# more cross is in the full report.',
      other: '# more crosses are in the full report.',
    }),
  wayMeasured:
    'Way and speed are taken from the line measured on the footage, from out of one obstacle to out of the next.',
  ruleBook: (name: string): string => `The result is counted by the rule book “${name}”.`,
  noTraining: 'Nothing is set down to train for now.',
  cautions: [
    'Warm up first and cool down after, dog and handler alike.',
    'Stop at any sign of lameness, pain or distress, and see a veterinarian.',
    'Growing dogs do not drill full-height jumps or weave poles.',
    'Keep repetitions of tight turns few, heights low, and the footing sound and dry.',
    'Your organisation’s rules, and what a licensed veterinarian says about your dog, go before anything in this report.',
  ],

  plusMinus: <P>(example: P, from: string, to: string): Sentence<P> =>
    say`Between two frames nothing can be seen, so each time is a range and is given by its middle: ${example} means somewhere from ${from} to ${to}. Where the range leaves a verdict open, it reads “cannot tell at this frame rate”; that is a result, too.`,
  unofficial: 'All times and verdicts here are unofficial: the judge’s call stands.',
  practice:
    'Verdicts on crosses follow common practice: a change that is shown before take-off and finished by landing can be answered; once in the air no dog can turn. The stride asked for is this dog’s setting, not a measurement.',
  wide: 'That a turn was wide and a cue late goes together; what caused it is for coach and handler to say.',
  private: 'This file holds everything it shows. It fetches nothing and sends nothing.',
  clipsCaption: 'Clips and the frames that were marked in them.',
  clipNumbered: (n: number): string => `clip ${n}`,
  pictureSize: (width: number, height: number): string => `${width} × ${height}`,
  slowMotion: (told: string): string => `slow motion (${told})`,
  noClips: 'No footage was used.',
  pageOf: (n: number, all: number): string => `${n} of ${all}`,

  warning: (w: Warning): string => {
    switch (w.warning) {
      case 'outOfOrder':
        return `Obstacle ${w.place} is marked as done before ${w.before}${inTry(w.try)}.`;
      case 'inAfterOut':
        return `Obstacle ${w.place} ends before it begins${inTry(w.try)}.`;
      case 'repeatedEdge':
        return `Obstacle ${w.place} is marked more than once${inTry(w.try)}; the later mark counts.`;
      case 'notTaken':
        return `Obstacle ${w.place} is not marked as taken${inTry(w.try)}; the split runs on over it.`;
      case 'missingFootage':
        return 'A mark belongs to footage that is not there; it was left out.';
      case 'betweenFrames':
        return 'A mark lies between two frames of its clip; its plus or minus is wider for it.';
      case 'notLinedUp':
        return `The clip “${w.name}” was not lined up with the other; times between the two are not known.`;
    }
  },
  more: (n: number): string => plural(n, { one: 'And # more like it.', other: 'And # more like it.' }),
} as const;

function inTry(n: number): string {
  return n > 1 ? ` in try ${n}` : '';
}

/** A day as people write it; as it stands where it is no day of the calendar. */
export function dayWritten(day: string): string {
  const at = new Date(`${day}T00:00:00Z`);
  if (Number.isNaN(at.getTime()) || at.toISOString().slice(0, 10) !== day) return day;
  return new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' }).format(at);
}
