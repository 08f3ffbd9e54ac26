import type { Trace } from '../../../../scripts/simulator/run/record.ts';
import { STEP } from '../../../../scripts/simulator/run/record.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { distance } from '../../../../src/course/pose.ts';
import type { Pace } from '../../../../src/plan/plan.ts';
import type { Layout } from './layouts.ts';
import { play, type Played, type Team } from './play.ts';

/** Figures of a dog and a handler as a coach gets them with a tape, a stopwatch and film of practice runs. */
export interface Measured {
  readonly dog: {
    readonly topSpeed: number;
    readonly pickUp: number;
    readonly takeOff: number;
    readonly landing: number;
    readonly tunnelSpeed: number;
    readonly committedAt: number;
  };
  readonly pace: Pace;
}

/** Jumps in line, a tunnel, and a turn at the end: other distances and another turn than any layout of the trial. */
const practice = (kind: 'front' | 'blind'): Layout => ({
  name: 'practice',
  start: { x: 3, y: 6, headingDegrees: 0 },
  places: [
    { kind: 'barJump', x: 7.5, y: 6, headingDegrees: 0 },
    { kind: 'barJump', x: 12.9, y: 6, headingDegrees: 0 },
    { kind: 'tunnel', x: 17.4, y: 6, headingDegrees: 0 },
    { kind: 'barJump', x: 27.2, y: 6, headingDegrees: 0 },
    { kind: 'barJump', x: 33, y: 6, headingDegrees: 0 },
    { kind: 'barJump', x: 35.2, y: 12, headingDegrees: 80 },
  ],
  cross: { place: 5, kind },
  before: 'right',
  spot: { x: 36.6, y: 8.6 },
  onTo: { x: 37, y: 13.5 },
  leadOut: [
    { x: 10, y: 9 },
    { x: 20, y: 9 },
  ],
});

const pointAt = (way: Trace, t: number): GroundPoint => {
  const i = Math.max(0, Math.min(way.x.length - 1, Math.round(t / STEP)));
  return { x: way.x[i] ?? 0, y: way.y[i] ?? 0 };
};

const mean = (list: readonly number[]): number => list.reduce((sum, v) => sum + v, 0) / list.length;

/** Films practice runs of a team and takes its figures from them; null where no run could be used. */
export function measure(team: Team, kind: 'front' | 'blind'): Measured | null {
  const layout = practice(kind);
  const [a, b] = layout.leadOut;
  const films = [0, 0.4, 0.8].flatMap((u, i) => {
    const leadOut = { x: a.x + u * (b.x - a.x), y: a.y };
    const played = play(team, layout, leadOut, [layout.spot], null, team.seed * 31 + 7_000_003 + i);
    return played ? [figuresOf(played, layout)] : [];
  });
  const usable = films.filter((f) => f !== null);
  if (usable.length === 0) return null;
  const of = (pick: (f: Measured) => number): number => mean(usable.map(pick));
  return {
    dog: {
      topSpeed: of((f) => f.dog.topSpeed),
      pickUp: of((f) => f.dog.pickUp),
      takeOff: of((f) => f.dog.takeOff),
      landing: of((f) => f.dog.landing),
      tunnelSpeed: of((f) => f.dog.tunnelSpeed),
      committedAt: of((f) => f.dog.committedAt),
    },
    pace: {
      topSpeed: of((f) => f.pace.topSpeed),
      pickUp: of((f) => f.pace.pickUp),
      turnSeconds: of((f) => f.pace.turnSeconds),
    },
  };
}

function figuresOf(played: Played, layout: Layout): Measured | null {
  const { run, firstStep, cross } = played;
  const at = (kind: 'commit' | 'in' | 'out', place: number): number => played.at(kind, place) ?? NaN;
  const dogAt = (t: number): GroundPoint => pointAt(run.dog, t + firstStep);
  const bar = (place: number): number => layout.places[place - 1]?.x ?? NaN;
  const takeOffs = [1, 2, 4].map((n) => bar(n) - dogAt(at('in', n)).x);
  const landings = [1, 2, 4].map((n) => dogAt(at('out', n)).x - bar(n));
  // From landing behind 1 to take-off at 2, and behind 4 to 5: on the ground, at speed.
  const spans = [1, 4].map((n) => [at('out', n), at('in', n + 1)] as const);
  const topSpeed = mean(spans.map(([from, to]) => distance(dogAt(from), dogAt(to)) / (to - from)));
  const toFirst = at('in', 1);
  const runIn = distance(dogAt(0), dogAt(toFirst));
  const pickUp = pickUpFor(runIn, toFirst, topSpeed);
  const tunnelSpeed = 5 / (at('out', 3) - at('in', 3));
  const committedAt = mean([2, 4].map((n) => bar(n) - dogAt(at('commit', n)).x));
  const pace = paceSeen(played);
  const figures = {
    dog: { topSpeed, pickUp, takeOff: mean(takeOffs), landing: mean(landings), tunnelSpeed, committedAt },
  };
  const all = [...Object.values(figures.dog), ...(pace ? Object.values(pace) : [NaN])];
  return pace && cross.finished !== null && all.every(Number.isFinite) ? { ...figures, pace } : null;
}

/** The steady pick-up with which a way from standing takes so long: v / 2a + s / v = t where top speed is reached. */
function pickUpFor(metres: number, seconds: number, topSpeed: number): number {
  const lost = seconds - metres / topSpeed;
  const reaching = topSpeed / (2 * lost);
  return lost > 0 && (topSpeed * topSpeed) / (2 * reaching) <= metres
    ? reaching
    : (2 * metres) / (seconds * seconds);
}

/** The least that shows on film as having moved, and the tape at which her start is timed, metres. */
const seen = 0.02;
const tape = 1.5;

/** The handler's sprint to the cross, and how long she takes there from the first sign until she is turned and clear. */
function paceSeen({ run, cross }: Played): Pace | null {
  const release = run.tries[0]?.release ?? NaN;
  const stood = pointAt(run.handler, release);
  let leaves = NaN;
  let passes = NaN;
  let topSpeed = 0;
  for (let t = release; t < run.duration; t += STEP) {
    const gone = distance(pointAt(run.handler, t), stood);
    if (Number.isNaN(leaves) && gone > seen) leaves = t;
    if (Number.isNaN(passes) && gone > tape) passes = t;
    topSpeed = Math.max(topSpeed, distance(pointAt(run.handler, t), pointAt(run.handler, t - 0.2)) / 0.2);
  }
  if (cross.finished === null) return null;
  // Steady from standing: t = sqrt(2 s / a), at both marks.
  const pickUp = ((Math.sqrt(2 * tape) - Math.sqrt(2 * seen)) / (passes - leaves)) ** 2;
  return { topSpeed, pickUp, turnSeconds: cross.finished - cross.begun };
}
