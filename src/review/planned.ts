import type { CrossKind, PlannedCross } from '../plan/plan.ts';
import type { Analysis, CrossAnalysis } from './analysis.ts';

/**
 * How a planned cross was carried out. `secondChoice` counts as plan. `otherKind`: another cross at that number.
 * `elsewhere`: the planned kind, at a number next to it. `leftOut`: she ran there, and no cross is marked.
 * `notReached`: the run ended before.
 */
export const doneAs = ['planned', 'secondChoice', 'otherKind', 'elsewhere', 'leftOut', 'notReached'] as const;
export type DoneAs = (typeof doneAs)[number];

/** A planned cross beside what happened. */
export interface PlannedRow {
  readonly planned: PlannedCross;
  readonly as: DoneAs;
  /** The cross that happened, with its own verdict; null where there is none. */
  readonly happened: CrossAnalysis | null;
}

export interface PlannedAgainstHappened {
  readonly rows: readonly PlannedRow[];
  /** Crosses that happened and no plan asked for. */
  readonly unplanned: readonly CrossAnalysis[];
}

/** How many numbers away a cross is still the planned one, made elsewhere. */
const near = 1;

/**
 * Lays the planned crosses beside those that happened. A cross that the coach tied to a planned one belongs to it;
 * the others go to the plan at their own number, the planned kind before the second choice before any other, then
 * to a plan for the same kind at the number before or after. No cross serves two plans.
 */
export function plannedAgainstHappened(
  plans: readonly PlannedCross[],
  { crosses, taken, countedTry }: Pick<Analysis, 'crosses' | 'taken' | 'countedTry'>,
): PlannedAgainstHappened {
  const free = new Set(crosses);
  const found = new Map<PlannedCross, CrossAnalysis>();
  const match = (fits: (plan: PlannedCross, cross: CrossAnalysis) => boolean): void => {
    for (const plan of plans) {
      if (found.has(plan)) continue;
      const cross = [...free].find((c) => fits(plan, c));
      if (!cross) continue;
      found.set(plan, cross);
      free.delete(cross);
    }
  };
  const known = new Set(plans.map((p) => p.id));
  // What the coach tied to one plan is not given to another.
  const untied = (c: CrossAnalysis): boolean => c.plannedId === null || !known.has(c.plannedId);
  match((p, c) => c.plannedId === p.id);
  match((p, c) => untied(c) && c.place === p.place && c.kind === p.kind);
  match((p, c) => untied(c) && c.place === p.place && c.kind === p.secondChoice);
  match((p, c) => untied(c) && c.place === p.place);
  match((p, c) => untied(c) && Math.abs(c.place - p.place) <= near && c.kind === p.kind);

  const reached = Math.max(0, ...taken.filter((t) => t.try === countedTry).map((t) => t.place));
  return {
    rows: plans
      .toSorted((a, b) => a.place - b.place)
      .map((planned) => {
        const happened = found.get(planned) ?? null;
        if (!happened) return { planned, happened, as: planned.place <= reached ? 'leftOut' : 'notReached' };
        return { planned, happened, as: manner(planned, happened.place, happened.kind) };
      }),
    unplanned: [...free],
  };
}

function manner(planned: PlannedCross, place: number, kind: CrossKind): DoneAs {
  if (place !== planned.place) return 'elsewhere';
  if (kind === planned.kind) return 'planned';
  return kind === planned.secondChoice ? 'secondChoice' : 'otherKind';
}
