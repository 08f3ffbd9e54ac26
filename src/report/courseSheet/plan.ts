import { boardsApart } from '../../course/boardsApart.ts';
import type { Course } from '../../course/course.ts';
import { courseMap } from '../../course/courseMap.ts';
import type { PaperShape, Size } from './paper.ts';

/** A course as it goes on paper: in metres of the ground where it is drawn, else in parts of the map picture. */
export interface PaperPlan extends Size {
  /** True where the units are metres of the ground. */
  readonly toScale: boolean;
  readonly shapes: readonly PaperShape[];
}

/** Width of a number's board by its digits, its height, and the air around it, in heights of its text. */
const board = { widths: [1.15, 1.6, 2.1], height: 1.35, air: 0.08 } as const;

/**
 * The plan of a course with its numbers on boards that do not cover each other; null where there is neither a drawing
 * nor a map picture with numbers.
 * @param textSize height of the numbers' text: in metres of the ground, or in parts of the picture's width
 */
export function paperPlan(course: Course, textSize: (width: number) => number): PaperPlan | null {
  const bare = courseMap(course);
  if (!bare) return null;
  const size = textSize(bare.width);
  const map = courseMap(course, size) ?? bare;
  const numbers = map.shapes.filter((s) => s.shape === 'number');
  const spots = boardsApart(numbers, map, {
    width: (Math.max(...numbers.map((s) => widthOf(s.text))) + board.air) * size,
    height: (board.height + board.air) * size,
  });
  const picture: PaperShape[] =
    !map.toScale && course.mapPicture
      ? [{ shape: 'picture', x: 0, y: 0, width: map.width, height: map.height }]
      : [];
  return {
    width: map.width,
    height: map.height,
    toScale: map.toScale,
    shapes: [
      ...picture,
      ...map.shapes.filter((s) => s.shape !== 'number').filter((s) => map.toScale || s.as !== 'spot'),
      ...numbers.map((n, i): PaperShape => ({
        shape: 'board',
        x: spots[i]?.x ?? n.x,
        y: spots[i]?.y ?? n.y,
        width: widthOf(n.text) * size,
        height: board.height * size,
        text: n.text,
        textSize: size,
      })),
    ],
  };
}

const widthOf = (text: string): number => board.widths[text.length - 1] ?? 0.6 * text.length + 0.3;
