import type { Support as Planned } from '../plan/plan.ts';
import type { Support } from '../track/support.ts';
import { figure } from './figures.ts';
import { supportEndWords } from './planPage.ts';

/** What the handler did for an obstacle that the dog ran by, said without blame. */
export const supportWords = {
  title: 'Run-outs and support',
  at: (place: number, name: string, clock: string): string => `Run-out at ${place}, ${name}, at ${clock} s`,
  planned: (until: Planned['until'] | null): string =>
    until === null ? 'No support planned here.' : `Support planned ${supportEndWords[until]}.`,
  told: ({ from, leaving, leftFor, then }: Support): string => {
    const apart = then.apart && !then.unseen ? `, ${figure(then.apart)} from the dog` : '';
    return `The handler was ${figure(from)} from the obstacle${apart}, ${went(leaving, leftFor)}.`;
  },
  unmarked: 'Where the handler was then is not marked (page Real line).',
} as const;

function went(leaving: Support['leaving'], leftFor: number | null): string {
  if (Math.abs(leaving.value) <= leaving.plusMinus)
    return 'neither leaving it nor coming to it as far as can be told';
  const speed = figure({ ...leaving, value: Math.abs(leaving.value) });
  if (leaving.value < 0) return `coming to it at ${speed}`;
  return leftFor === null
    ? `leaving it slowly, at ${speed}`
    : `leaving it at ${speed}, for about ${leftFor.toFixed(1)} s by then`;
}
