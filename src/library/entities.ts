import type { Database } from 'better-sqlite3';
import {
  entityBodies,
  type Change,
  type EntityBody,
  type EntityKind,
  type ReviewState,
} from '../review/entities.ts';
import { mostFits, mostTracks } from '../review/document.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import type { Effect } from './acts.ts';
import { asStored, checkBody, readBody } from './stored.ts';
import { LibraryTrouble } from './trouble.ts';

/** The review that an entity belongs to: its id, and its title for the reader. */
export interface Owner {
  readonly id: string;
  readonly title: string;
}

/** The entities of all reviews, as rows. */
export interface Entities {
  /** Writes one entity and tells what was there before. To be called inside the transaction of its act. */
  write(review: Owner, change: Change): Effect;
  /** The living entities of a review. Throws LibraryTrouble `damaged`, naming the review. */
  state(review: Owner): ReviewState;
  head(review: Owner): Pick<ReviewState, 'header' | 'course' | 'footage'>;
  count(review: Owner, kind: EntityKind): number;
}

type Single = 'header' | 'course' | 'plan';
type Plural = Exclude<EntityKind, Single>;

interface Row {
  revision: number;
  removed: number;
  ordinal: number;
  body: string;
}

/** How many of a kind a review holds at most: what a review file can hold too, so that every review can be written. */
const most: Readonly<Record<EntityKind, number>> = {
  header: 1,
  course: 1,
  plan: 1,
  footage: 40,
  mark: 200_000,
  cross: 500,
  drawing: 5000,
  track: mostTracks,
  fit: mostFits,
};

/** Kinds that occur once and carry the review's own id. */
const single: ReadonlySet<EntityKind> = new Set(['header', 'course', 'plan']);

export function entitiesOf(db: Database, author: string): Entities {
  const columns = 'revision, removed, ordinal, body';
  const one = db.prepare<[string, string, string], Row>(
    `SELECT ${columns} FROM entity WHERE review_id = ? AND kind = ? AND id = ?`,
  );
  const all = db.prepare<[string, string], Row>(
    `SELECT ${columns} FROM entity WHERE review_id = ? AND kind = ? AND removed = 0 ORDER BY ordinal`,
  );
  const count = db
    .prepare<[string, string], number>(
      'SELECT count(*) FROM entity WHERE review_id = ? AND kind = ? AND removed = 0',
    )
    .pluck();
  const lastOrdinal = db
    .prepare<[string, string], number | null>(
      'SELECT max(ordinal) FROM entity WHERE review_id = ? AND kind = ?',
    )
    .pluck();
  const put = db.prepare(
    `INSERT INTO entity (review_id, kind, id, author, revision, removed, ordinal, body)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)
     ON CONFLICT (review_id, kind, id) DO UPDATE SET
       author = excluded.author, revision = excluded.revision, removed = excluded.removed,
       ordinal = excluded.ordinal, body = excluded.body`,
  );
  const where = (review: Owner, kind: EntityKind): string =>
    libraryTroubles.part(kind, review.title, review.id);

  const read = <K extends EntityKind>(review: Owner, kind: K, text: string): EntityBody<K> =>
    readBody(entityBodies[kind], text, where(review, kind)) as EntityBody<K>;

  const readOne = <K extends Single>(review: Owner, kind: K): EntityBody<K> => {
    const row = one.get(review.id, kind, review.id);
    if (!row) throw new LibraryTrouble('damaged', libraryTroubles.partMissing(where(review, kind)));
    return read(review, kind, row.body);
  };
  const readAll = <K extends Plural>(review: Owner, kind: K): EntityBody<K>[] =>
    all.all(review.id, kind).map((row) => read(review, kind, row.body));

  const counted = (review: Owner, kind: EntityKind): number => count.get(review.id, kind) ?? 0;
  const head = (review: Owner): Pick<ReviewState, 'header' | 'course' | 'footage'> => ({
    header: readOne(review, 'header'),
    course: readOne(review, 'course'),
    footage: readAll(review, 'footage'),
  });

  return {
    head,
    count: counted,
    state: (review) => ({
      id: review.id,
      ...head(review),
      plan: readOne(review, 'plan'),
      marks: readAll(review, 'mark'),
      crosses: readAll(review, 'cross'),
      drawings: readAll(review, 'drawing'),
      tracks: readAll(review, 'track'),
      fits: readAll(review, 'fit'),
    }),
    write(review, { kind, id, body }) {
      const row = one.get(review.id, kind, id);
      const living = row?.removed === 0 ? row : null;
      const before = living && read(review, kind, living.body);
      const revision = (row?.revision ?? 0) + 1;
      if (body === null) {
        // A tombstone: the row stays, so that libraries can be merged.
        if (living) put.run(review.id, kind, id, author, revision, 1, living.ordinal, living.body);
        return { kind, id, before, after: null };
      }
      // Like applyChanges: what is there keeps its place, what is new or comes back goes to the end.
      const ordinal = living?.ordinal ?? (lastOrdinal.get(review.id, kind) ?? 0) + 1;
      put.run(review.id, kind, id, author, revision, 0, ordinal, JSON.stringify(body));
      if (!living && counted(review, kind) > most[kind]) {
        throw new LibraryTrouble('badInput', libraryTroubles.full(review.title, kind, most[kind]));
      }
      return { kind, id, before, after: body };
    },
  };
}

/**
 * A change whose body has the right form and belongs to the entity it names, as it will be read back.
 * Throws LibraryTrouble with `code`.
 */
export function checkedChange(review: Owner, change: Change, code: 'badInput' | 'damaged'): Change {
  const { kind, id } = change;
  const refuse = (text: string) => new LibraryTrouble(code, text);
  if (single.has(kind) && id !== review.id) throw refuse(libraryTroubles.otherReview(review.title, kind));
  if (change.body === null) {
    if (single.has(kind)) throw refuse(libraryTroubles.cannotRemove(review.title, kind));
    return { ...change };
  }
  const body = asStored(checkBody(kind, change.body));
  if ('id' in body && body.id !== id) throw refuse(libraryTroubles.otherEntity(review.title, kind));
  return { ...change, body } as Change;
}

/** A whole review as the changes that make it. Throws LibraryTrouble `badInput` where two entries share an id. */
export function changesOfState(state: ReviewState): Change[] {
  const each = (kind: Plural, list: readonly { readonly id: string }[]) => {
    const ids = new Set<string>();
    return list.map((body) => {
      if (ids.has(body.id)) throw new LibraryTrouble('badInput', libraryTroubles.repeatedId(kind, body.id));
      ids.add(body.id);
      return { kind, id: body.id, body } as Change;
    });
  };
  return [
    { kind: 'header', id: state.id, body: state.header },
    { kind: 'course', id: state.id, body: state.course },
    { kind: 'plan', id: state.id, body: state.plan },
    ...each('footage', state.footage),
    ...each('mark', state.marks),
    ...each('cross', state.crosses),
    ...each('drawing', state.drawings),
    ...each('track', state.tracks),
    ...each('fit', state.fits),
  ];
}
