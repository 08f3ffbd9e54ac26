import { courseLengths } from '../../../../src/course/courseLength.ts';
import { centreOf } from '../../../../src/course/courseLength.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { drawnSteps } from '../../../../src/course/sequence.ts';
import type { GroundShape } from '../../../../src/line/groundShapes.ts';
import { lineShapes, rangeShapes } from '../../../../src/line/lineShapes.ts';
import type { Remark } from '../../../../src/line/reading/remark.ts';
import type { PlanSheet } from '../../../../src/plan/plan.ts';
import { readPageWords as words } from '../../../../src/words/planPage.ts';
import type { Grip, Overlay } from '../board/overlay.ts';
import type { LinesDesk, LinesView } from './linesDesk.ts';

/** What the hand on the page of reading can do. */
export interface ReadHands {
  readonly desk: Pick<LinesDesk, 'draft'>;
  keep(label: string, change: (sheet: PlanSheet) => PlanSheet): void;
}

const hundredth = (v: number): number => Math.min(1000, Math.max(-1000, Math.round(v * 100) / 100));
const kept = ({ x, y }: GroundPoint): GroundPoint => ({ x: hundredth(x), y: hundredth(y) });

/** A grip whose drag shows a plan and whose drop keeps it. */
export function planGrip(
  id: string,
  at: GroundPoint,
  label: string,
  { desk, keep }: ReadHands,
  change: (sheet: PlanSheet, to: GroundPoint) => PlanSheet,
): Grip {
  return {
    id,
    at,
    drag(to) {
      desk.draft((sheet) => change(sheet, kept(to)));
    },
    drop(to) {
      keep(label, (sheet) => change(sheet, kept(to)));
      desk.draft(null);
    },
    leave() {
      desk.draft(null);
    },
  };
}

/** The plan with the dog landing somewhere else after a number. */
const withLanding = (sheet: PlanSheet, number: number, at: GroundPoint): PlanSheet => ({
  ...sheet,
  landings: [...(sheet.landings ?? []).filter((l) => l.number !== number), { number, at }].sort(
    (a, b) => a.number - b.number,
  ),
});

/** The lines, what is remarked, and what of it can be dragged: landings and the nodes of the wanted line. */
export function readOverlay(
  { course, line, range, sheet, show }: LinesView,
  wanted: readonly GroundPoint[] | null,
  remarks: readonly Remark[],
  selected: number | null,
  hands: ReadHands,
): Overlay {
  if (!line) return { shapes: [], grips: [] };
  const shapes: GroundShape[] = [];
  const grips: Grip[] = [];
  if (show.measured) shapes.push(measuredShape(course));
  if (show.likely && range) shapes.push(...rangeShapes(range));
  for (const { highlight } of remarks) shapes.push(...highlight.shapes);
  if (show.likely) shapes.push(...lineShapes(line));
  if (show.wanted && wanted) {
    shapes.push({ shape: 'way', points: wanted, as: 'wanted', dashed: true });
  }
  if (show.likely) {
    for (const step of line.steps) {
      if (!jumps.has(step.kind)) continue;
      const moved = sheet.landings?.some((l) => l.number === step.number) ?? false;
      shapes.push({
        shape: 'dot',
        at: step.exit,
        as: 'likely',
        pixels: step.number === selected || moved ? 6 : 4,
        full: moved,
      });
      grips.push(
        planGrip(
          `landing ${String(step.number)}`,
          step.exit,
          words.landing.label(step.number),
          hands,
          (s, to) => withLanding(s, step.number, to),
        ),
      );
    }
  }
  if (show.wanted && sheet.wantedLine) {
    const { nodes } = sheet.wantedLine;
    nodes.forEach((node, i) => {
      shapes.push({ shape: 'dot', at: node, as: 'wanted', pixels: 5, full: true });
      grips.push(
        planGrip(`node ${String(i)}`, node, words.lines.labels.node, hands, (s, to) =>
          withNodes(s, (all) => all.map((n, k) => (k === i ? to : n))),
        ),
      );
      const next = nodes[i + 1];
      if (!next || nodes.length >= mostNodes) return;
      const half = { x: (node.x + next.x) / 2, y: (node.y + next.y) / 2 };
      shapes.push({ shape: 'dot', at: half, as: 'wanted', pixels: 3 });
      grips.push(
        planGrip(`half ${String(i)}`, half, words.lines.labels.node, hands, (s, to) =>
          withNodes(s, (all) => [...all.slice(0, i + 1), to, ...all.slice(i + 1)]),
        ),
      );
    });
  }
  return { shapes, grips };
}

/** As many nodes as a plan keeps. */
const mostNodes = 200;

/** Kinds over which she flies: where she lands can be dragged. */
const jumps: ReadonlySet<string> = new Set(['barJump', 'spread', 'panel', 'wall', 'longJump', 'tyre']);

const withNodes = (
  sheet: PlanSheet,
  change: (nodes: readonly GroundPoint[]) => readonly GroundPoint[],
): PlanSheet =>
  sheet.wantedLine
    ? { ...sheet, wantedLine: { ...sheet.wantedLine, nodes: [...change(sheet.wantedLine.nodes)] } }
    : sheet;

/** The plan without what is in hand: a landing as computed, a line with a node less. */
export function withoutInHand(grip: string): ((sheet: PlanSheet) => PlanSheet) | null {
  const [what, text] = grip.split(' ');
  const n = Number(text);
  if (what === 'landing') {
    return (s) => ({ ...s, landings: (s.landings ?? []).filter((l) => l.number !== n) });
  }
  if (what === 'node') {
    return (s) => withNodes(s, (all) => (all.length > 2 ? all.filter((_, i) => i !== n) : all));
  }
  return null;
}

function measuredShape(course: LinesView['course']): GroundShape {
  const { wheelPath } = courseLengths(course);
  const points = wheelPath.known && course.wheelPath ? course.wheelPath : drawnSteps(course).map(centreOf);
  return { shape: 'way', points, as: 'measured', dashed: true, pixels: 1.5 };
}
