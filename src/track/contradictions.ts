import { pairBound } from '../ground/chiSquare.ts';
import { z95 } from './bands.ts';
import { followed, type Followed, type Following } from './followed.ts';
import { carried, entry, inverseOf, plus, times, transposed } from './matrices.ts';
import { usualPush, type Flight } from './motion.ts';
import type { LineReading } from './readings.ts';

/** Fewer readings than this cannot name the one among them that is wrong. */
const fewest = 6;
/** Where more than this share contradicts the rest, nobody can say which part is right, and all are kept. */
const mostAside = 0.25;
/** A right reading is set aside in no more than this share of lines. */
const falseAlarm = 0.03;
/** Of readings so near in time only the worst is set aside at once: it pulls its neighbours along, seconds. */
const near = 1;
const mostRounds = 12;

/** Why a reading cannot be: it touches the ground in the middle of a flight, or the others have the body elsewhere. */
export type Against = 'inFlight' | 'others';

/** A line through those readings that agree, and those that do not. */
export interface Agreeing {
  readonly line: Followed;
  readonly used: readonly LineReading[];
  readonly against: ReadonlyMap<LineReading, Against>;
}

/**
 * Sets aside what no body could have done: touches of the ground in the middle of a flight, and readings that lie farther
 * off what all others say (left out one by one) than chance allows. First by the usual push, so that a wrong reading
 * cannot excuse itself as a wild dog; then by the pushes that the others make likeliest, which also takes back what was
 * set aside for nothing.
 * @param given in the order of time, of two moments or more
 */
export function agreeing(given: readonly LineReading[], how: Following): Agreeing {
  const onGround = given.filter((r) => !touchesInFlight(r, how.flights));
  const readings = spread(onGround) ? onGround : given;
  const all = followed(readings, how);
  const sure = readings.length < fewest ? alone(all, readings) : sifted(readings, how, all);
  const kept = new Set(readings);
  const flying = given.filter((r) => !kept.has(r)).map((r) => [r, 'inFlight'] as const);
  return { ...sure, against: new Map([...flying, ...sure.against]) };
}

const alone = (line: Followed, used: readonly LineReading[]): Agreeing => ({
  line,
  used,
  against: new Map(),
});

const spread = (readings: readonly LineReading[]): boolean =>
  (readings.at(-1)?.at ?? 0) > (readings[0]?.at ?? 0);

/** A frame and what the ends of the flight may be off are let pass: a hind paw is the last to leave the ground. */
function touchesInFlight(r: LineReading, flights: readonly Flight[]): boolean {
  if (r.contact === 'air') return false;
  return flights.some((f) => {
    const near = Math.sqrt(12) * (r.unsure ?? 0) + z95 * (f.unsure ?? 0) + 1e-6;
    return r.at > f.from + near && r.at < f.to - near;
  });
}

function sifted(readings: readonly LineReading[], how: Following, all: Followed): Agreeing {
  const everyone = alone(all, readings);
  const cut = pairBound(falseAlarm / readings.length);
  const against = new Set<LineReading>();
  const most = mostAside * readings.length;
  const usual = how.push ?? usualPush[how.who];
  for (let round = 0; round < mostRounds; round++) {
    const before = against.size;
    const line = followed(without(readings, against), { ...how, push: usual }, readings);
    for (const r of worstOf(readings, against, line, cut)) against.add(r);
    if (against.size > most) return everyone;
    if (against.size === before) break;
  }
  for (let round = 0; round < mostRounds; round++) {
    const line = against.size > 0 ? followed(without(readings, against), how, readings) : all;
    const more = worstOf(readings, against, line, cut);
    // Late in the day what is set aside stays so: else two that excuse each other would come and go for ever.
    const back =
      more.length > 0 || round > mostRounds / 2
        ? []
        : [...against].filter((r) => (offOthers(r, false, line) ?? 0) <= cut);
    if (more.length === 0 && back.length === 0) break;
    for (const r of more) against.add(r);
    for (const r of back) against.delete(r);
    if (against.size > most) return everyone;
  }
  if (against.size === 0) return everyone;
  const used = without(readings, against);
  return { line: followed(used, how), used, against: new Map([...against].map((r) => [r, 'others'])) };
}

const without = (readings: readonly LineReading[], against: ReadonlySet<LineReading>): LineReading[] =>
  readings.filter((r) => !against.has(r));

/** Readings in use that are off by more than the cut, and by more than any other near them in time. */
function worstOf(
  readings: readonly LineReading[],
  against: ReadonlySet<LineReading>,
  line: Followed,
  cut: number,
): LineReading[] {
  const off = without(readings, against).flatMap((r) => {
    const by = offOthers(r, true, line);
    return by !== null && by > cut ? [{ r, by }] : [];
  });
  return off
    .filter((o) => off.every((p) => p === o || Math.abs(p.r.at - o.r.at) > near || p.by < o.by))
    .map((o) => o.r);
}

/**
 * How far a reading is off what the others say, in deviations squared; null where no other says anything. One that is
 * in use has pulled the line toward itself: what is left of its own noise then is less by the line's.
 */
function offOthers(r: LineReading, inUse: boolean, line: Followed): number | null {
  const state = line.stateAt(r.at);
  const reading = line.taken.get(r);
  if (!state || !reading) return null;
  const { by, noise, value } = reading;
  const spread = inverseOf(plus(noise, carried(by, state.cov), inUse ? -1 : 1));
  const own = inverseOf(noise);
  if (!spread || !own) return null;
  if (inUse && spread.logDeterminant - own.logDeterminant < Math.log(1e-6)) return null;
  const off = plus(value, times(by, state.mean), -1);
  return entry(times(times(transposed(off), spread.inverse), off), 0, 0);
}
