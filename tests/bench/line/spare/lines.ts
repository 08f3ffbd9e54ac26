import type { BenchLine } from '../../run.ts';
import { drawn, trialWithin, wasLate, type Drawn, type Margin, type Trial } from './trial.ts';

const teams = 100;
/** Seconds to spare: the outer two are asked for by number, the six between must fall. */
const edges = [-1, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 1] as const;
/** Of 100 late runs so many more may come in a bin than in the one before: one standard deviation at one in two. */
const chance = 5;

interface Bin {
  readonly least: number;
  readonly most: number;
  readonly trials: readonly Trial[];
  readonly late: number;
}

/** 100 teams: each is filmed in practice, measured, planned for, and run once in each bin of time to spare. */
export function spareLines(): BenchLine[] {
  const drawnTeams: Drawn[] = [];
  for (let seed = 1; drawnTeams.length < teams && seed < 3 * teams; seed++) {
    const d = drawn(seed);
    if (d) drawnTeams.push(d);
  }
  return [
    ...linesFor('time to spare', 'spare', drawnTeams),
    ...linesFor('end of the cross alone', 'end', drawnTeams),
  ];
}

function linesFor(name: string, by: Margin, drawnTeams: readonly Drawn[]): BenchLine[] {
  const bins = edges.slice(1).map((most, i): Bin => {
    const least = edges[i] ?? most;
    const trials = drawnTeams.flatMap((d) => trialWithin(d, by, least, most) ?? []);
    return { least, most, trials, late: trials.filter((t) => wasLate(t, by)).length };
  });
  return bins.map((bin, i): BenchLine => {
    const { trials, late } = bin;
    const figure = `${name} ${bounds(bin)} s`;
    if (i === 0) {
      const asked = `late on at least 95 of ${teams}`;
      return { figure, asked, measured: share(bin), holds: trials.length === teams && late >= 0.95 * teams };
    }
    if (i === bins.length - 1) {
      const asked = `in time on at least 95 of ${teams}`;
      const inTime = trials.length - late;
      const measured = `${inTime} of ${trials.length} in time`;
      return { figure, asked, measured, holds: trials.length === teams && inTime >= 0.95 * teams };
    }
    const before = bins[i - 1]?.late ?? teams;
    const asked = 'late no more often than the line above, but for chance';
    return { figure, asked, measured: share(bin), holds: trials.length === teams && late <= before + chance };
  });
}

const share = ({ trials, late }: Bin): string => `${late} of ${trials.length} late`;
const bounds = ({ least, most }: Bin): string => `${least} to ${most}`;
