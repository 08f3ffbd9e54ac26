import type { Course, PostLine, Stand } from '../../../../src/course/course.ts';
import { bendMoved, movedBy, turnedBy } from '../../../../src/course/drawing/arrange.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { withLine, type WhichLine } from '../../../../src/course/postLines.ts';
import type { Grip } from './overlay.ts';

/** What the hand does on the board from a press to its release. Places are on the ground. */
export type Gesture =
  | { readonly what: 'push'; readonly x: number; readonly y: number }
  | { readonly what: 'grip'; readonly grip: Grip; readonly to: GroundPoint }
  | {
      readonly what: 'move';
      readonly ids: readonly string[];
      readonly from: GroundPoint;
      /** The piece whose middle keeps to the grid, as it stood. */
      readonly held: Stand;
      readonly dx: number;
      readonly dy: number;
    }
  | {
      readonly what: 'turn';
      readonly ids: readonly string[];
      readonly about: GroundPoint;
      readonly degrees: number;
      readonly from: number;
    }
  | { readonly what: 'bend'; readonly id: string; readonly at: number; readonly bend: readonly GroundPoint[] }
  | { readonly what: 'box'; readonly from: GroundPoint; readonly to: GroundPoint; readonly add: boolean }
  | { readonly what: 'wheel'; readonly points: readonly GroundPoint[] }
  | {
      readonly what: 'line';
      readonly which: WhichLine;
      readonly line: PostLine;
      readonly end: 'from' | 'to' | 'both';
      readonly grip: GroundPoint;
    };

/** The pieces that a gesture carries: they are painted apart from those that stand still. */
export function carried(gesture: Gesture | null): readonly string[] {
  switch (gesture?.what) {
    case 'move':
    case 'turn':
      return gesture.ids;
    case 'bend':
      return [gesture.id];
    case 'push':
    case 'grip':
    case 'box':
    case 'wheel':
    case 'line':
    case undefined:
      return [];
  }
}

/** The course as it would be were the hand lifted now. */
export function withGesture(course: Course, gesture: Gesture | null): Course {
  switch (gesture?.what) {
    case 'move':
      return movedBy(course, gesture.ids, gesture.dx, gesture.dy);
    case 'turn':
      return turnedBy(course, gesture.ids, gesture.degrees);
    case 'bend':
      return bendMoved(course, gesture.id, gesture.bend);
    case 'line':
      return withLine(course, gesture.which, gesture.line);
    case 'push':
    case 'grip':
    case 'box':
    case 'wheel':
    case undefined:
      return course;
  }
}

/** True where lifting the hand would change the course. */
export function changesCourse(gesture: Gesture): boolean {
  switch (gesture.what) {
    case 'move':
      return gesture.dx !== 0 || gesture.dy !== 0;
    case 'turn':
      return gesture.degrees !== 0;
    case 'bend':
    case 'line':
      return true;
    case 'push':
    case 'grip':
    case 'box':
    case 'wheel':
      return false;
  }
}
