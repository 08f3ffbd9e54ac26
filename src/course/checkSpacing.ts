import type { Course } from './course.ts';
import { cannotTell, judge, type CourseFinding, type Judgement } from './courseFindings.ts';
import { centreOf } from './courseLength.ts';
import { drawnSizes } from './equipment.ts';
import type { GroundPoint } from './points.ts';
import { distance, from } from './pose.ts';
import type { RuleBook } from './rules/book.ts';
import { named } from './rules/entries.ts';
import { drawnSteps, type DrawnStep } from './sequence.ts';

/** Distances from each number to the next, one finding a pair; in a straight line, measured as the book says. */
export function checkSpacing(course: Course, book: RuleBook, category: string | undefined): CourseFinding[] {
  const entry = book.course.spacing;
  if (!entry) return [];
  const { measured, byCategory } = entry.value;
  const of = { about: { what: 'spacing', measured }, rule: named('course.spacing', entry) } as const;
  const limits = byCategory.find((l) => l.category === category);
  if (!limits) {
    const why = category === undefined ? 'noCategory' : 'categoryNotInRule';
    return [{ ...of, judgement: cannotTell(why), numbers: [] }];
  }
  const drawn = new Map(drawnSteps(course).map((s) => [s.step.number, s]));
  const between = (a: DrawnStep | undefined, b: DrawnStep | undefined): Judgement => {
    if (!a || !b) return cannotTell('notDrawn');
    if (measured === 'centres') return judge(distance(centreOf(a), centreOf(b)), limits, 2);
    if (a.obstacle.kind === 'unknown' || b.obstacle.kind === 'unknown') return cannotTell('kindUnknown');
    return judge(distance(endOf(a), beginningOf(b)), limits, 2);
  };
  const numbers = [...new Set(course.steps.map((s) => s.number))].sort((a, b) => a - b);
  return numbers.flatMap((n, i): CourseFinding[] => {
    const next = numbers[i + 1];
    // Where a number is missing there is no next obstacle; the hole itself is told with the drawing.
    if (next !== n + 1) return [];
    return [{ ...of, judgement: between(drawn.get(n), drawn.get(next)), numbers: [n, next] }];
  });
}

const beginningOf = (s: DrawnStep): GroundPoint => from(s.entry, -halfDepth(s));
const endOf = (s: DrawnStep): GroundPoint => from(s.exit, halfDepth(s));

/** Half the depth of what is drawn as taken in one place but stands on more ground, metres. */
function halfDepth({ obstacle: { kind, sizes } }: DrawnStep): number {
  switch (kind) {
    case 'spread':
    case 'longJump':
    case 'wall':
      return drawnSizes(kind, sizes).depth / 2;
    case 'table':
      return drawnSizes(kind, sizes).tableSide / 2;
    default:
      return 0;
  }
}
