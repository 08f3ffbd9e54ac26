import { obstacleAt, type Course } from '../course/course.ts';
import type { GroundPoint } from '../course/points.ts';
import { distance } from '../course/pose.ts';
import { passingsOf, type Passing } from '../line/wantedLine.ts';

/** A wanted line passes a number where it comes this near to the middle of its piece, metres (ours). */
const passes = 1.5;

/** A stretch ends where she lands, this far behind the middle of a piece at the most, metres (ours). */
const landing = 3;

/**
 * The part of a wanted line that belongs to each stretch: from the number it leads from to where she lands behind the one it
 * leads to. Stretches that
 * it does not reach have none. By the number that the stretch leads to.
 */
export function wantedParts(
  wanted: readonly GroundPoint[],
  course: Course,
): ReadonlyMap<number, readonly GroundPoint[]> {
  const placed = course.steps
    .toSorted((a, b) => a.number - b.number)
    .flatMap(({ number }) => {
      const stand = obstacleAt(course, number)?.stand;
      return stand ? [{ number, at: stand }] : [];
    });
  // A line that ends early passes only the numbers before its end.
  let numbers = placed;
  let passings = passingsIn(wanted, numbers);
  while (numbers.length > 0 && !reaches(passings)) {
    numbers = numbers.slice(0, -1);
    passings = passingsIn(wanted, numbers);
  }
  const parts = new Map<number, readonly GroundPoint[]>();
  passings.forEach((there, i) => {
    const before = passings[i - 1];
    const number = numbers[i]?.number;
    if (!before || number === undefined || before.aside > passes || there.aside > passes) return;
    const part = between(wanted, before.metres, there.metres + landing);
    if (part.length > 1) parts.set(number, part);
  });
  return parts;
}

/** Whether a line passes the last of these numbers, and the others on its way but for one in five. */
function reaches(passings: readonly Passing[]): boolean {
  const passed = passings.filter((p) => p.aside < passes).length;
  return (passings.at(-1)?.aside ?? Infinity) < passes && passed >= 0.8 * passings.length;
}

const passingsIn = (line: readonly GroundPoint[], its: readonly { readonly at: GroundPoint }[]) =>
  passingsOf(
    line,
    its.map((n) => n.at),
  );

/** The points of a line from so many metres along it to so many. */
function between(line: readonly GroundPoint[], from: number, to: number): readonly GroundPoint[] {
  const out: GroundPoint[] = [];
  let run = 0;
  line.slice(1).forEach((b, i) => {
    const a = line[i] ?? b;
    const long = distance(a, b);
    const at = (metres: number): GroundPoint => {
      const share = (metres - run) / long;
      return { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
    };
    if (long > 0 && run + long >= from && run <= to) {
      if (out.length === 0) out.push(at(Math.max(from, run)));
      out.push(at(Math.min(to, run + long)));
    }
    run += long;
  });
  return out;
}
