import type { GroundPoint } from '../course/points.ts';
import type { CrossKind, PlanSheet, Side } from './plan.ts';

/** The side on which the dog runs on one stretch. */
export interface StretchSide {
  /** The number the stretch follows; 0: from the start. */
  readonly after: number;
  /** null where neither a statement nor the lead-out tells it. */
  readonly side: Side | null;
  /** True where the coach stated it. */
  readonly stated: boolean;
}

/** Where what a plan says of sides does not fit together. */
export type SideFinding =
  | {
      /** What is stated after a number is not what follows from the side before and the crosses since. */
      readonly finding: 'disagrees';
      readonly after: number;
      readonly stated: Side;
      /** The last cross that changed sides since the side was last stated; null where none did. */
      readonly cross: { readonly place: number; readonly kind: CrossKind } | null;
      /** Where no cross did: after which number the side was last known. */
      readonly since: number;
    }
  /** The side stated from the start is not the one on which the lead-out spot puts the dog. */
  | { readonly finding: 'leadOut'; readonly stated: Side }
  /** Two side changes at one number take each other back. */
  | { readonly finding: 'undone'; readonly place: number }
  /** One choice changes sides and the other does not: from there on the plan has two stories. */
  | {
      readonly finding: 'choicesDiffer';
      readonly place: number;
      readonly first: CrossKind;
      readonly second: CrossKind;
    }
  /** Two statements about one stretch. */
  | { readonly finding: 'statedTwice'; readonly after: number }
  /** Something stands on a number that the course does not have. */
  | {
      readonly finding: 'gone';
      readonly what: 'cross' | 'support' | 'side';
      readonly number: number;
      readonly numbers: number;
    };

export interface Sides {
  readonly stretches: readonly StretchSide[];
  readonly findings: readonly SideFinding[];
}

export const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** Serpentines and threadles turn the dog and leave her on the side where she was (common practice). */
export const changesSide = (kind: CrossKind): boolean => kind !== 'serpentine' && kind !== 'threadle';

/** The handler's side on which the dog is that runs from `a` to `b`, where the handler runs the same way. */
export function sideAlong(handler: GroundPoint, a: GroundPoint, b: GroundPoint): Side | null {
  const left = (b.x - a.x) * (handler.y - a.y) - (b.y - a.y) * (handler.x - a.x);
  if (Math.abs(left) < 1e-9) return null;
  return left > 0 ? 'right' : 'left';
}

/**
 * The side on each stretch of a course of `numbers` numbers: what is stated, carried on and changed by the crosses.
 * After a statement that disagrees, the statement is carried on: one slip gives one finding.
 * @param atStart the side on which the lead-out puts the dog, where it is known
 */
export function sidesOf(sheet: PlanSheet, numbers: number, atStart: Side | null = null): Sides {
  const findings: SideFinding[] = [...goneFrom(sheet, numbers)];
  const stated = new Map<number, Side>();
  for (const { after, side } of sheet.sides) {
    if (stated.has(after)) findings.push({ finding: 'statedTwice', after });
    else if (after <= numbers) stated.set(after, side);
  }
  const changes = changesByPlace(sheet, numbers, findings);
  const first = stated.get(0);
  if (first && atStart && first !== atStart) findings.push({ finding: 'leadOut', stated: first });
  let side = first ?? atStart ?? carriedBack(stated, changes, numbers);
  let cross: { place: number; kind: CrossKind } | null = null;
  let since = 0;
  const stretches: StretchSide[] = [{ after: 0, side, stated: first !== undefined }];
  for (let after = 1; after <= numbers; after++) {
    const kind = changes.get(after);
    if (kind) {
      cross = { place: after, kind };
      side = side && otherSide(side);
    }
    const said = stated.get(after);
    if (said) {
      if (side && said !== side) findings.push({ finding: 'disagrees', after, stated: said, cross, since });
      side = said;
      cross = null;
      since = after;
    }
    stretches.push({ after, side, stated: said !== undefined });
  }
  return { stretches, findings };
}

/** The kind that changes sides, by number; a number where two changes undo each other is left out and told. */
function changesByPlace(
  sheet: PlanSheet,
  numbers: number,
  findings: SideFinding[],
): ReadonlyMap<number, CrossKind> {
  const changes = new Map<number, CrossKind>();
  for (const { place, kind, secondChoice } of sheet.crosses) {
    if (place > numbers) continue;
    if (secondChoice && changesSide(kind) !== changesSide(secondChoice)) {
      findings.push({ finding: 'choicesDiffer', place, first: kind, second: secondChoice });
    }
    if (!changesSide(kind)) continue;
    if (changes.delete(place)) findings.push({ finding: 'undone', place });
    else changes.set(place, kind);
  }
  return changes;
}

/** The side at the start that the first statement on the way asks for. */
function carriedBack(
  stated: ReadonlyMap<number, Side>,
  changes: ReadonlyMap<number, CrossKind>,
  numbers: number,
): Side | null {
  let turned = false;
  for (let after = 1; after <= numbers; after++) {
    if (changes.has(after)) turned = !turned;
    const said = stated.get(after);
    if (said) return turned ? otherSide(said) : said;
  }
  return null;
}

function goneFrom(sheet: PlanSheet, numbers: number): SideFinding[] {
  const gone = (what: 'cross' | 'support' | 'side', number: number): SideFinding[] =>
    number > numbers ? [{ finding: 'gone', what, number, numbers }] : [];
  return [
    ...sheet.crosses.flatMap((c) => gone('cross', c.place)),
    ...sheet.supports.flatMap((s) => gone('support', s.place)),
    ...sheet.sides.flatMap((s) => gone('side', s.after)),
  ];
}
