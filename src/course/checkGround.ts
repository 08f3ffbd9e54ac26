import type { Course } from './course.ts';
import { cannotTell, judge, type CourseFinding } from './courseFindings.ts';
import { notDrawn } from './courseLength.ts';
import type { RuleBook } from './rules/book.ts';
import { named } from './rules/entries.ts';
import { drawnSteps } from './sequence.ts';

/** Ring and area of the course, each way round: the shorter side against the shorter, the longer against the longer. */
export function checkGround(course: Course, book: RuleBook): CourseFinding[] {
  return [...checkRing(course, book), ...checkArea(course, book)];
}

const sides = ['shorter', 'longer'] as const;

function checkRing({ ring }: Course, { course: rules }: RuleBook): CourseFinding[] {
  if (!rules.ring) return [];
  const rule = named('course.ring', rules.ring);
  const asked = ordered(rules.ring.value.width, rules.ring.value.length);
  const has = ring && ordered(ring.width, ring.length);
  return sides.map((side) => ({
    about: { what: 'ring', side },
    judgement: has ? judge(has[side], { least: asked[side], most: null }, 2) : cannotTell('noRing'),
    numbers: [],
    rule,
  }));
}

/** The area spans the ways in and out of all numbers, along the sides of the ring. */
function checkArea(course: Course, { course: rules }: RuleBook): CourseFinding[] {
  if (!rules.area) return [];
  const rule = named('course.area', rules.area);
  const missing = notDrawn(course);
  const points = drawnSteps(course).flatMap(({ step, entry, exit }) =>
    [entry, exit].map(({ x, y }) => ({ x, y, number: step.number })),
  );
  const placed = points.every(({ x, y }) => Number.isFinite(x + y));
  if (missing.length > 0 || points.length === 0 || !placed)
    return sides.map((side) => ({
      about: { what: 'area', side },
      judgement: cannotTell(missing.length > 0 || !placed ? 'notDrawn' : 'fewNumbers'),
      numbers: missing,
      rule,
    }));
  const spans = (['x', 'y'] as const).map((axis) => {
    const sorted = points.toSorted((a, b) => a[axis] - b[axis]);
    const [first, last] = [sorted[0], sorted.at(-1)];
    return first && last
      ? { span: last[axis] - first[axis], numbers: [...new Set([first.number, last.number])] }
      : { span: 0, numbers: [] };
  });
  const [shorter, longer] = spans.sort((a, b) => a.span - b.span);
  const asked = ordered(rules.area.value.width, rules.area.value.length);
  return [shorter, longer].flatMap((s, i): CourseFinding[] => {
    const side = sides[i];
    if (!s || !side) return [];
    const judgement = judge(s.span, { least: null, most: asked[side] }, 2);
    return [
      {
        about: { what: 'area', side },
        judgement,
        numbers: judgement.verdict === 'above' ? s.numbers : [],
        rule,
      },
    ];
  });
}

const ordered = (a: number, b: number): Record<(typeof sides)[number], number> => ({
  shorter: Math.min(a, b),
  longer: Math.max(a, b),
});
