import type { Database } from 'better-sqlite3';
import { entityBodies, type Change, type EntityKind, type ReviewState } from '../review/entities.ts';
import { actLog, changesBack, changesOf, type Act, type Effect } from './acts.ts';
import { asStored, checkBody, readBody } from './stored.ts';
import { LibraryTrouble } from './trouble.ts';

/** What the list of reviews shows. */
export interface ReviewListing {
  readonly id: string;
  readonly title: string;
  readonly dog: string;
  readonly handler: string;
  readonly day: string;
  readonly runKind: ReviewState['header']['runKind'];
  readonly obstacles: number;
  readonly marks: number;
  readonly clipIds: readonly string[];
  readonly lastAct: number;
}

/** How an act ended. */
export interface ActOutcome {
  readonly act: number;
  readonly actId: string;
  readonly label: string;
  readonly changes: readonly Change[];
  readonly canUndo: string | null;
  readonly canRedo: string | null;
  /** True where the act was there already, from an earlier try whose answer was lost. */
  readonly repeated: boolean;
}

export interface WholeReview {
  readonly state: ReviewState;
  readonly act: number;
  readonly canUndo: string | null;
  readonly canRedo: string | null;
}

export interface Reviews {
  /** Takes in a whole review as its first act. Throws `conflict` where the id is taken, `badInput`. */
  add(state: ReviewState): void;
  has(reviewId: string): boolean;
  list(): ReviewListing[];
  /** Throws `notFound`, or `damaged` with the review's title. */
  whole(reviewId: string): WholeReview;
  apply(reviewId: string, actId: string, label: string, changes: readonly Change[]): ActOutcome;
  /** Takes the last step back, or does it again. Throws `conflict` where there is none. */
  undo(reviewId: string): ActOutcome;
  redo(reviewId: string): ActOutcome;
  remove(reviewId: string): ActOutcome;
  restore(reviewId: string): ActOutcome;
}

interface ReviewRow {
  id: string;
  title: string;
  removed: number;
}

interface EntityRow {
  kind: EntityKind;
  id: string;
  revision: number;
  removed: number;
  ordinal: number;
  body: string;
}

/** How many of a kind a review holds at most: what a review file can hold too, so that every review can be written. */
const most: Partial<Record<EntityKind, number>> = {
  footage: 40,
  mark: 200_000,
  cross: 500,
  drawing: 5000,
};

/** Kinds that occur once and carry the review's own id. */
const once: ReadonlySet<EntityKind> = new Set(['header', 'course', 'plan']);

/**
 * The reviews of a library. An act and its effect are one transaction. The living entities of a review, in order,
 * are always what `applyChanges` makes of its acts.
 */
export function reviewsOf(db: Database, author: string, clock: () => number, newId: () => string): Reviews {
  const log = actLog(db, author, clock);
  const reviewRow = db.prepare<[string], ReviewRow>('SELECT id, title, removed FROM review WHERE id = ?');
  const living = db.prepare<[], ReviewRow>(
    'SELECT id, title, removed FROM review WHERE removed = 0 ORDER BY ordinal',
  );
  const insertReview = db.prepare('INSERT INTO review (id, title, author, revision) VALUES (?, ?, ?, 1)');
  const retitle = db.prepare('UPDATE review SET title = ?, revision = revision + 1 WHERE id = ?');
  const setRemoved = db.prepare('UPDATE review SET removed = ?, revision = revision + 1 WHERE id = ?');
  const entity = db.prepare<[string, string, string], EntityRow>(
    'SELECT kind, id, revision, removed, ordinal, body FROM entity WHERE review_id = ? AND kind = ? AND id = ?',
  );
  const entities = db.prepare<[string, string], EntityRow>(
    `SELECT kind, id, revision, removed, ordinal, body FROM entity
     WHERE review_id = ? AND kind = ? AND removed = 0 ORDER BY ordinal`,
  );
  const count = db
    .prepare<[string, string], number>(
      'SELECT count(*) FROM entity WHERE review_id = ? AND kind = ? AND removed = 0',
    )
    .pluck();
  const lastOrdinal = db
    .prepare<[string, string], number>(
      'SELECT coalesce(max(ordinal), 0) FROM entity WHERE review_id = ? AND kind = ?',
    )
    .pluck();
  const put = db.prepare(
    `INSERT INTO entity (review_id, kind, id, author, revision, removed, ordinal, body)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)
     ON CONFLICT (review_id, kind, id) DO UPDATE SET
       author = excluded.author, revision = excluded.revision, removed = excluded.removed,
       ordinal = excluded.ordinal, body = excluded.body`,
  );
  const listings = new Map<string, ReviewListing>();

  const existing = (reviewId: string): ReviewRow => {
    const row = reviewRow.get(reviewId);
    if (!row) throw new LibraryTrouble('notFound', 'There is no such review in this library.');
    return row;
  };
  const usable = (reviewId: string): ReviewRow => {
    const row = existing(reviewId);
    if (row.removed) {
      throw new LibraryTrouble('conflict', `The review “${row.title}” was removed. Bring it back first.`);
    }
    return row;
  };
  const where = (row: ReviewRow, kind: EntityKind): string =>
    `The ${kind} of the review “${row.title}” (${row.id})`;
  const labels = (reviewId: string) => ({
    canUndo: log.next(reviewId, 'undo')?.label ?? null,
    canRedo: log.next(reviewId, 'redo')?.label ?? null,
  });

  /** Writes one entity; returns what was there before. */
  const write = (review: ReviewRow, change: Change): Effect => {
    const row = entity.get(review.id, change.kind, change.id);
    const before =
      row && !row.removed ? readBody(entityBodies[change.kind], row.body, where(review, change.kind)) : null;
    const after = change.body;
    if (after === null) {
      if (row && !row.removed) {
        put.run(review.id, change.kind, change.id, author, row.revision + 1, 1, row.ordinal, row.body);
      }
      return { kind: change.kind, id: change.id, before, after: null };
    }
    // Like applyChanges: what is there keeps its place, what is new or comes back goes to the end.
    const ordinal = row && !row.removed ? row.ordinal : (lastOrdinal.get(review.id, change.kind) ?? 0) + 1;
    const body = JSON.stringify(after);
    put.run(review.id, change.kind, change.id, author, (row?.revision ?? 0) + 1, 0, ordinal, body);
    if (change.kind === 'header') retitle.run(change.body.title, review.id);
    return { kind: change.kind, id: change.id, before, after };
  };

  const one = <K extends 'header' | 'course' | 'plan'>(review: ReviewRow, kind: K): ReviewState[K] => {
    const row = entity.get(review.id, kind, review.id);
    if (!row) throw new LibraryTrouble('damaged', `${where(review, kind)} is not there.`);
    return readBody(entityBodies[kind], row.body, where(review, kind)) as ReviewState[K];
  };
  const many = <K extends 'footage' | 'mark' | 'cross' | 'drawing'>(review: ReviewRow, kind: K) =>
    entities.all(review.id, kind).map((row) => readBody(entityBodies[kind], row.body, where(review, kind)));

  const stateOf = (review: ReviewRow): ReviewState => ({
    id: review.id,
    header: one(review, 'header'),
    course: one(review, 'course'),
    plan: one(review, 'plan'),
    footage: many(review, 'footage') as ReviewState['footage'],
    marks: many(review, 'mark') as ReviewState['marks'],
    crosses: many(review, 'cross') as ReviewState['crosses'],
    drawings: many(review, 'drawing') as ReviewState['drawings'],
  });

  /** Runs an act as one transaction; the log's own view goes back with it where it fails. */
  const acting = <T>(reviewId: string, work: () => T): T => {
    try {
      return db.transaction(work).immediate();
    } catch (error) {
      log.forget(reviewId);
      throw error;
    } finally {
      listings.delete(reviewId);
    }
  };

  const outcome = (reviewId: string, act: Act, changes: readonly Change[], repeated = false): ActOutcome => ({
    act: act.act,
    actId: act.actId,
    label: act.label,
    changes,
    ...labels(reviewId),
    repeated,
  });

  const perform = (
    review: ReviewRow,
    act: Pick<Act, 'actId' | 'kind' | 'target' | 'label'>,
    changes: readonly Change[],
  ): ActOutcome => {
    const effects = changes.map((change) => write(review, change));
    checkCounts(review, effects);
    const number = log.append(review.id, { ...act, effects });
    return outcome(review.id, { ...act, act: number, effects }, changes);
  };

  const checkCounts = (review: ReviewRow, effects: readonly Effect[]): void => {
    for (const kind of new Set(
      effects.filter((e) => e.before === null && e.after !== null).map((e) => e.kind),
    )) {
      const limit = most[kind];
      if (limit !== undefined && (count.get(review.id, kind) ?? 0) > limit) {
        throw new LibraryTrouble(
          'badInput',
          `The review “${review.title}” holds ${limit} of its ${kind} entries already, and that is the most.`,
        );
      }
    }
  };

  const stepping = (reviewId: string, way: 'undo' | 'redo'): ActOutcome =>
    acting(reviewId, () => {
      const review = usable(reviewId);
      const next = log.next(reviewId, way);
      if (!next) {
        throw new LibraryTrouble(
          'conflict',
          way === 'undo' ? 'There is nothing to undo.' : 'There is nothing to redo.',
        );
      }
      const target = log.read(reviewId, next.act);
      if (!target)
        throw new LibraryTrouble('damaged', `Act ${next.act} of the review “${review.title}” is gone.`);
      const changes = (way === 'undo' ? changesBack : changesOf)(target.effects).map((c) =>
        checked(review, c, 'damaged'),
      );
      return perform(review, { actId: newId(), kind: way, target: next.act, label: target.label }, changes);
    });

  const marking = (reviewId: string, kind: 'remove' | 'restore'): ActOutcome =>
    acting(reviewId, () => {
      const review = existing(reviewId);
      const removed = kind === 'remove' ? 1 : 0;
      const act = { actId: newId(), kind, target: null, label: '' };
      if (review.removed === removed) {
        return outcome(reviewId, { ...act, act: log.last(reviewId), effects: [] }, [], true);
      }
      setRemoved.run(removed, reviewId);
      return perform(review, act, []);
    });

  return {
    add(state) {
      const changes = changesOfState(state);
      acting(state.id, () => {
        if (reviewRow.get(state.id)) {
          throw new LibraryTrouble(
            'conflict',
            `The review “${state.header.title}” is in this library already.`,
          );
        }
        insertReview.run(state.id, state.header.title, author);
        const review = { id: state.id, title: state.header.title, removed: 0 };
        const checkedChanges = changes.map((c) => checked(review, c, 'badInput'));
        refuseRepeats(checkedChanges);
        perform(review, { actId: newId(), kind: 'make', target: null, label: '' }, checkedChanges);
      });
    },

    has: (reviewId) => reviewRow.get(reviewId) !== undefined,

    list: () =>
      living.all().map((review) => {
        const there = listings.get(review.id);
        if (there) return there;
        const made = listing(review, () => stateHead(review), {
          marks: count.get(review.id, 'mark') ?? 0,
          lastAct: log.last(review.id),
        });
        listings.set(review.id, made);
        return made;
      }),

    whole(reviewId) {
      const review = usable(reviewId);
      return { state: stateOf(review), act: log.last(reviewId), ...labels(reviewId) };
    },

    apply(reviewId, actId, label, changes) {
      return acting(reviewId, () => {
        const review = usable(reviewId);
        const checkedChanges = changes.map((c) => checked(review, c, 'badInput'));
        const earlier = log.find(reviewId, actId);
        if (earlier) {
          const same =
            earlier.kind === 'change' &&
            JSON.stringify(changesOf(earlier.effects)) === JSON.stringify(checkedChanges);
          if (same) return outcome(reviewId, earlier, checkedChanges, true);
          throw new LibraryTrouble(
            'conflict',
            'This act was done already, with other changes. It was not done again.',
          );
        }
        return perform(review, { actId, kind: 'change', target: null, label }, checkedChanges);
      });
    },

    undo: (reviewId) => stepping(reviewId, 'undo'),
    redo: (reviewId) => stepping(reviewId, 'redo'),
    remove: (reviewId) => marking(reviewId, 'remove'),
    restore: (reviewId) => marking(reviewId, 'restore'),
  };

  function stateHead(review: ReviewRow) {
    return {
      header: one(review, 'header'),
      course: one(review, 'course'),
      footage: many(review, 'footage') as ReviewState['footage'],
    };
  }
}

/** A review that cannot be read stays in the list, under the title it had: opening it says what is wrong. */
function listing(
  review: ReviewRow,
  head: () => Pick<ReviewState, 'header' | 'course' | 'footage'>,
  counted: { marks: number; lastAct: number },
): ReviewListing {
  try {
    const { header, course, footage } = head();
    return {
      id: review.id,
      title: header.title,
      dog: header.dog,
      handler: header.handler,
      day: header.day,
      runKind: header.runKind,
      obstacles: course.steps.length,
      clipIds: [...new Set(footage.map((f) => f.clipId))],
      ...counted,
    };
  } catch (error) {
    if (!(error instanceof LibraryTrouble)) throw error;
    const empty = { dog: '', handler: '', day: '', runKind: 'training', obstacles: 0, clipIds: [] } as const;
    return { id: review.id, title: review.title, ...empty, ...counted };
  }
}

/** A change whose body has the right form and belongs to the entity it names, as it will be read back. */
function checked(review: ReviewRow, change: Change, code: 'badInput' | 'damaged'): Change {
  const wrong = (text: string) =>
    new LibraryTrouble(code, `A change to the review “${review.title}” ${text}`);
  if (once.has(change.kind)) {
    if (change.id !== review.id) throw wrong(`names another review's ${change.kind}.`);
    if (change.body === null) throw wrong(`would remove its ${change.kind}, which every review has.`);
  }
  if (change.body === null) return { ...change };
  const body = asStored(checkBody(change.kind, change.body));
  if ('id' in body && body.id !== change.id) throw wrong(`names one ${change.kind} and carries another.`);
  return { ...change, body } as Change;
}

function changesOfState(state: ReviewState): Change[] {
  const each = (kind: 'footage' | 'mark' | 'cross' | 'drawing', list: readonly { id: string }[]) =>
    list.map((body) => ({ kind, id: body.id, body }) as Change);
  return [
    { kind: 'header', id: state.id, body: state.header },
    { kind: 'course', id: state.id, body: state.course },
    { kind: 'plan', id: state.id, body: state.plan },
    ...each('footage', state.footage),
    ...each('mark', state.marks),
    ...each('cross', state.crosses),
    ...each('drawing', state.drawings),
  ];
}

function refuseRepeats(changes: readonly Change[]): void {
  const seen = new Set<string>();
  for (const { kind, id } of changes) {
    if (seen.has(`${kind} ${id}`)) {
      throw new LibraryTrouble('badInput', `Two entries of kind ${kind} carry the same id, ${id}.`);
    }
    seen.add(`${kind} ${id}`);
  }
}
