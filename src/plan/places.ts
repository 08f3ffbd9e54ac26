import type { GroundPoint } from '../course/points.ts';
import type { PlanSheet } from './plan.ts';

/** Somewhere that a plan lets dog or handler stand. */
export type PlanPlace =
  { readonly is: 'wait' | 'leadOut' } | { readonly is: 'cross' | 'second' | 'support'; readonly id: string };

/** One text for a spot, so that it can be told from others. */
export const spotId = (spot: PlanPlace): string => ('id' in spot ? `${spot.is} ${spot.id}` : spot.is);

/** Where the plan puts a spot; undefined where it says nothing. */
export function placeOf(sheet: PlanSheet, spot: PlanPlace): GroundPoint | undefined {
  switch (spot.is) {
    case 'wait':
    case 'leadOut':
      return sheet[spot.is];
    case 'cross':
      return sheet.crosses.find((c) => c.id === spot.id)?.at;
    case 'second':
      return sheet.crosses.find((c) => c.id === spot.id)?.secondAt;
    case 'support':
      return sheet.supports.find((s) => s.id === spot.id)?.at;
  }
}

const without = <T extends object, K extends keyof T>(value: T, key: K): Omit<T, K> => {
  const { [key]: _, ...rest } = value;
  return rest;
};

const hundredth = (v: number): number => Math.min(1000, Math.max(-1000, Math.round(v * 100) / 100));

/** The plan with a spot somewhere else, to the centimetre; null takes its place away. */
export function withSpot(sheet: PlanSheet, spot: PlanPlace, to: GroundPoint | null): PlanSheet {
  const at = to && { x: hundredth(to.x), y: hundredth(to.y) };
  switch (spot.is) {
    case 'wait':
    case 'leadOut':
      return at ? { ...sheet, [spot.is]: at } : without(sheet, spot.is);
    case 'cross':
    case 'second': {
      const key = spot.is === 'cross' ? 'at' : 'secondAt';
      return {
        ...sheet,
        crosses: sheet.crosses.map((c) =>
          c.id !== spot.id ? c : at ? { ...c, [key]: at } : without(c, key),
        ),
      };
    }
    case 'support':
      return {
        ...sheet,
        supports: sheet.supports.map((s) => (s.id !== spot.id ? s : at ? { ...s, at } : without(s, 'at'))),
      };
  }
}
