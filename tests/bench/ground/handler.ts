import { clearOfWay, crossesFound, type TakenAt } from '../../../src/track/crossesFound.ts';
import { lengthSeen, nearestOn, waysOf } from '../../../src/track/figures.ts';
import { apartAt, pathsCrossed } from '../../../src/track/pairs.ts';
import { realLine, type RealLine } from '../../../src/track/realLine.ts';
import type { TrackMark } from '../../../src/track/track.ts';
import { unseenAt } from '../../../src/track/whereAt.ts';
import { handlerFootfalls } from '../../../scripts/simulator/actors/footfalls.ts';
import { handlerAt } from '../../../scripts/simulator/actors/trace.ts';
import type { BenchLine } from '../run.ts';
import { bandLine, viewOf } from './line.ts';
import {
  clicksOf,
  firstSeed,
  lineOf,
  percent,
  readingsOn,
  runs,
  scored,
  shareOf,
  tableOf,
  type Score,
} from './lineRuns.ts';
import { blurred, pawAt, runOf, seen, shotOf, type Pixel, type Run, type Shot } from './scene.ts';
import { median, quantile } from './tally.ts';

const rate = 30;
/** Seconds before the first take-off from which she is marked. */
const before = 3;

/** What was told of a handler whose left foot was clicked once for each time it stands, and whether it held. */
interface Told {
  readonly scores: Score[];
  /** Whether the truth lay within the band, and how wide that was. */
  readonly apart: Held[];
  readonly length: Held[];
  readonly crossed: Held[];
  /** When she is clear of the dog's way on its other side: what is proposed as the end of a cross. */
  readonly clear: Held[];
  /** Crossings of which nothing is told, and those where who came first was told wrong. */
  unseen: number;
  wrongFirst: number;
}

interface Held {
  readonly held: boolean;
  readonly plusMinus: number;
}

/** Her left foot, carried along with her body: the point whose line is measured. */
function footAt({ run }: Run, t: number): Pixel {
  const h = handlerAt(run, t);
  return { x: h.x - 0.1 * Math.sin(h.feet), y: h.y + 0.1 * Math.cos(h.feet) };
}

function footClicks(run: Run, shot: Shot): TrackMark[] {
  const [from, to] = [(run.flights[0]?.from ?? 0) - before, run.flights.at(-1)?.to ?? 0];
  return handlerFootfalls(run.run)
    .left.filter((c) => c.end > from && c.begin < to)
    .flatMap((c): TrackMark[] => {
      const at = seen(shot.matrix, { x: c.x, y: c.y });
      if (!at) return [];
      const middle = (c.begin + Math.min(c.end, run.run.duration)) / 2;
      return [{ pts: Math.round(middle * rate), at: shareOf(blurred(at, shot.random)), contact: 'ground' }];
    });
}

/** A handler's path beside the dog's, marked with 20 course points. */
export async function handlerLines(): Promise<BenchLine[]> {
  return [1.6, 3, 5].flatMap((height) => linesOf(height, measured(height)));
}

function measured(height: number): Told {
  const told: Told = { scores: [], apart: [], length: [], crossed: [], clear: [], unseen: 0, wrongFirst: 0 };
  for (let i = 0; i < runs; i++) {
    const run = runOf(1000 + firstSeed + i);
    const shot = shotOf(height, 5000 + firstSeed + i, 40);
    const { view } = viewOf(shot, 20);
    const handler = realLine({
      who: 'handler',
      readings: readingsOn(view, footClicks(run, shot), rate),
      step: 0.1,
      ...(view.error ? { fit: view.error } : {}),
    });
    const dog = lineOf(run, readingsOn(view, clicksOf(run, shot, { rate }).marks, rate), view);
    if (!dog || !handler) throw new Error(`no line in run ${i}`);
    tally(told, run, dog, handler);
  }
  return told;
}

const within = (truth: number, { value, plusMinus }: { value: number; plusMinus: number }): Held => ({
  held: Math.abs(value - truth) <= plusMinus,
  plusMinus,
});

function tally(told: Told, run: Run, dog: RealLine, handler: RealLine): void {
  const times = (line: RealLine, step: number): number[] =>
    Array.from({ length: Math.floor((line.to - line.from) / step) }, (_, i) => line.from + i * step);
  const foot = (t: number): Pixel => footAt(run, t);
  const marked = times(handler, 1 / 30).filter((t) => !unseenAt(handler, t));
  told.scores.push(scored(run, handler, marked, foot));
  const pair = { dog, handler };
  for (const t of marked.filter((u, i) => i % 10 === 0 && !unseenAt(dog, u))) {
    const [apart, h, d] = [apartAt(pair, t), foot(t), pawAt(run.run, t)];
    if (apart) told.apart.push(within(Math.hypot(h.x - d.x, h.y - d.y), apart));
  }
  const long = marked.reduce((sum, t) => {
    const [a, b] = [foot(t), foot(t + 1 / 30)];
    return sum + Math.hypot(b.x - a.x, b.y - a.y);
  }, 0);
  told.length.push(within(long, lengthSeen(waysOf(handler, 1, 150))));
  const truths = crossings(
    times(handler, 1 / 30).map((at) => ({ at, ...foot(at) })),
    times(dog, 1 / 30).map((at) => ({ at, ...pawAt(run.run, at) })),
  );
  for (const c of pathsCrossed(pair)) {
    if (c.unseen) {
      told.unseen++;
      continue;
    }
    const far = (t: Crossing): number => Math.hypot(t.handler - c.handlerAt.value, t.dog - c.dogAt.value);
    const [truth] = truths.toSorted((a, b) => far(a) - far(b));
    told.crossed.push(within(truth?.handler ?? Infinity, c.handlerAt));
    const [cross] = crossesFound(pair, [c], takenBy(run), []);
    const truly = truth && clearAt(run, truth, c.onto, handler.to);
    if (cross && truly !== undefined) told.clear.push(within(truly, cross.finished));
    if (c.first !== 'cannotTell' && truth && (c.first === 'dog') !== truth.dog < truth.handler)
      told.wrongFirst++;
  }
}

/** What she took, by the notices of the run. */
function takenBy({ run }: Run): TakenAt[] {
  return run.notices.flatMap((n) => {
    const out =
      n.kind === 'in' && run.notices.find((m) => m.kind === 'out' && m.place === n.place && m.at > n.at);
    return out ? [{ place: n.place, in: n.at, out: out.at }] : [];
  });
}

/** When her foot is truly clear of the way that the dog's paw takes about then. */
function clearAt(run: Run, truth: Crossing, onto: 'left' | 'right', until: number): number | undefined {
  const way = Array.from({ length: 81 }, (_, i) => pawAt(run.run, truth.dog - 2 + i / 20));
  for (let t = truth.handler; t <= until; t += 0.01) {
    const near = nearestOn(way, footAt(run, t));
    if (near && (onto === 'left' ? near.left : -near.left) >= clearOfWay) return t;
  }
  return undefined;
}

interface Stop extends Pixel {
  readonly at: number;
}

interface Crossing {
  readonly handler: number;
  readonly dog: number;
}

/** Where two ways truly cross, by the sides on which the ends of one piece lie of the other. */
function crossings(p: readonly Stop[], q: readonly Stop[]): Crossing[] {
  const side = (a: Stop, b: Stop, c: Stop): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  return p.slice(1).flatMap((b, i) => {
    const a = p[i] ?? b;
    return q.slice(1).flatMap((d, k): Crossing[] => {
      const c = q[k] ?? d;
      const [ca, cb, ac, ad] = [side(c, d, a), side(c, d, b), side(a, b, c), side(a, b, d)];
      if (ca * cb >= 0 || ac * ad >= 0) return [];
      return [
        {
          handler: a.at + (ca / (ca - cb)) * (b.at - a.at),
          dog: c.at + (ac / (ac - ad)) * (d.at - c.at),
        },
      ];
    });
  });
}

function linesOf(height: number, told: Told): BenchLine[] {
  const line = tableOf(`handler, camera ${height} m, ${rate} fps, each touch of one foot marked`);
  const share = (list: readonly Held[]): number => list.filter((h) => h.held).length / list.length;
  const wide = (list: readonly Held[], unit: string): string => {
    const widths = list.map((h) => h.plusMinus);
    return `± ${median(widths).toFixed(2)} ${unit} (19 of 20 at most ${quantile(widths, 0.95).toFixed(2)})`;
  };
  const held = (what: string, list: readonly Held[], unit: string): BenchLine =>
    line(
      what,
      'within its band in at least 92 %',
      `${percent(share(list))} of ${list.length}, ${wide(list, unit)}`,
      share(list) >= 0.92,
    );
  return [
    bandLine(line, 'her foot', told.scores),
    held('from dog to handler', told.apart, 'm'),
    held('length of her path, where marked', told.length, 'm'),
    held('when she crosses the dog’s path', told.crossed, 's'),
    held('when she is clear of it, as a found cross says', told.clear, 's'),
    line(
      'who was first where she crosses it',
      'never told wrong',
      `${told.wrongFirst} of ${told.crossed.length} wrong; of ${told.unseen} more nothing is told, since dog or handler was out of sight`,
      told.wrongFirst === 0,
    ),
  ];
}
