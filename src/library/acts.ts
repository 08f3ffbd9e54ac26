import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { entityKinds, type Change, type EntityKind } from '../review/entities.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { readBody } from './stored.ts';

/** What an act did. `make`, `remove` and `restore` concern the review as a whole and are no step of undo. */
export type ActKind = 'make' | 'change' | 'undo' | 'redo' | 'remove' | 'restore';

/** One entity in one act: its body before and after; null where it was not there. */
const Effect = z.strictObject({
  kind: z.enum(entityKinds as [EntityKind, ...EntityKind[]]),
  id: z.string(),
  before: z.unknown(),
  after: z.unknown(),
});
export type Effect = z.infer<typeof Effect>;

export interface Act {
  readonly act: number;
  readonly actId: string;
  readonly kind: ActKind;
  /** The act that was undone or done again. */
  readonly target: number | null;
  readonly label: string;
  readonly effects: readonly Effect[];
}

/** What undo and redo would do next. */
interface Steps {
  last: number;
  readonly undo: { act: number; label: string }[];
  readonly redo: { act: number; label: string }[];
}

export interface ActLog {
  /** Number of the review's last act. */
  last(reviewId: string): number;
  find(reviewId: string, actId: string): Act | null;
  read(reviewId: string, act: number): Act | null;
  next(reviewId: string, way: 'undo' | 'redo'): { act: number; label: string } | null;
  /** Writes the next act. To be called inside the transaction that writes its effect. */
  append(reviewId: string, act: Omit<Act, 'act'>): number;
  /** To be called where a transaction that appended was rolled back. */
  forget(reviewId: string): void;
}

interface Row {
  act: number;
  act_id: string;
  kind: ActKind;
  target: number | null;
  label: string;
  changes: string;
}

/**
 * The append-only log of acts. What can be undone is not stored anywhere: it is read from the log, so that it is
 * the same after a restart. `clock` gives a time for the reader's eyes; the order is the act's number.
 */
export function actLog(db: Database, author: string, clock: () => number): ActLog {
  const all = db.prepare<[string], Omit<Row, 'changes' | 'act_id'>>(
    'SELECT act, kind, target, label FROM act WHERE review_id = ? ORDER BY act',
  );
  const byNumber = db.prepare<[string, number], Row>('SELECT * FROM act WHERE review_id = ? AND act = ?');
  const byId = db.prepare<[string, string], Row>('SELECT * FROM act WHERE review_id = ? AND act_id = ?');
  const insert = db.prepare(
    `INSERT INTO act (review_id, act, act_id, kind, target, author, label, told_at, changes)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const known = new Map<string, Steps>();

  const steps = (reviewId: string): Steps => {
    const there = known.get(reviewId);
    if (there) return there;
    const made: Steps = { last: 0, undo: [], redo: [] };
    for (const row of all.iterate(reviewId)) step(made, row);
    known.set(reviewId, made);
    return made;
  };

  const whole = (reviewId: string, row: Row | undefined): Act | null =>
    row
      ? {
          act: row.act,
          actId: row.act_id,
          kind: row.kind,
          target: row.target,
          label: row.label,
          effects: readBody(z.array(Effect), row.changes, libraryTroubles.act(row.act, reviewId)),
        }
      : null;

  return {
    last: (reviewId) => steps(reviewId).last,
    find: (reviewId, actId) => whole(reviewId, byId.get(reviewId, actId)),
    read: (reviewId, act) => whole(reviewId, byNumber.get(reviewId, act)),
    next: (reviewId, way) => steps(reviewId)[way].at(-1) ?? null,
    append(reviewId, act) {
      const now = steps(reviewId);
      const number = now.last + 1;
      const told = Math.trunc(clock());
      const changes = JSON.stringify(act.effects);
      insert.run(reviewId, number, act.actId, act.kind, act.target, author, act.label, told, changes);
      step(now, { act: number, kind: act.kind, target: act.target, label: act.label });
      return number;
    },
    forget: (reviewId) => void known.delete(reviewId),
  };
}

/** Moves the steps of undo and redo past one act. A new change clears what could be redone. */
function step(steps: Steps, row: { act: number; kind: ActKind; target: number | null; label: string }): void {
  steps.last = row.act;
  if (row.kind === 'change') {
    steps.undo.push({ act: row.act, label: row.label });
    steps.redo.length = 0;
  } else if (row.kind === 'undo') {
    const undone = steps.undo.pop();
    if (undone) steps.redo.push(undone);
  } else if (row.kind === 'redo') {
    const again = steps.redo.pop();
    if (again) steps.undo.push(again);
  }
}

/** The changes that an act made. */
export const changesOf = (effects: readonly Effect[]): Change[] =>
  effects.map((e) => ({ kind: e.kind, id: e.id, body: e.after }) as Change);

/** The changes that take an act back: what was before, last effect first. */
export const changesBack = (effects: readonly Effect[]): Change[] =>
  effects.toReversed().map((e) => ({ kind: e.kind, id: e.id, body: e.before }) as Change);
