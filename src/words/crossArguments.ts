import type { DoneOf } from '../line/skills.ts';
import type { CrossArgument } from '../plan/crossArguments.ts';
import { lengthWords } from './drawing.ts';
import { entryDone, rearSentence } from './rearPrices.ts';
import { polesEntry } from './reading.ts';
import { timesOf, type ReadingTold } from './told.ts';

/** What speaks for or against a planned cross, as a coach would say it. */
export function argumentSentence(a: CrossArgument, told: ReadingTold): string {
  switch (a.argues) {
    case 'rearPrices':
      return rearSentence(a.prices, told);
    case 'entry':
      return a.entry.poles ? polesEntry(a.entry, a.entry.poles, told) : '';
    case 'rearAtPoles':
      return `A rear cross at the poles turns her well behind them, but it is ${a.count.tried === 0 ? 'an entry she has not tried' : entryDone(a.count)}${a.few && a.count.tried > 0 ? '; few tries to go by' : ''}.`;
    case 'word':
      if (!a.turns) return `She has no word for ${a.way} yet: the turn has to be shown.`;
      return a.enough
        ? `She turns ${a.way} on a word: said before she goes in, it is cue enough.`
        : `She turns ${a.way} on a word.`;
    case 'sent':
      return `Behind her you send her on ${lengthWords(a.metres, told.unit)}, and she has been sent ${lengthWords(a.sentMetres, told.unit)}.`;
  }
}

/** How far the handler leads out from a dog whose stay has been counted. */
export const leadOutSentence = (metres: number, stay: DoneOf, unit: ReadingTold['unit']): string =>
  `You lead out ${lengthWords(metres, unit)} from her. ${stay.tried === 0 ? 'Her stay has not been tried.' : `She has kept her stay ${timesOf(stay)}.`}`;
