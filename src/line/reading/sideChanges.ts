import { mannerOf } from '../../course/kinds.ts';
import type { GroundPoint } from '../../course/points.ts';
import { headingTo, plainHeading } from '../../course/pose.ts';
import type { LikelyLine, LineStep } from '../line.ts';
import type { Runner } from '../runner.ts';
import type { DogSkills } from '../skills.ts';
import type { Place } from './legs.ts';
import type { Remark, SideChangeFacts } from './remark.ts';
import { rearPrices } from './rearPrices.ts';
import type { ReadingThresholds } from './thresholds.ts';

/** A piece of her way: how far her heading has come since the start, and where that is in the course. */
interface Piece {
  readonly at: GroundPoint;
  readonly heading: number;
  /** How many steps lie behind her; half ones while she is on an obstacle. */
  readonly taken: number;
}

/** Turning so little is still running straight on, degrees. */
const straight = 5;
/** Shorter pieces have no heading to speak of, metres. */
const shortest = 1e-6;

/**
 * Where the course turns from one hand to the other: the dog's heading along her whole way has its highest and lowest
 * points there, told apart by turns of at least the threshold. Through poles she is taken to run straight.
 */
export function sideChangeRemarks(
  places: readonly Place[],
  line: LikelyLine,
  t: ReadingThresholds,
  skills: DogSkills | undefined,
  runner: Runner | undefined,
): Remark[] {
  const pieces = piecesOf(line);
  const byNumber = new Map(places.map((p) => [p.line.number, p]));
  const placeAt = (i: number): Place | undefined => byNumber.get(line.steps[i]?.number ?? 0);
  return turningPoints(pieces, t.turnFrom).flatMap(({ from, to, before }): Remark[] => {
    const [a, b] = [pieces[from], pieces[to]];
    if (!a || !b) return [];
    const [first, end] = [Math.floor(a.taken), Math.ceil(b.taken)];
    const within = Array.from({ length: end - first }, (_, i) => placeAt(first + i)).filter((p) => !!p);
    const outside = [placeAt(first - 1), placeAt(end)] as const;
    // On the way to the first number or from the last there is nothing to change sides for.
    if (within.length === 0 && outside.some((p) => !p)) return [];
    const atPoles = within.some((p) => p.drawn.obstacle.kind === 'weavePoles');
    const [only, ...others] = within;
    const rear =
      only && others.length === 0 && runner
        ? rearPrices(places, line, only.line.number, runner, skills)
        : undefined;
    const facts: SideChangeFacts = {
      remark: 'sideChange',
      before,
      at: within.map((p) => p.line.number),
      after: outside[0]?.line.number ?? null,
      by: outside[1]?.line.number ?? null,
      ...(atPoles && skills?.rearCrossAtPoles ? { rearAtPoles: skills.rearCrossAtPoles } : {}),
      ...(rear ? { rear } : {}),
    };
    const lit = within.length > 0 ? within : outside.filter((p) => !!p);
    return [
      {
        ...facts,
        numbers: lit.map((p) => p.line.number),
        weight: 0.35,
        highlight: {
          shapes: [{ shape: 'way', points: pieces.slice(from, to + 2).map((p) => p.at), as: 'remark' }],
          obstacleIds: lit.map((p) => p.drawn.obstacle.id),
        },
      },
    ];
  });
}

function piecesOf(line: LikelyLine): readonly Piece[] {
  const pieces: Piece[] = [];
  let heading: number | undefined;
  const walk = (points: readonly GroundPoint[], taken: number): void => {
    for (let i = 1; i < points.length; i++) {
      const [a, b] = [points[i - 1], points[i]];
      if (!a || !b || Math.hypot(b.x - a.x, b.y - a.y) < shortest) continue;
      const now = headingTo(a, b);
      heading = heading === undefined ? now : heading + plainHeading(now - heading);
      pieces.push({ at: { x: a.x, y: a.y }, heading, taken });
    }
  };
  line.stretches.forEach((stretch, i) => {
    const first = pieces.length;
    walk(stretch.points, i);
    const step = line.steps[i];
    if (!step) return;
    const onto = pieces.length;
    walk(throughOf(step), i + 0.5);
    if (step.kind === 'weavePoles') takeBack(pieces, first, onto);
  });
  return pieces;
}

/**
 * A way swings out before poles so that she comes to them on the side she must, and the bend on to them takes that
 * back: what lies beyond the straight way there is no turn of the course. Pieces from `first` on lead to the one at
 * `onto`, the first along the poles.
 */
function takeBack(pieces: Piece[], first: number, onto: number): void {
  const [begin, to] = [pieces[first], pieces[onto]];
  const from = pieces[first - 1] ?? begin;
  if (!begin || !from || !to || begin === to) return;
  const across = from.heading + plainHeading(headingTo(begin.at, to.at) - from.heading);
  const usual = [from.heading, across, to.heading];
  const [least, most] = [Math.min(...usual), Math.max(...usual)];
  const bend = to.heading - (pieces[onto - 1] ?? to).heading;
  for (let i = onto - 1; i >= first; i--) {
    const piece = pieces[i];
    if (!piece) break;
    const heading = bend > 0 ? Math.max(least, piece.heading) : Math.min(most, piece.heading);
    if (heading === piece.heading) break;
    pieces[i] = { ...piece, heading };
  }
}

const throughOf = (step: LineStep): readonly GroundPoint[] =>
  mannerOf(step.kind) === 'through' ? step.through : [step.entry, step.exit];

/** The straight pieces between a turn to one hand and the next turn to the other, first and last. */
function turningPoints(
  pieces: readonly Piece[],
  least: number,
): readonly { readonly from: number; readonly to: number; readonly before: 'left' | 'right' }[] {
  const found: { from: number; to: number; before: 'left' | 'right' }[] = [];
  const heading = (i: number): number => pieces[i]?.heading ?? 0;
  const around = (i: number, before: 'left' | 'right'): void => {
    const level = (k: number): boolean =>
      k >= 0 && k < pieces.length && Math.abs(heading(k) - heading(i)) <= straight;
    let [from, to] = [i, i];
    while (level(from - 1)) from--;
    while (level(to + 1)) to++;
    found.push({ from, to, before });
  };
  let [high, low] = [0, 0];
  let turning: 'left' | 'right' | undefined;
  for (let i = 1; i < pieces.length; i++) {
    if (turning !== 'right' && heading(i) > heading(high)) high = i;
    if (turning !== 'left' && heading(i) < heading(low)) low = i;
    if (turning !== 'left' && heading(i) - heading(low) >= least) {
      if (turning === 'right') around(low, 'right');
      turning = 'left';
      high = i;
    } else if (turning !== 'right' && heading(high) - heading(i) >= least) {
      if (turning === 'left') around(high, 'left');
      turning = 'right';
      low = i;
    }
  }
  return found;
}
