/**
 * An act: one thing that a key does. Each room lists its own acts (`acts.ts`) and hands them to `allActs.ts`.
 * A component that can do an act registers its handler with `useActs`; an act without a handler is asleep.
 */
export interface Act {
  /** Room and what is done, e.g. "review.nextFrame". The name under which a changed key is kept. */
  readonly name: string;
  /** What the coach reads in the sheet of keys and in Settings. */
  readonly label: string;
  /** Default key as `keyName.ts` writes it. One key without a second one held: no act needs two hands. */
  readonly key: string;
  /** Further keys that people are used to, e.g. "Ctrl+z". Not changeable. */
  readonly also?: readonly string[];
  /**
   * Where the act can be done: "anywhere", a room ("review"), or a state of a room ("review.cross"). A key means
   * one thing in a place and in all places that surround it.
   */
  readonly place: string;
  /** True where holding the key down goes on doing it. */
  readonly repeat?: boolean;
}

/** Keeps the names of a list of acts known to the type checker. */
export const defineActs = <const T extends readonly Act[]>(acts: T): T => acts;

/** True where both places can be in use at once: equal, one around the other, or one of them everywhere. */
export function placesMeet(a: string, b: string): boolean {
  if (a === 'anywhere' || b === 'anywhere' || a === b) return true;
  return a.startsWith(`${b}.`) || b.startsWith(`${a}.`);
}

/** The room an act belongs to: the first part of its place. */
export const roomOf = (act: Act): string => act.place.split('.')[0] ?? act.place;

/** All acts, gathered by room, rooms in the order in which they first appear. */
export function actsByRoom(acts: readonly Act[]): ReadonlyMap<string, readonly Act[]> {
  const rooms = new Map<string, Act[]>();
  for (const act of acts) {
    const room = rooms.get(roomOf(act));
    if (room) room.push(act);
    else rooms.set(roomOf(act), [act]);
  }
  return rooms;
}
