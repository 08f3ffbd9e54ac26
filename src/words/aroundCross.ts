import type { Footfall, LeastGap } from '../track/aroundCross.ts';
import type { Support } from '../plan/plan.ts';
import { figure } from './figures.ts';
import { plural } from './locale.ts';
import { supportEndWords } from './planPage.ts';

/** What the ground says of a cross, in its close-up. */
export const aroundCrossWords = {
  title: 'On the ground',
  steps: 'Steps',
  stepsTold: (steps: readonly Footfall[]): string =>
    steps.length === 0
      ? 'no foot is marked from cue to landing'
      : `${plural(steps.length, { one: '# foot on the ground', other: '# feet on the ground' })}, ${steps
          .map(({ foot }) => foot)
          .join(', ')}`,
  gap: 'Least gap to her way',
  gapTold: ({ metres }: LeastGap, clock: string): string =>
    metres.value <= metres.plusMinus
      ? `${figure(metres)}: on her way, as far as can be told, at ${clock} s`
      : `${figure(metres)}, at ${clock} s`,
  crossed: 'Her way crossed',
  notCrossed: 'not from cue to landing',
  support: 'Support planned here',
  supportTold: (until: Support['until'], apart: string | null): string =>
    apart === null
      ? `${supportEndWords[until]}; where the handler was then is not marked`
      : `${supportEndWords[until]}; ${apart} from her when she took off or went in`,
  map: 'The dog’s way, the handler’s path with each step and the way it faces',
} as const;
