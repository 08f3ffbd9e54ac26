import type { Course } from '../../../src/course/course.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import { useReview, useWorkbench } from '../stores/react.ts';

/** The open review with the acts that change its course and plan. */
export interface CourseDesk {
  readonly state: ReviewState;
  changeCourse(label: string, change: (course: Course) => Course): void;
  changePlan(label: string, change: (plan: Plan) => Plan): void;
}

/** Each change starts from what the store holds when it is made, so that none is lost between two drawings. */
export function useCourse(): CourseDesk {
  const { review } = useWorkbench();
  const state = useReview((view) => view.state);
  if (!state) throw new Error('The Course screen was drawn without an open review.');
  const now = (): ReviewState => review.getState().state ?? state;
  return {
    state,
    changeCourse(label, change) {
      const { id, course } = now();
      void review.apply(label, [{ kind: 'course', id, body: change(course) }]);
    },
    changePlan(label, change) {
      const { id, plan } = now();
      void review.apply(label, [{ kind: 'plan', id, body: change(plan) }]);
    },
  };
}
