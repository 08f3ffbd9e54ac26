import type { PlanePoint } from './homography.ts';
import type { Sighting } from './model.ts';

/** How the points lie that a fit stands on, where that is a reason to trust it less. */
export type LayoutWarning =
  /** Nearly in one line, on the ground or in the picture; all but one, where one is named. */
  | { readonly warning: 'inLine'; readonly butFor: string | null }
  /** Together in so small a share of the ground that is to be measured. */
  | { readonly warning: 'bunched'; readonly share: number };

/** Points count as in line where they stray from it by less than this share of their spread along it. */
const thin = 0.06;
/** Points count as bunched where their hull covers less than this share of the area. */
const small = 0.12;

/**
 * What is to be said of how points lie.
 * @param area points around the ground that is to be measured; nothing is said of bunches without it
 */
export function layoutWarnings(
  sightings: readonly Sighting[],
  area: readonly PlanePoint[],
): readonly LayoutWarning[] {
  const warnings: LayoutWarning[] = [];
  const line = lineIn(sightings);
  if (line) warnings.push(line);
  const whole = hullArea(area);
  const share = hullArea(sightings.map((s) => s.ground)) / whole;
  if (whole > 0 && share < small) warnings.push({ warning: 'bunched', share });
  return warnings;
}

function lineIn(sightings: readonly Sighting[]): LayoutWarning | null {
  const flat = (its: readonly Sighting[]): boolean =>
    thickness(its.map((s) => s.ground)) < thin || thickness(its.map((s) => s.pixel)) < thin / 3;
  if (flat(sightings)) return { warning: 'inLine', butFor: null };
  if (sightings.length < 5) return null;
  const one = sightings.find((s) => flat(sightings.filter((o) => o !== s)));
  return one ? { warning: 'inLine', butFor: one.id } : null;
}

/** Spread of points across their main direction over that along it: 0 in a line, 1 in all directions alike. */
export function thickness(points: readonly PlanePoint[]): number {
  const n = points.length;
  const mx = points.reduce((all, p) => all + p.x, 0) / n;
  const my = points.reduce((all, p) => all + p.y, 0) / n;
  let [xx, xy, yy] = [0, 0, 0];
  for (const { x, y } of points) {
    xx += (x - mx) ** 2;
    xy += (x - mx) * (y - my);
    yy += (y - my) ** 2;
  }
  const middle = (xx + yy) / 2;
  const apart = Math.hypot((xx - yy) / 2, xy);
  return middle + apart > 0 ? Math.sqrt(Math.max(0, middle - apart) / (middle + apart)) : 0;
}

/** Area of the convex hull (Andrew 1979, monotone chain), square metres. */
export function hullArea(points: readonly PlanePoint[]): number {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const chain = (list: readonly PlanePoint[]): PlanePoint[] => {
    const hull: PlanePoint[] = [];
    for (const p of list) {
      for (;;) {
        const [a, b] = [hull.at(-2), hull.at(-1)];
        if (!a || !b || (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > 0) break;
        hull.pop();
      }
      hull.push(p);
    }
    return hull.slice(0, -1);
  };
  const hull = [...chain(sorted), ...chain(sorted.toReversed())];
  return Math.abs(
    hull.reduce((all, p, i) => {
      const q = hull[(i + 1) % hull.length] ?? p;
      return all + (p.x * q.y - q.x * p.y) / 2;
    }, 0),
  );
}
