import type { Footfall, GapLeft } from '../track/aroundCross.ts';
import type { CrossFound } from '../track/crossesFound.ts';
import type { Support } from '../plan/plan.ts';
import { figure } from './figures.ts';
import { plural } from './locale.ts';
import { supportEndWords } from './planPage.ts';
import { crossedSentence } from './realLineSentences.ts';
import { crossWords } from './trade.ts';

const stepCount = { one: '# step', other: '# steps' };

/** What the ground says of a cross, in its close-up. */
export const aroundCrossWords = {
  title: 'On the ground',
  /** Why nothing is shown. */
  missing: {
    both: 'Mark the dog’s way and the handler’s path here (page Real line), and the steps, the gap and the crossing are shown.',
    dog: 'The dog’s way is not marked (page Real line): where the handler crossed it cannot be told.',
    handler:
      'The handler’s path is not marked (page Real line): steps, gap and crossing are told where it is.',
  },
  steps: 'Steps',
  stepsTold: (steps: readonly Footfall[]): string => {
    const feet = new Set(steps.map((s) => s.foot));
    const [only] = feet;
    if (only === undefined) return 'no foot is marked from cue to landing';
    if (feet.size === 1)
      return `${plural(steps.length, stepCount)} of the ${only} foot; the other foot is not marked`;
    return `${plural(steps.length, stepCount)}: ${steps.map(({ foot }) => foot).join(', ')}`;
  },
  gap: 'Gap left',
  gapTold: ({ as, metres }: GapLeft, clock: string): string => {
    if (as === 'before') return `${figure(metres)} to the dog’s way when she came there, at ${clock} s`;
    if (as === 'behind') return `${figure(metres)} behind the dog when the handler crossed`;
    return metres.value <= metres.plusMinus
      ? `${figure(metres)}: perhaps on the dog’s way, at ${clock} s`
      : `${figure(metres)} to the dog’s way at the least, at ${clock} s`;
  },
  gapUnknown: 'cannot tell from what is marked',
  crossed: 'Crossed the dog’s way',
  notCrossed: 'not about this cross',
  support: 'Support planned',
  supportTold: (until: Support['until'], at: 'committed' | 'takeOff', apart: string | null): string => {
    const planned = supportEndWords[until];
    if (apart === null) return `${planned}; where the handler was then is not marked`;
    return `${planned}; the handler was ${apart} from her when ${at === 'committed' ? 'she was committed' : 'she took off or went in'}`;
  },
  map: 'The dog’s way and the handler’s path on the map, each step pointing the way the handler was going',
  legend: {
    dog: 'dog',
    handler: 'handler',
    left: 'left foot',
    right: 'right foot',
  },
} as const;

/** Crosses that the two paths show, and that are not marked yet. */
export const crossFoundWords = {
  title: 'Crosses found on the ground',
  told: ({ place, kind, kindOpen, plannedId }: CrossFound): string => {
    const at = `${crossWords[kind]} at ${place}`;
    if (plannedId !== null) return `${at}, as the plan has it`;
    return kindOpen ? `${at}, or a blind cross: the paths do not say which` : at;
  },
  crossed: crossedSentence,
  take: 'Take it over',
  takeOne: (kind: string, place: number): string => `Take over the ${kind} at ${place}`,
  finish: 'Take “finished” from the path',
  finishHint: (clock: string): string => `The handler was clear of the dog’s way at ${clock} s.`,
  hint: 'Number, kind and the frame on which it is finished are set; the cues and her commitment are yours to mark.',
  taken: (kind: string, place: number): string => `${place}, ${kind}, taken over from the ground`,
  nothing: 'This is marked already.',
} as const;
