import type { Course, Obstacle } from '../../../src/course/course.ts';
import { distanceToGround, footprint, toSegment } from '../../../src/course/footprint.ts';
import { mannerOf } from '../../../src/course/kinds.ts';
import { equipmentShapes } from '../../../src/course/planShapes.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { drawnSteps, type DrawnStep } from '../../../src/course/sequence.ts';
import { gridOf } from '../../../src/line/likely/gates.ts';
import { gatesOf } from '../../../src/line/likely/numberGates.ts';
import { solidsOf } from '../../../src/line/likely/solids.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import type { LikelyLine, LineStep } from '../../../src/line/line.ts';
import { runnerWith, type Runner } from '../../../src/line/runner.ts';
import type { BenchLine } from '../run.ts';
import { randomCourse } from './courses.ts';

const courses = 50;
const numbers = 20;
/** What turns, flights and gaps may be off by for the points a line is given as, metres. */
const dust = 0.01;
/** Within this of its end a stretch may lie beside the piece it leads to, where that is not a jump: she goes on to it. */
const ledTo = 2.05;

interface Broken {
  turns: number;
  flights: number;
  wings: number;
  blocked: number;
  rightlyBlocked: number;
  stretches: number;
}

/** Points along a line at most 2 cm apart. */
function fine(line: readonly GroundPoint[]): readonly GroundPoint[] {
  return line.flatMap((p, i) => {
    const last = line[i - 1];
    if (!last) return [p];
    const parts = Math.max(1, Math.ceil(Math.hypot(p.x - last.x, p.y - last.y) / 0.02));
    return Array.from({ length: parts }, (_, k) => ({
      x: last.x + ((k + 1) / parts) * (p.x - last.x),
      y: last.y + ((k + 1) / parts) * (p.y - last.y),
    }));
  });
}

/** Radius of the circle through three points; Infinity where they lie straight. */
function radiusOf(a: GroundPoint, b: GroundPoint, c: GroundPoint): number {
  const area = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  const sides = [a, b, c].map((p, i) => {
    const q = [b, c, a][i] ?? p;
    return Math.hypot(q.x - p.x, q.y - p.y);
  });
  if (Math.min(...sides) < 1e-3) return Infinity;
  return area < 1e-12 ? Infinity : sides.reduce((product, s) => product * s, 1) / (2 * area);
}

const tooTight = (points: readonly GroundPoint[], least: number): boolean =>
  points.some((b, i) => {
    const [a, c] = [points[i - 1], points[i + 1]];
    return a && c && radiusOf(a, b, c) < least - dust;
  });

/** A flight is two points, flown the way she takes off and lands. */
function straightFlight({ through, entry, exit }: LineStep): boolean {
  const [a, b] = through;
  if (through.length !== 2 || !a || !b) return false;
  const way = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
  return [entry, exit].every((p) => Math.abs(((p.headingDegrees - way + 540) % 360) - 180) < 1e-3);
}

/** True where points come nearer to any piece than the dog is wide; its own ends may lie beside a piece she enters. */
function hits(points: readonly GroundPoint[], course: Course, gap: number, own: readonly string[]): boolean {
  const [first] = points;
  const last = points.at(-1);
  const nearEnd = (p: GroundPoint): boolean =>
    [first, last].some((e) => e !== undefined && Math.hypot(p.x - e.x, p.y - e.y) < ledTo);
  return course.obstacles.some((o) => {
    if (!o.stand) return false;
    const ground = footprint(o, o.stand);
    const entered = own.includes(o.id) && mannerOf(o.kind) !== 'jumped';
    return points.some((p) => distanceToGround(ground, p) < gap - dust && !(entered && nearEnd(p)));
  });
}

/** How near a flight comes to the wings of its own piece, as they are drawn. */
function besideOwnWing({ through }: LineStep, piece: Obstacle): number {
  if (!piece.stand) return Infinity;
  const [a, b] = through;
  if (!a || !b) return Infinity;
  return equipmentShapes(piece, piece.stand)
    .flatMap((s) => (s.shape === 'path' && s.as === 'wing' ? s.points : []))
    .reduce((least, [x, y]) => Math.min(least, toSegment({ x, y }, a, b)), Infinity);
}

function look(line: LikelyLine, course: Course, runner: Runner, broken: Broken): void {
  const gap = runner.besideWing;
  const drawn = drawnSteps(course);
  const pieces = new Map(course.obstacles.map((o) => [o.id, o]));
  line.stretches.forEach((stretch, i) => {
    broken.stretches++;
    if (tooTight(stretch.points, runner.leastRadius)) broken.turns++;
    if (stretch.blocked) {
      const ends = [i - 1, i].flatMap((k) => (drawn[k] ? [[k, drawn[k]] as const] : []));
      if (ends.some(([k, d]) => cannotBeTaken(d, k, course, runner))) broken.rightlyBlocked++;
      else broken.blocked++;
    } else {
      const own = [line.steps[i - 1], line.steps[i]].flatMap((s) => (s ? [s.obstacleId] : []));
      if (hits(fine(stretch.points), course, gap, own)) broken.wings++;
    }
  });
  line.steps.forEach((step, i) => {
    if (mannerOf(step.kind) !== 'jumped') return;
    if (!straightFlight(step)) broken.flights++;
    const piece = pieces.get(step.obstacleId);
    if (line.stretches[i]?.blocked === true || !piece) return;
    const others = { ...course, obstacles: course.obstacles.filter((o) => o !== piece) };
    if (hits(fine(step.through), others, gap, []) || besideOwnWing(step, piece) < gap - dust) broken.wings++;
  });
}

/** Takings looked at each way where a number is said to be blocked. */
const takingsEachWay = 41;

/** True where no way of taking a number that the line allows keeps clear of the other pieces. */
function cannotBeTaken(drawn: DrawnStep, i: number, course: Course, runner: Runner): boolean {
  const solids = { boxes: solidsOf(course.obstacles) };
  const wish = { runner, solids, centred: false, landing: undefined, owner: drawn.obstacle.id };
  return gatesOf(drawn, i, wish).some((gate) =>
    gridOf(
      gate,
      gate.free.map((f) => (f.between ? takingsEachWay : f.count)),
    ).every((figures) => !gate.taking(figures).clear),
  );
}

/** What no line may do, counted on random courses from the points it is given as and the pieces as they are drawn. */
export function faithLines(): BenchLine[] {
  const runner = runnerWith();
  const broken: Broken = { turns: 0, flights: 0, wings: 0, blocked: 0, rightlyBlocked: 0, stretches: 0 };
  for (let seed = 1; seed <= courses; seed++) {
    const course = randomCourse(seed + 1000, numbers);
    const line = likelyLine(course, { runner });
    if (line) look(line, course, runner, broken);
  }
  const none = (figure: string, count: number): BenchLine => ({
    figure: `${figure}, ${courses} random courses of ${numbers}`,
    asked: '0',
    measured: `${count} of ${broken.stretches} stretches`,
    holds: count === 0 && broken.stretches >= courses * numbers,
  });
  return [
    none('turns tighter than she can run', broken.turns),
    none('flights that are not straight', broken.flights),
    none('ways and flights through a wing or another piece that are not said to be blocked', broken.wings),
    {
      figure: 'ways said to be blocked where other pieces stand in every way of taking the number at an end',
      asked: 'told',
      measured: `${broken.rightlyBlocked} of ${broken.stretches} stretches`,
      holds: true,
    },
    none('ways said to be blocked though both numbers can be taken clear of other pieces', broken.blocked),
  ];
}
