import type { GroundPoint } from '../course/points.ts';
import type { Quantity } from '../time/quantity.ts';
import { banded, varianceAlong } from './bands.ts';
import { handlerWhen, type HandlerThen, type Pair } from './pairs.ts';
import type { RealLine } from './realLine.ts';
import { unseenAt, whereAt } from './whereAt.ts';

/** What the handler did for an obstacle that the dog ran by. */
export interface Support {
  readonly then: HandlerThen;
  /** From the handler to the obstacle, metres. */
  readonly from: Quantity;
  /** How fast that grows, m/s: below 0 where she comes nearer. */
  readonly leaving: Quantity;
  /** Seconds for which she had been leaving by then; null where she was not, as far as can be told. */
  readonly leftFor: number | null;
}

/** Slower than this she stays, m/s (ours): a body sways as much. */
const stays = 0.5;
/** What she did longer before is no part of it, seconds (ours). */
const about = 3;
/** Between two looks, seconds. */
const look = 0.05;

/**
 * Where the handler was from an obstacle when the dog ran by it, and whether she was leaving: a handler who leaves before
 * the dog is committed takes her support away (design facts).
 * @param stand where the obstacle stands, metres of the ground
 * @param at seconds of the run
 * @param unsure how far that moment may be off, one standard deviation, seconds
 * @returns null where the handler is not marked then
 */
export function supportBeside(pair: Pair, stand: GroundPoint, at: number, unsure = 0): Support | null {
  const then = handlerWhen(pair, at, unsure);
  const here = awayFrom(pair.handler, stand, at);
  if (!then || !here || unseenAt(pair.handler, at)) return null;
  const { from, leaving } = here;
  return { then, from, leaving, leftFor: leaving.value >= stays ? sinceLeft(pair.handler, stand, at) : null };
}

function awayFrom(
  line: RealLine,
  stand: GroundPoint,
  at: number,
): { readonly from: Quantity; readonly leaving: Quantity } | null {
  const h = whereAt(line, at);
  if (!h) return null;
  const [dx, dy] = [h.x - stand.x, h.y - stand.y];
  const far = Math.hypot(dx, dy);
  // On the spot itself every way leads away from it.
  const speed = Math.hypot(h.vx, h.vy);
  const [ux, uy] = far > 1e-6 ? [dx / far, dy / far] : speed > 0 ? [h.vx / speed, h.vy / speed] : [1, 0];
  return {
    from: banded(far, varianceAlong([ux, uy, 0, 0], h.cov), 'm'),
    leaving: banded(h.vx * ux + h.vy * uy, varianceAlong([0, 0, ux, uy], h.cov), 'm/s'),
  };
}

function sinceLeft(line: RealLine, stand: GroundPoint, at: number): number {
  let since = at;
  for (let t = at; t >= Math.max(line.from, at - about); t -= look) {
    if (unseenAt(line, t) || (awayFrom(line, stand, t)?.leaving.value ?? 0) < stays) break;
    since = t;
  }
  return at - since;
}
