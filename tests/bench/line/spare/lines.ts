import type { BenchLine } from '../../run.ts';
import { layouts, rearLayout, type Layout } from './layouts.ts';
import { drawn, trialWithin, wasLate, type Drawn, type Margin, type Trial } from './trial.ts';

const teams = 100;
/** The first seed; `WALKBACK_BENCH_SEEDS` moves on to teams that nobody looked at while the program was made. */
const firstSeed = 1 + Number(process.env['WALKBACK_BENCH_SEEDS'] ?? 0);
/** Of 100, so many are asked for outside of the doubtful middle. */
const enough = 95;
/** Seconds to spare: the outer two are asked for by number, those between must fall. */
const edges = [-1, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 1] as const;
/** Of 100 late runs so many more may come in a bin than in the one before: one standard deviation at one in two. */
const chance = 5;

interface Bin {
  readonly least: number;
  readonly most: number;
  readonly trials: readonly Trial[];
  readonly late: number;
}

/**
 * 100 teams: each is filmed in practice, measured, planned for, and run once in each bin of time to spare. Crosses
 * ahead of the dog by the whole time to spare and by their end alone, then rear crosses, which begin behind her.
 */
export function spareLines(): BenchLine[] {
  const ahead = drawTeams(layouts);
  return [
    ...linesFor('time to spare', 'spare', ahead),
    ...linesFor('end of the cross alone', 'end', ahead),
    ...linesFor('rear cross, time to spare', 'spare', drawTeams([rearLayout])),
    control(ahead),
  ];
}

function drawTeams(from: readonly Layout[]): readonly Drawn[] {
  const found: Drawn[] = [];
  for (let seed = firstSeed; found.length < teams && seed < firstSeed + 3 * teams; seed++) {
    const d = drawn(seed, from);
    if (d) found.push(d);
  }
  return found;
}

function binOf(ds: readonly Drawn[], by: Margin, least: number, most: number, knowsHold = true): Bin {
  const trials = ds.flatMap((d) => trialWithin(d, by, least, most, knowsHold) ?? []);
  return { least, most, trials, late: trials.filter((t) => wasLate(t, by)).length };
}

function linesFor(name: string, by: Margin, ds: readonly Drawn[]): BenchLine[] {
  const bins = edges.slice(1).map((most, i) => binOf(ds, by, edges[i] ?? most, most));
  return bins.map((bin, i): BenchLine => {
    const figure = `${name} ${bin.least} to ${bin.most} s`;
    const measured = `${bin.late} of ${bin.trials.length} late`;
    const all = bin.trials.length >= enough;
    if (i === 0) {
      const asked = `late on at least ${enough} of ${teams}`;
      return { figure, asked, measured, holds: all && bin.late >= (enough / teams) * bin.trials.length };
    }
    if (i === bins.length - 1) {
      const asked = `late on at most ${teams - enough} of ${teams}`;
      return { figure, asked, measured, holds: all && bin.late <= (1 - enough / teams) * bin.trials.length };
    }
    const before = bins[i - 1]?.late ?? teams;
    return {
      figure,
      asked: 'no more than the line above, but for chance',
      measured,
      holds: all && bin.late <= before + chance,
    };
  });
}

/** A plan that does not know what holds the handler must be found out by the same measure. */
function control(ds: readonly Drawn[]): BenchLine {
  const { trials, late } = binOf(ds, 'spare', 0.3, 1, false);
  return {
    figure: 'control: the same with the support left out of the plan, 0.3 to 1 s',
    asked: `late on more than ${teams - enough} of ${teams}`,
    measured: `${late} of ${trials.length} late`,
    holds: trials.length >= enough && late > teams - enough,
  };
}
