import type { EventRow } from '../review/analysis.ts';
import { coachingReport as words } from '../words/coachingReport.ts';
import { eventWords, refusalWords } from '../words/trade.ts';
import type { Mask } from './names.ts';

/** True where it starts or stops the clock. */
export const isClock = (e: EventRow): boolean =>
  e.mark.event === 'clockStart' || e.mark.event === 'clockStop';

/** What an event is called: the coach's own word for it, else the trade's. */
export function eventName(e: EventRow, mask: Mask): string {
  if (e.ownLabel !== null) return mask(e.ownLabel);
  const kind =
    e.mark.event in eventWords ? eventWords[e.mark.event as keyof typeof eventWords] : words.ownEvent;
  return e.mark.refusal ? words.refusal(kind, refusalWords[e.mark.refusal]) : kind;
}
