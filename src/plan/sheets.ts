import { sheetsOf, type Plan, type PlanSheet } from './plan.ts';

/** Most plans that can be kept beside the one in use. */
export const mostOthers = 12;

/** The plan with another one made from the one in use; the copy is in use then. Unchanged where there are too many. */
export function copied(plan: Plan, name: string): Plan {
  const { others, ...inUse } = plan;
  if (others.length >= mostOthers) return plan;
  return { ...inUse, name, others: [...others, inUse] };
}

/** The plan with another sheet in use; the one that was in use takes its place among the others. */
export function takenUp(plan: Plan, index: number): Plan {
  const { others, ...inUse } = plan;
  const next = others[index];
  if (!next) return plan;
  return { ...next, others: others.map((sheet, i) => (i === index ? inUse : sheet)) };
}

/** The plan without one of the others. */
export const withoutOther = (plan: Plan, index: number): Plan => ({
  ...plan,
  others: plan.others.filter((_, i) => i !== index),
});

/** A name that no sheet has yet: "Plan 2", … */
export function freeName(plan: Plan, nameOf: (n: number) => string): string {
  const taken = new Set(sheetsOf(plan).map((sheet) => sheet.name));
  let n = plan.others.length + 2;
  while (taken.has(nameOf(n))) n += 1;
  return nameOf(n);
}

/** The sheet in use with another sheet's content, the others as they were. */
export const withInUse = (plan: Plan, change: (sheet: PlanSheet) => PlanSheet): Plan => {
  const { others, ...inUse } = plan;
  return { ...change(inUse), others };
};
