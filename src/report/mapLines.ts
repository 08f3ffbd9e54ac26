import type { CourseMap } from '../course/courseMap.ts';
import type { PlanPoint } from '../course/planShapes.ts';
import { wantedLine } from '../line/wantedLine.ts';
import type { PlanSheet } from '../plan/plan.ts';
import type { RealLine } from '../track/realLine.ts';
import { everywhere } from '../track/whereAt.ts';

/** A way over the map, in the map's own units. */
export interface MapLine {
  readonly as: 'wanted' | 'real';
  readonly points: readonly PlanPoint[];
}

/** The line that was wanted and the one that was run, on a map to scale; the one that was run lies on top. */
export function mapLines(
  map: CourseMap | null,
  plan: Pick<PlanSheet, 'wantedLine'>,
  line: RealLine | null,
): readonly MapLine[] {
  const corner = map?.corner;
  if (!corner) return [];
  const at = ({ x, y }: { readonly x: number; readonly y: number }): PlanPoint => [
    x - corner.x,
    corner.y - y,
  ];
  const wanted = plan.wantedLine ? wantedLine(plan.wantedLine.nodes, plan.wantedLine.tension) : [];
  const lines: MapLine[] = [
    { as: 'wanted', points: wanted.map(at) },
    { as: 'real', points: line ? everywhere(line).map(at) : [] },
  ];
  return lines.filter(({ points }) => points.length > 1);
}
