import { z } from 'zod';
import { Course } from '../course/course.ts';
import { Plan } from '../plan/plan.ts';
import { FootageUse, Header } from './document.ts';
import { Cross, Drawing, Mark } from './marks.ts';
import { CourseFit } from '../ground/courseFit.ts';
import { Track } from '../track/track.ts';

/**
 * The parts of a review that are stored, changed and undone one by one. `header`, `course` and `plan` occur
 * once per review and carry the review's own id; the others carry ids of their own.
 */
export const entityBodies = {
  header: Header,
  course: Course,
  plan: Plan,
  footage: FootageUse,
  mark: Mark,
  cross: Cross,
  drawing: Drawing,
  track: Track,
  fit: CourseFit,
} as const;

export type EntityKind = keyof typeof entityBodies;
export type EntityBody<K extends EntityKind> = z.infer<(typeof entityBodies)[K]>;
export const entityKinds = Object.keys(entityBodies) as EntityKind[];

/** One change: the body an entity has after the act, or null where the act removes it. */
export const Change = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('header'), id: z.string(), body: Header }),
  z.strictObject({ kind: z.literal('course'), id: z.string(), body: Course }),
  z.strictObject({ kind: z.literal('plan'), id: z.string(), body: Plan }),
  z.strictObject({ kind: z.literal('footage'), id: z.string(), body: FootageUse.nullable() }),
  z.strictObject({ kind: z.literal('mark'), id: z.string(), body: Mark.nullable() }),
  z.strictObject({ kind: z.literal('cross'), id: z.string(), body: Cross.nullable() }),
  z.strictObject({ kind: z.literal('drawing'), id: z.string(), body: Drawing.nullable() }),
  z.strictObject({ kind: z.literal('track'), id: z.string(), body: Track.nullable() }),
  z.strictObject({ kind: z.literal('fit'), id: z.string(), body: CourseFit.nullable() }),
]);
export type Change = z.infer<typeof Change>;

/** A review as the window holds it: every living entity, without the clips' frame tables. */
export interface ReviewState {
  readonly id: string;
  readonly header: Header;
  readonly course: Course;
  readonly plan: Plan;
  readonly footage: readonly FootageUse[];
  readonly marks: readonly Mark[];
  readonly crosses: readonly Cross[];
  readonly drawings: readonly Drawing[];
  readonly tracks: readonly Track[];
  readonly fits: readonly CourseFit[];
}

/**
 * The review after the changes. Pure: used by the window to show an act at once and by the tests.
 * Changes for entities that are not there simply add them; removing what is not there does nothing.
 */
export function applyChanges(state: ReviewState, changes: readonly Change[]): ReviewState {
  let next = state;
  for (const change of changes) {
    switch (change.kind) {
      case 'header':
        next = { ...next, header: change.body };
        break;
      case 'course':
        next = { ...next, course: change.body };
        break;
      case 'plan':
        next = { ...next, plan: change.body };
        break;
      case 'footage':
        next = { ...next, footage: put(next.footage, change.id, change.body) };
        break;
      case 'mark':
        next = { ...next, marks: put(next.marks, change.id, change.body) };
        break;
      case 'cross':
        next = { ...next, crosses: put(next.crosses, change.id, change.body) };
        break;
      case 'drawing':
        next = { ...next, drawings: put(next.drawings, change.id, change.body) };
        break;
      case 'track':
        next = { ...next, tracks: put(next.tracks, change.id, change.body) };
        break;
      case 'fit':
        next = { ...next, fits: put(next.fits, change.id, change.body) };
        break;
    }
  }
  return next;
}

function put<T extends { readonly id: string }>(
  list: readonly T[],
  id: string,
  body: T | null,
): readonly T[] {
  const at = list.findIndex((x) => x.id === id);
  if (body === null) return at < 0 ? list : [...list.slice(0, at), ...list.slice(at + 1)];
  return at < 0 ? [...list, body] : [...list.slice(0, at), body, ...list.slice(at + 1)];
}
