import { dogAt } from '../../../scripts/simulator/actors/trace.ts';
import { Doing } from '../../../scripts/simulator/actors/dogWorld.ts';
import { groundViewOf } from '../../../src/track/groundView.ts';
import { lengthBetween, waysOf } from '../../../src/track/figures.ts';
import { longGap, type RealLine } from '../../../src/track/realLine.ts';
import type { TrackMark } from '../../../src/track/track.ts';
import type { BenchLine } from '../run.ts';
import { mean } from './bootstrap.ts';
import { trueLength } from './lengths.ts';
import { viewOf } from './line.ts';
import {
  clicksOf,
  firstSeed,
  lineOf,
  metres,
  percent,
  readingsOn,
  runs,
  scored,
  seenMoments,
  shareOf,
  tableOf,
  within,
  type Score,
} from './lineRuns.ts';
import { blurred, pawAt, runOf, seen, shotOf, type Run, type Shot } from './scene.ts';
import { quantile, rms } from './tally.ts';

const heights = [1.6, 3, 5] as const;
const rate = 60;
const ways = ['ours', 'without', 'asGround', 'asGroundKept'] as const;

interface Group {
  readonly name: string;
  /** In flight: marks in the air as they are, left out, taken for ground, and that without setting any aside. */
  readonly scores: Record<(typeof ways)[number], Score[]>;
  /** Where marks in the air would lie if they were on the ground: metres off. */
  readonly markOff: number[];
  /** Marks taken for ground that were set aside; right ground marks that were set aside beside them. */
  caught: number;
  falsely: number;
  tunnels: number;
  tunnelsTold: number;
  /** Ways over times that were not seen, in tunnels, on contacts, out of the picture: whether the band held the truth. */
  readonly gapsHeld: boolean[];
}

/** Marks in the air, and what lies between marks where nothing was seen. */
export async function airborneLines(): Promise<BenchLine[]> {
  return heights.flatMap((height) => linesOf(measured(height)));
}

function measured(height: number): Group {
  const group: Group = {
    name: `camera ${height} m, ${rate} fps, 20 points`,
    scores: { ours: [], without: [], asGround: [], asGroundKept: [] },
    markOff: [],
    caught: 0,
    falsely: 0,
    tunnels: 0,
    tunnelsTold: 0,
    gapsHeld: [],
  };
  for (let i = 0; i < runs; i++) {
    const run = runOf(1000 + firstSeed + i);
    const shot = shotOf(height, 5000 + firstSeed + i, 40);
    const { marks } = clicksOf(run, shot, { rate });
    const { fit } = viewOf(shot, 20);
    const view = groundViewOf(fit);
    const air = inAir(run, shot, group, view);
    const taken = air.map((m): TrackMark => ({ ...m, contact: 'ground' }));
    const line = (all: readonly TrackMark[], contradictions: 'setAside' | 'keep'): RealLine => {
      const its = lineOf(run, readingsOn(view, all, rate), view, { contradictions });
      if (!its) throw new Error(`no line in run ${i}`);
      return its;
    };
    const asGround = [...marks, ...taken];
    const lines = {
      ours: line([...marks, ...air], 'setAside'),
      without: line(marks, 'setAside'),
      asGround: line(asGround, 'setAside'),
      asGroundKept: line(asGround, 'keep'),
    };
    const moments = seenMoments(lines.without).filter((t) => within(run.flights, t));
    if (moments.length > 0) for (const w of ways) group.scores[w].push(scored(run, lines[w], moments));
    const flying = new Set(taken.map((m) => m.pts));
    const readings = readingsOn(view, asGround, rate);
    for (const { place } of lines.asGround.against) {
      if (flying.has(Math.round((readings[place]?.at ?? NaN) * rate))) group.caught++;
      else group.falsely++;
    }
    tunnelsIn(group, run, lines.ours);
    const drawn = waysOf(lines.ours, i, 100);
    for (const gap of lines.ours.gaps) {
      const length = lengthBetween(drawn, gap.from, gap.to);
      if (length) group.gapsHeld.push(Math.abs(length.value - trueLength(run, gap)) <= length.plusMinus);
    }
  }
  return group;
}

/** One mark half way through each flight, of the paw as high as she flies. */
function inAir(run: Run, shot: Shot, group: Group, view: ReturnType<typeof groundViewOf>): TrackMark[] {
  return run.flights.flatMap((f): TrackMark[] => {
    const pts = Math.round((rate / 2) * (f.from + f.to));
    const place = pawAt(run.run, pts / rate);
    const up = dogAt(run.run, pts / rate).z - dogAt(run.run, f.from).z;
    const pixel = seen(shot.matrix, { ...place, z: up });
    const flat = pixel && view.under(pixel);
    if (!flat) return [];
    group.markOff.push(Math.hypot(flat.x - place.x, flat.y - place.y));
    return [{ pts, at: shareOf(blurred(pixel, shot.random)), contact: 'air' }];
  });
}

/** Times in a tunnel, longer than a gap, between the first and the last mark: each must be told as not seen. */
function tunnelsIn(group: Group, run: Run, line: RealLine): void {
  let from: number | null = null;
  for (let t = line.from; t <= line.to; t += 0.01) {
    const inside = dogAt(run.run, t).doing === Doing.tunnel;
    if (inside) from ??= t;
    if (inside || from === null) continue;
    const [begin, end] = [from, t];
    from = null;
    if (end - begin <= longGap.dog) continue;
    group.tunnels++;
    if (line.gaps.some((g) => g.from <= begin && g.to >= end - 0.02)) group.tunnelsTold++;
  }
}

function linesOf(group: Group): BenchLine[] {
  const line = tableOf(group.name);
  const off = (w: (typeof ways)[number]): number => rms(group.scores[w].flatMap((s) => s.squares));
  const worst = (w: (typeof ways)[number]): string =>
    metres(Math.max(...group.scores[w].map((s) => rms(s.squares))));
  const flights = group.markOff.length;
  return [
    line(
      'marks in the air, were they on the ground',
      'stated',
      `${flights} marks off by ${metres(mean(group.markOff))} on average, 95 % within ${metres(quantile(group.markOff, 0.95))}, worst ${metres(Math.max(...group.markOff))}`,
      flights > 0,
    ),
    line(
      'place in flight',
      'no worse than without such marks; taken for ground far worse',
      `${metres(off('ours'))} (worst run ${worst('ours')}); without ${metres(off('without'))}; taken for ground and believed ${metres(off('asGroundKept'))}`,
      off('ours') <= off('without') && off('asGroundKept') > 2 * off('ours'),
    ),
    line(
      'in flight, truth within the 95 % band',
      'at least 92 %',
      `${percent(mean(group.scores.ours.map((s) => s.covered)))}; worst run ${percent(Math.min(...group.scores.ours.map((s) => s.covered)))}`,
      mean(group.scores.ours.map((s) => s.covered)) >= 0.92,
    ),
    line(
      'marks in the air that a coach calls ground',
      'named and set aside: at least 95 %, right ones in at most 1 of 50 runs; place no worse than without',
      `${group.caught} of ${flights}, with ${group.falsely} right ones in ${group.scores.ours.length} runs; place in flight then ${metres(off('asGround'))}`,
      group.caught >= 0.95 * flights &&
        group.falsely <= runs / 50 &&
        off('asGround') <= 1.02 * off('without'),
    ),
    line(
      'times in a tunnel, told as not seen',
      'all',
      `${group.tunnelsTold} of ${group.tunnels}`,
      group.tunnels > 0 && group.tunnelsTold === group.tunnels,
    ),
    line(
      'true length of what was not seen within its plus or minus',
      'at least 90 %',
      `${percent(mean(group.gapsHeld.map(Number)))} of ${group.gapsHeld.length}`,
      mean(group.gapsHeld.map(Number)) >= 0.9,
    ),
  ];
}
