import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { runFacts, type RunFacts } from '../../../src/report/runFacts.ts';
import { clocksOf } from '../../../src/review/readDocument.ts';
import { middle } from '../../../src/time/bracket.ts';
import { waysOf } from '../../../src/track/figures.ts';
import { realLine } from '../../../src/track/realLine.ts';
import type { LineReading } from '../../../src/track/readings.ts';
import { stretchFigures } from '../../../src/track/stretches.ts';
import { sample } from './sample.ts';

/** The sample run scored by a rule book, with a line that goes straight from obstacle to obstacle. */
export function measuredSample(): ReturnType<typeof sample> & { readonly facts: RunFacts } {
  const made = sample();
  const { document, review, analysis } = made;
  const taken = analysis.taken
    .filter((t) => t.try === analysis.countedTry)
    .toSorted((a, b) => a.place - b.place);
  const stops = taken.flatMap((t) => {
    const stand = review.course.obstacles.find((o) => o.id === t.obstacleId)?.stand;
    return stand && t.out ? [{ at: middle(t.out.bracket), x: stand.x, y: stand.y }] : [];
  });
  const readings = stops.slice(1).flatMap((to, i): LineReading[] => {
    const from = stops[i] ?? to;
    return [0, 0.25, 0.5, 0.75].map((part) => ({
      contact: 'ground',
      at: from.at + part * (to.at - from.at),
      x: from.x + part * (to.x - from.x),
      y: from.y + part * (to.y - from.y),
      spread: [0.01, 0, 0.01],
    }));
  });
  const line = realLine({ who: 'dog', readings });
  if (!line) throw new Error('no line');
  const scored = runFacts(review, analysis, {
    clocks: clocksOf(document),
    book: fci2023,
    pictures: new Map(),
  });
  // Wanted, after every number: straight on from well before it to well behind the next, past both at arm's length.
  const wanted = new Map(
    stops.slice(1).map((to, i) => {
      const from = stops[i] ?? to;
      const on = (part: number): { x: number; y: number } => ({
        x: from.x + part * (to.x - from.x),
        y: from.y + part * (to.y - from.y),
      });
      return [i + 2, [on(-1), on(2)]] as const;
    }),
  );
  const stretches = stretchFigures(waysOf(line, 1), taken, wanted);
  const paws: RunFacts['paws'] = [
    {
      ...{ try: 1, released: true, marks: 4, verdict: 'broke', leftOut: [] },
      notMarked: ['leftHindPaw', 'rightHindPaw'],
      moved: [
        { point: 'leftFrontPaw', at: 6, centimetres: 6.2, least: 4.1, most: 8.3, verdict: 'broke' },
        { point: 'rightFrontPaw', at: 6, centimetres: 0.4, least: 0, most: 1.9, verdict: 'kept' },
      ],
    },
  ];
  return { ...made, facts: { ...scored, line, stretches, paws } };
}
