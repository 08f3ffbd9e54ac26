import { GroundPoint } from '../course/points.ts';
import type { LineWish } from '../line/line.ts';
import type { Runner } from '../line/runner.ts';
import type { PlanSheet } from './plan.ts';

/** What a plan asks of a line. A spot that is none, or lies beyond all ground, asks for nothing: a drag is not checked. */
export function wishOf(
  { wait, landings = [] }: Pick<PlanSheet, 'wait' | 'landings'>,
  runner: Runner,
): LineWish {
  const said = landings.filter(({ at }) => onGround(at));
  return {
    runner,
    ...(wait && onGround(wait) ? { start: wait } : {}),
    ...(said.length > 0 ? { landings: new Map(said.map((l) => [l.number, l.at])) } : {}),
  };
}

const onGround = (at: GroundPoint): boolean => GroundPoint.safeParse(at).success;
