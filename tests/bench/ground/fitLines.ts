import { randomStream } from '../../../scripts/simulator/base/random.ts';
import { percentile } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';
import { mean, meanInterval99 } from './bootstrap.ts';
import { play, type Group, type Run } from './fitRuns.ts';

const runs = 200;
const heights = [1.6, 3, 5];
const counts = [12, 20, 40];

/** The fit of the course to the picture, on simulated footage: clicks 2 px off per axis, fields of 60 to 75 degrees. */
export async function fitLines(): Promise<BenchLine[]> {
  const groups = heights.flatMap((height) => counts.map((points) => ({ height, points })));
  const plain = groups.map((g) => ({ ...g, k1: 0, wrong: 0 }));
  const bent = groups.map((g) => ({ ...g, k1: -0.06, wrong: 0 }));
  const wrong = groups.map((g) => ({ ...g, k1: 0, wrong: 0.05 }));
  return [
    ...plain.flatMap((g) => measured(g, 'straight lens')),
    ...bent.flatMap((g) => measured(g, 'lens of k1 -0.06')),
    ...wrong.flatMap((g) => [...measured(g, 'one click in 20 off by 40 px'), caughtLine(g)]),
  ];
}

const played = new Map<string, readonly Run[]>();
function runsOf(group: Group): readonly Run[] {
  const key = JSON.stringify(group);
  const known = played.get(key) ?? Array.from({ length: runs }, (_, i) => play(group, i + 1));
  played.set(key, known);
  return known;
}

const nameOf = ({ height, points }: Group, what: string): string =>
  `camera at ${height} m, ${points} points, ${what}`;

function measured(group: Group, what: string): BenchLine[] {
  const all = runsOf(group);
  const errors = all.map((r) => r.error);
  const pooled = Math.sqrt(mean(errors.map((e) => e * e)));
  const expected = Math.sqrt(mean(all.map((r) => r.expected ** 2)));
  const shares = all.map((r) => r.covered);
  const [low, high] = meanInterval99(shares, randomStream(5));
  const lens = all.filter((r) => r.lensFitted).length;
  return [
    {
      figure: `${nameOf(group, what)}: mapped spots of the ring against the exact camera`,
      asked: 'stated',
      measured: `RMS ${pooled.toFixed(3)} m (median run ${percentile(errors, 0.5).toFixed(3)}, worst ${Math.max(...errors).toFixed(3)}), expected by the fit ${expected.toFixed(3)}; lens fitted in ${lens}`,
      holds: Number.isFinite(pooled),
    },
    {
      figure: `${nameOf(group, what)}: truth within the 95 % ellipse`,
      asked: '99 % interval inside 92 to 98 %',
      measured: `${percent(mean(shares))} (${percent(low)} to ${percent(high)})`,
      holds: low >= 0.92 && high <= 0.98,
    },
  ];
}

function caughtLine(group: Group): BenchLine {
  const all = runsOf(group);
  const wrong = all.reduce((sum, r) => sum + r.wrong, 0);
  const caught = all.reduce((sum, r) => sum + r.caught, 0);
  const falsely = all.reduce((sum, r) => sum + r.falselySetAside, 0);
  return {
    figure: `${nameOf(group, 'one click in 20 off by 40 px')}: wrong clicks caught`,
    asked: 'at least 95 %, right ones set aside in at most 1 of 50 runs',
    measured: `${caught} of ${wrong} (${percent(caught / wrong)}), ${falsely} right ones set aside in ${runs} runs`,
    holds: wrong > 0 && caught >= 0.95 * wrong && falsely <= runs / 50,
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
