import type { JudgedRefusal } from '../course/refusals.ts';
import { inUnits, type Hundredths } from '../course/rules/hundredths.ts';
import { isOwnElimination, type EliminationName } from '../course/rules/runRules.ts';
import type { EndedBy, NotCounted, Open, Score, ScoreEvent } from '../course/rules/score.ts';
import { listed, locale, plural } from './locale.ts';
import { refusalWords } from './trade.ts';

const two = new Intl.NumberFormat(locale, {
  minimumFractionDigits: 2,
  maximumFractionDigits: 2,
  useGrouping: false,
});
const hundredth = (h: Hundredths): string => two.format(inUnits(h));

/** Kinds of refusal as a judge calls them. */
export const judgedRefusalWords: Record<JudgedRefusal, string> = {
  ...refusalWords,
  missedEntry: 'wrong entry to the weave poles',
};

const endings: Record<Exclude<EliminationName, `own:${string}`>, string> = {
  refusals: 'too many refusals',
  overMaximumTime: 'over the maximum course time',
  wrongOrder: 'wrong obstacle',
  wrongDirection: 'wrong direction',
  forgottenObstacle: 'an obstacle left out',
  collar: 'ran with a collar',
  objectInHand: 'something in the hand',
  handlerTookObstacle: 'the handler took an obstacle',
  fouledRing: 'fouled the ring',
  leftRing: 'left the ring',
  restarted: 'started again',
  destroyedNextObstacle: 'the next obstacle was brought down',
};

/** What ends a run. */
export function endingNamed(why: EliminationName): string {
  return isOwnElimination(why) ? why.slice('own:'.length) : endings[why];
}

function eventNamed(e: ScoreEvent): string {
  switch (e.kind) {
    case 'knockDown':
      return 'bar down';
    case 'handlerTouch':
      return 'handler touch';
    case 'missedContact':
      return 'missed contact';
    case 'refusal':
      return `refusal (${judgedRefusalWords[e.how]})`;
    case 'elimination':
      return endingNamed(e.why);
  }
}

const at = (place: number | undefined): string => (place === undefined ? '' : ` at ${place}`);

const openWords: Record<Open, string> = {
  time: 'the time of the run is not known',
  standardTime: 'the course time is not known',
  timeFaultRule: 'the rule book does not say what time costs',
  faultRule: 'the rule book does not say what a fault costs',
  level: 'the rule book does not know this level',
};

/** Sentences about a score. */
export const scoreWords = {
  unofficial: 'Unofficial: the judge’s call stands.',
  event: (e: ScoreEvent): string => `${eventNamed(e)}${at(e.place)}`,
  ended: (e: EndedBy): string => `${endingNamed(e.why)}${at(e.place)}`,
  notCounted: ({ event, because }: NotCounted): string => {
    const what = `${eventNamed(event)}${at(event.place)}`;
    switch (because) {
      case 'level':
        return `${what}: does not count at this level.`;
      case 'runKind':
        return `${what}: would end the run at a trial; not here.`;
      case 'zone':
        return `${what}: this contact zone is not judged.`;
      case 'notInBook':
        return `${what}: the rule book does not list it.`;
      case 'toldTwice':
        return `${what}: counted already, one approach is one refusal.`;
    }
  },
  /** What came of the run, in one sentence. */
  told: (s: Score): string => {
    switch (s.outcome) {
      case 'eliminated':
        return `Eliminated: ${listed(s.because.map((e) => scoreWords.ended(e)))}.`;
      case 'open':
        return `No score yet: ${listed(s.open.map((o) => openWords[o]))}.`;
      case 'scored': {
        const parts = `${hundredth(s.courseFaults)} on the course and ${hundredth(s.timeFaults)} for time`;
        const result =
          typeof s.result === 'string'
            ? { none: ', no class', notGiven: '' }[s.result]
            : `, ${s.result.name}`;
        return `${hundredth(s.total)} faults (${parts})${result}; ${plural(s.refusals, { one: '# refusal', other: '# refusals' })}.`;
      }
    }
  },
  /** Two scores of one run that come to the same but for their faults; null where they come to something else. */
  faultsBetween: (a: Score, b: Score): string | null => {
    if (a.outcome !== 'scored' || b.outcome !== 'scored') return null;
    const named = ({ result }: typeof a): string => (typeof result === 'string' ? result : result.id);
    if (named(a) !== named(b)) return null;
    return `The plus or minus of the time leaves it open between ${hundredth(a.total)} and ${hundredth(b.total)} faults.`;
  },
  maximumUnknown: 'The maximum course time is not known; whether it was kept, nobody can say.',
  runOff: {
    equalPlace: 'Equal runs share the place.',
    runOff: 'Equal runs run off against each other.',
    equalPlaceOrRunOff: 'Equal runs share the place or run off against each other, as the judge decides.',
  },
} as const;
