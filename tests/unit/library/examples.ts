import { emptyCourse } from '../../../src/course/course.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { Header } from '../../../src/review/document.ts';
import type { Change, ReviewState } from '../../../src/review/entities.ts';
import type { EventMark, Mark } from '../../../src/review/marks.ts';

export function emptyReview(id: string, title = 'Tuesday, second run'): ReviewState {
  return {
    id,
    header: Header.parse({ title }),
    course: emptyCourse(),
    plan: emptyPlan(),
    footage: [],
    marks: [],
    crosses: [],
    drawings: [],
    tracks: [],
    fits: [],
  };
}

export const note = (id: string, pts: number, text = ''): EventMark => ({
  id,
  kind: 'event',
  event: 'note',
  footageId: 'f1',
  pts,
  unsure: 0,
  note: text,
});

export const mark = (body: Mark): Change => ({ kind: 'mark', id: body.id, body });
export const unmark = (id: string): Change => ({ kind: 'mark', id, body: null });
