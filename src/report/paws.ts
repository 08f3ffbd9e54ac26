import type { TryStayed } from '../review/pawsStayed.ts';
import type { Quantity } from '../time/quantity.ts';
import type { Moved } from '../track/stayed.ts';
import { realLineWords } from '../words/realLine.ts';
import { stayedSentence } from '../words/realLineSentences.ts';
import { figureAt, type Line } from './pieces.ts';

/** How far a point moved, with all that its marks allow. */
const wayOf = ({ centimetres, least, most }: Moved): Quantity => ({
  value: centimetres,
  plusMinus: Math.max(most - centimetres, centimetres - least),
  unit: 'cm',
});

/** Paws at the start line as data. */
export const pawsDocument = (paws: readonly TryStayed[]) =>
  paws.map((t) => ({
    try: t.try,
    verdict: t.verdict,
    words: stayedSentence(t),
    moved: t.moved.map((m) => ({
      point: m.point,
      verdict: m.verdict,
      way: wayOf(m),
      least: m.least,
      most: m.most,
    })),
  }));

/** What the paws of one try say, line by line. */
export function pawFigures(
  paws: readonly TryStayed[],
  of: number,
): readonly { readonly label: string; readonly value: Line }[] {
  return paws.flatMap((t, i) => {
    if (t.try !== of) return [];
    return [
      { label: realLineWords.paws.title, value: [stayedSentence(t)] },
      ...t.moved.map((m, k) => ({
        label: realLineWords.points[m.point],
        value: [figureAt(`paws[${i}].moved[${k}].way`, wayOf(m))],
      })),
    ];
  });
}
