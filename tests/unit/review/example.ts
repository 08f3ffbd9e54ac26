import { countedCourse, type Course } from '../../../src/course/course.ts';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { Header, reviewVersion, type ReviewDocument } from '../../../src/review/document.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import type { Cross, CrossMark, Mark, StartPart, TakenMark } from '../../../src/review/marks.ts';
import type { Clocks } from '../../../src/review/moments.ts';
import { frameTable } from '../../../src/time/frameTable.ts';

let serial = 0;
const nextId = (what: string): string => `${what}-${++serial}`;
const base = (
  frame: number,
  unsure: number,
): { footageId: string; pts: number; unsure: number; note: string } => ({
  footageId: 'film',
  pts: frame,
  unsure,
  note: '',
});

/** Marks on a clip whose presentation times are its frame indices. */
export const took = (
  place: number,
  edge: TakenMark['edge'],
  frame: number,
  attempt = 1,
  unsure = 0,
): Mark => ({
  ...base(frame, unsure),
  id: nextId('taken'),
  kind: 'taken',
  place,
  edge,
  try: attempt,
});

export const atStart = (part: StartPart, frame: number, attempt = 1, unsure = 0): Mark => ({
  ...base(frame, unsure),
  id: nextId('start'),
  kind: 'start',
  part,
  try: attempt,
});

export const inCross = (
  part: CrossMark['part'],
  frame: number,
  cue?: CrossMark['cue'],
  unsure = 0,
): Mark => ({
  ...base(frame, unsure),
  id: nextId('moment'),
  kind: 'cross',
  crossId: 'x',
  part,
  ...(cue ? { cue } : {}),
});

export const cross = (kind: Cross['kind'], place = 1): Cross => ({ id: 'x', place, kind, note: '' });

/** A clip of `frames` frames at a steady rate, under the footage id "film". */
export function steadyClocks(rate: number, frames = 2000): Clocks {
  const table = frameTable(
    { num: 1, den: rate },
    Array.from({ length: frames }, (_, i) => i),
  );
  return new Map([['film', { table, speed: [], offset: 0, rate: 1 }]]);
}

/** A course of obstacles of these kinds, numbered in order. */
export function courseOf(...kinds: ObstacleKind[]): Course {
  const course = countedCourse(kinds.length);
  return { ...course, obstacles: course.obstacles.map((o, i) => ({ ...o, kind: kinds[i] ?? 'unknown' })) };
}

export function review(course: Course, marks: Mark[], crosses: Cross[] = []): ReviewState {
  return {
    id: 'r',
    header: Header.parse({ title: 'Example' }),
    course,
    plan: emptyPlan(),
    footage: [{ id: 'film', clipId: 'clip', name: 'film.mp4', speed: [], offset: 0, rate: 1 }],
    marks,
    crosses,
    drawings: [],
    tracks: [],
    fits: [],
  };
}

/** The same as a document, on a clip of 30 frames a second. */
export function exampleDocument(course: Course, marks: Mark[], crosses: Cross[] = []): ReviewDocument {
  const { footage, ...rest } = review(course, marks, crosses);
  return {
    format: 'walkback.review',
    version: reviewVersion,
    ...rest,
    marks: [...marks],
    crosses: [...crosses],
    drawings: [],
    tracks: [],
    fits: [],
    footage: footage.map((f) => ({
      ...f,
      clip: {
        sha256: 'a'.repeat(64),
        bytes: 1000,
        width: 640,
        height: 360,
        rotation: 0,
        codec: 'h264',
        timeBase: [1, 30],
        pts: Array.from({ length: 2000 }, (_, i) => i),
      },
    })),
  };
}
