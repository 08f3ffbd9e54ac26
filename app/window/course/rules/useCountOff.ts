import { useMemo } from 'react';
import { checkCourse } from '../../../../src/course/checkCourse.ts';
import type { Course } from '../../../../src/course/course.ts';
import { useBookOf } from '../../stores/bookOf.ts';
import { counted, findingGroups } from './findingGroups.ts';

/** How many findings are not as the book asks; 0 while there is no book. */
export function useCountOff(course: Course): number {
  const { book } = useBookOf(course);
  return useMemo(
    () => (book ? counted(findingGroups(checkCourse(course, book).findings)).off : 0),
    [course, book],
  );
}
