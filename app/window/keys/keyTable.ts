import { placesMeet, type Act } from './act.ts';

/** Keys that the coach changed: act name to key; an empty key switches it off. */
export type ChangedKeys = Readonly<Record<string, string>>;

/** The key of an act as it is now; empty where the coach switched it off. */
export function keyOf(act: Act, changed: ChangedKeys): string {
  return changed[act.name] ?? act.key;
}

/** Every key that does an act now: its own first, then those people are used to. */
export function keysOf(act: Act, changed: ChangedKeys): readonly string[] {
  const own = keyOf(act, changed);
  return own === '' ? (act.also ?? []) : [own, ...(act.also ?? [])];
}

/** Two acts that one key would do in the same place. */
export interface KeyConflict {
  readonly key: string;
  readonly acts: readonly [Act, Act];
}

/** All pairs of acts that share a key where both can be meant. Empty for a sound table. */
export function keyConflicts(acts: readonly Act[], changed: ChangedKeys): readonly KeyConflict[] {
  const conflicts: KeyConflict[] = [];
  acts.forEach((a, i) => {
    for (const b of acts.slice(i + 1)) {
      if (!placesMeet(a.place, b.place)) continue;
      const shared = keysOf(a, changed).find((key) => keysOf(b, changed).includes(key));
      if (shared !== undefined) conflicts.push({ key: shared, acts: [a, b] });
    }
  });
  return conflicts;
}

/** The act that already has this key where `act` is done, or undefined where the key is free. */
export function actHolding(
  acts: readonly Act[],
  changed: ChangedKeys,
  act: Act,
  key: string,
): Act | undefined {
  return acts.find(
    (a) => a.name !== act.name && placesMeet(a.place, act.place) && keysOf(a, changed).includes(key),
  );
}
