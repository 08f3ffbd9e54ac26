import type { Taken } from '../../../src/review/analysis.ts';
import { runSeconds } from '../../../src/time/units.ts';

export const bracket = (from: number, to: number) => ({ from: runSeconds(from), to: runSeconds(to) });
export const moment = (at: number, width = 0.02): NonNullable<Taken['in']> => ({
  markId: `m${at}`,
  footageId: 'f',
  pts: 0,
  frame: 0,
  bracket: bracket(at - width / 2, at + width / 2),
  at: { value: at, plusMinus: width / 2, unit: 's' },
});
/** An obstacle taken, each edge known to a hundredth of a second. */
export const taken = (place: number, from: number, to: number, more: Partial<Taken> = {}): Taken => ({
  place,
  try: 1,
  obstacleId: `o${place}`,
  kind: 'barJump',
  nickname: '',
  in: moment(from),
  out: moment(to),
  single: false,
  on: null,
  ...more,
});
