import type { Database } from 'better-sqlite3';
import type { Change, ReviewState } from '../review/entities.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { actLog, changesBack, changesOf, type Act } from './acts.ts';
import { changesOfState, checkedChange, entitiesOf, type Entities } from './entities.ts';
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
  /** True where nothing was done now: the act was there already, or the review was as asked. */
  readonly repeated: boolean;
}

export interface WholeReview {
  readonly state: ReviewState;
  readonly act: number;
  readonly canUndo: string | null;
  readonly canRedo: string | null;
}

/** Every function throws LibraryTrouble; whatever throws has changed nothing. */
export interface Reviews {
  /** Takes in a whole review as its first act. Throws `conflict` where the id is taken, `badInput`. */
  add(state: ReviewState): void;
  has(reviewId: string): boolean;
  list(): ReviewListing[];
  /** Throws `notFound`, `conflict` where it was removed, or `damaged` with the review's title. */
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

/**
 * The reviews of a library. An act and its effect are one transaction. The living entities of a review, in order,
 * are always what `applyChanges` makes of its acts.
 */
export function reviewsOf(db: Database, author: string, clock: () => number, newId: () => string): Reviews {
  const log = actLog(db, author, clock);
  const entities = entitiesOf(db, author);
  const byId = db.prepare<[string], ReviewRow>('SELECT id, title, removed FROM review WHERE id = ?');
  const living = db.prepare<[], ReviewRow>(
    'SELECT id, title, removed FROM review WHERE removed = 0 ORDER BY ordinal',
  );
  const insert = db.prepare('INSERT INTO review (id, title, author, revision) VALUES (?, ?, ?, 1)');
  const retitle = db.prepare('UPDATE review SET title = ?, revision = revision + 1 WHERE id = ?');
  const setRemoved = db.prepare('UPDATE review SET removed = ?, revision = revision + 1 WHERE id = ?');
  const listings = new Map<string, ReviewListing>();

  const existing = (reviewId: string): ReviewRow => {
    const row = byId.get(reviewId);
    if (!row) throw new LibraryTrouble('notFound', libraryTroubles.unknownReview);
    return row;
  };
  const usable = (reviewId: string): ReviewRow => {
    const row = existing(reviewId);
    if (row.removed) throw new LibraryTrouble('conflict', libraryTroubles.reviewRemoved(row.title));
    return row;
  };
  const labels = (reviewId: string) => ({
    canUndo: log.next(reviewId, 'undo')?.label ?? null,
    canRedo: log.next(reviewId, 'redo')?.label ?? null,
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

  const outcome = (
    reviewId: string,
    act: Pick<Act, 'act' | 'actId' | 'label'>,
    changes: readonly Change[],
    repeated: boolean,
  ): ActOutcome => ({
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
    const effects = changes.map((change) => {
      if (change.kind === 'header') retitle.run(change.body.title, review.id);
      return entities.write(review, change);
    });
    const number = log.append(review.id, { ...act, effects });
    return outcome(review.id, { ...act, act: number }, changes, false);
  };

  const step = (reviewId: string, way: 'undo' | 'redo'): ActOutcome =>
    acting(reviewId, () => {
      const review = usable(reviewId);
      const next = log.next(reviewId, way);
      if (!next) {
        const none = way === 'undo' ? libraryTroubles.nothingToUndo : libraryTroubles.nothingToRedo;
        throw new LibraryTrouble('conflict', none);
      }
      const target = log.read(reviewId, next.act);
      if (!target) throw new LibraryTrouble('damaged', libraryTroubles.actGone(next.act, review.title));
      const changes = (way === 'undo' ? changesBack : changesOf)(target.effects).map((change) =>
        checkedChange(review, change, 'damaged'),
      );
      const act = { actId: newId(), kind: way, target: next.act, label: target.label };
      return perform(review, act, changes);
    });

  const keep = (reviewId: string, kind: 'remove' | 'restore'): ActOutcome =>
    acting(reviewId, () => {
      const review = existing(reviewId);
      const removed = kind === 'remove' ? 1 : 0;
      const act = { actId: newId(), kind, target: null, label: '' };
      if (review.removed === removed) {
        return outcome(reviewId, { ...act, act: log.last(reviewId) }, [], true);
      }
      setRemoved.run(removed, reviewId);
      return perform(review, act, []);
    });

  const listing = (review: ReviewRow): ReviewListing => {
    const there = listings.get(review.id);
    if (there) return there;
    const made = {
      ...headOf(entities, review),
      marks: entities.count(review, 'mark'),
      lastAct: log.last(review.id),
    };
    listings.set(review.id, made);
    return made;
  };

  return {
    add(state) {
      const { title } = state.header;
      acting(state.id, () => {
        if (byId.get(state.id)) throw new LibraryTrouble('conflict', libraryTroubles.reviewThere(title));
        insert.run(state.id, title, author);
        const review = { id: state.id, title, removed: 0 };
        const changes = changesOfState(state).map((c) => checkedChange(review, c, 'badInput'));
        perform(review, { actId: newId(), kind: 'make', target: null, label: '' }, changes);
      });
    },
    has: (reviewId) => byId.get(reviewId) !== undefined,
    list: () => living.all().map(listing),
    whole(reviewId) {
      const review = usable(reviewId);
      return { state: entities.state(review), act: log.last(reviewId), ...labels(reviewId) };
    },
    apply: (reviewId, actId, label, changes) =>
      acting(reviewId, () => {
        const review = usable(reviewId);
        const wanted = changes.map((change) => checkedChange(review, change, 'badInput'));
        const earlier = log.find(reviewId, actId);
        if (!earlier) return perform(review, { actId, kind: 'change', target: null, label }, wanted);
        const same = JSON.stringify(changesOf(earlier.effects)) === JSON.stringify(wanted);
        if (earlier.kind !== 'change' || !same) {
          throw new LibraryTrouble('conflict', libraryTroubles.actDiffers);
        }
        return outcome(reviewId, earlier, wanted, true);
      }),
    undo: (reviewId) => step(reviewId, 'undo'),
    redo: (reviewId) => step(reviewId, 'redo'),
    remove: (reviewId) => keep(reviewId, 'remove'),
    restore: (reviewId) => keep(reviewId, 'restore'),
  };
}

/** A review that cannot be read stays in the list, under the title it had: opening it says what is wrong. */
function headOf(entities: Entities, review: ReviewRow): Omit<ReviewListing, 'marks' | 'lastAct'> {
  try {
    const { header, course, footage } = entities.head(review);
    const { title, dog, handler, day, runKind } = header;
    const clipIds = [...new Set(footage.map((f) => f.clipId))];
    return { id: review.id, title, dog, handler, day, runKind, obstacles: course.steps.length, clipIds };
  } catch (error) {
    if (!(error instanceof LibraryTrouble)) throw error;
    const unknown = {
      dog: '',
      handler: '',
      day: '',
      runKind: 'training',
      obstacles: 0,
      clipIds: [],
    } as const;
    return { id: review.id, title: review.title, ...unknown };
  }
}
