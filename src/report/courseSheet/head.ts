import { courseLengths } from '../../course/courseLength.ts';
import type { Course } from '../../course/course.ts';
import { courseSheetWords as words } from '../../words/courseSheet.ts';
import { fitted, type PaperShape } from './paper.ts';

/** Height of the lines of a head, millimetres. */
const size = { title: 5.2, facts: 3.1 } as const;

/** The head of a sheet: the course's name, then who, where and when, then its figures. Left upper corner at 0, 0. */
export function headLines(
  course: Course,
  unit: 'metres' | 'feet',
  width: number,
): { readonly shapes: readonly PaperShape[]; readonly height: number } {
  const { head } = course;
  const lengths = courseLengths(course);
  const told = [head?.class, head?.level, head?.judge, head?.place, head?.date].filter(
    (text): text is string => text !== undefined && text !== '',
  );
  const drawn = course.obstacles.filter((o) => o.stand).length;
  const figures = [
    ...(course.ring ? [words.ring(course.ring.width, course.ring.length, unit)] : []),
    course.steps.length > 0 ? words.numbers(course.steps.length) : words.unnumbered,
    ...(drawn > 0 ? [words.obstacles(drawn)] : []),
    ...(lengths.centres.known ? [words.straight(lengths.centres.metres, unit)] : []),
    ...(lengths.wheelPath.known ? [words.wheel(lengths.wheelPath.metres, unit)] : []),
  ];
  const shapes: PaperShape[] = [];
  let y = 0;
  const line = (text: string, textSize: number, tone: 'strong' | 'soft'): void => {
    y += textSize * 1.25;
    shapes.push({
      shape: 'text',
      x: 0,
      y: y - textSize * 0.3,
      text: fitted(text, textSize, width),
      textSize,
      tone,
      from: 'left',
      most: width,
    });
  };
  line(course.name === '' ? words.untitled : course.name, size.title, 'strong');
  if (told.length > 0) line(told.join(' · '), size.facts, 'soft');
  line(figures.join(' · '), size.facts, 'soft');
  return { shapes, height: y + 2 };
}
