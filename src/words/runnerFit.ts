import type { LengthUnit } from '../course/grid.ts';
import type { RunnerFigure } from '../line/dog.ts';
import { fitNeeds, type Fitted, type FittedFigure } from '../line/runnerFit.ts';
import { dogWords } from './dog.ts';
import { plural } from './locale.ts';
import type { obstacleWords } from './trade.ts';

type Trade = (typeof obstacleWords)['british'];

const runs = (n: number): string => plural(n, { one: '# run', other: '# runs' });

/** What of a figure was measured, by its kind. */
const measuredAs: Record<FittedFigure, readonly [one: string, other: string]> = {
  topSpeed: ['# straight stretch', '# straight stretches'],
  pickUp: ['# start from standing', '# starts from standing'],
  grip: ['# turn', '# turns'],
  leastRadius: ['# turn', '# turns'],
  takeOff: ['# take-off', '# take-offs'],
  landing: ['# landing', '# landings'],
  tunnelSpeed: ['once', '# times'],
  weaveSpeed: ['once', '# times'],
  aFrameSpeed: ['once', '# times'],
  dogWalkSpeed: ['once', '# times'],
};

/** Words of the part of the dog's page that fits her figures to her runs. */
export const runnerFitWords = {
  title: 'From her measured runs',
  /** What her runs would have to show before these figures can be fitted to them. */
  intro: `Tunnels, poles and contacts need marks in and out on a drawn course, ${fitNeeds.each} of a kind. Speed, turns and flight need her line on the ground as well: the course fitted to the picture and her spots clicked along the way, ${fitNeeds.straights} straight stretches and ${fitNeeds.turns} turns. As a rule that is more than one run.`,
  look: (name: string, n: number) => `Look through ${runs(n)} of ${name}`,
  none: (name: string) => `No review of ${name} is in the library yet.`,
  working: (done: number, of: number) => `Looked through ${done} of ${runs(of)} …`,
  found(told: number, opened: number, withLine: number, failed: number): string {
    const line =
      withLine === 0 ? 'none with her line on the ground' : `${withLine} with her line on the ground`;
    const not =
      failed === 0 ? '' : ` ${plural(failed, { one: '# review', other: '# reviews' })} could not be read.`;
    return `Of ${runs(opened)}, ${told === 0 ? 'none tells' : `${told} ${told === 1 ? 'tells' : 'tell'}`} something of her figures, ${line}.${not}`;
  },
  columns: { figure: 'Figure', now: 'Now', fitted: 'From her runs' },
  now: (figure: RunnerFigure, own: number | undefined, lengths: LengthUnit) =>
    own === undefined
      ? `${dogWords.usual(figure, lengths)}, assumed`
      : `${dogWords.shown(figure, own, lengths)}, her own`,
  figure: (figure: FittedFigure, trade: Trade, lengths: LengthUnit) =>
    dogWords.figure(figure, trade, lengths),
  /** "5.12 ± 0.30, measured 7 times" or how much is still wanting. */
  fitted(figure: FittedFigure, fit: Fitted, lengths: LengthUnit): string {
    const [one, other] = measuredAs[figure];
    const often = plural(fit.count, { one, other });
    if (fit.from === 'assumed' || fit.plusMinus === null)
      return fit.count === 0
        ? `not measured yet; needs ${fit.needed}`
        : `${often} so far; needs ${fit.needed}`;
    const [value, band] = [fit.value, fit.plusMinus].map((v) => dogWords.shown(figure, v, lengths));
    return `${value} ± ${band}, ${often}`;
  },
  /** What the plus or minus stands for. */
  sure: 'Plus or minus holds her mean nineteen times in twenty. Runs of one day are alike: it is wider for other days.',
  take: 'Take these over as her own',
  took: 'figures from her runs',
  same: 'These are her own figures now.',
  tooFew: 'Not enough of any figure was measured yet; what she has stays.',
} as const;
