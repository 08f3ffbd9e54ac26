import { useMemo } from 'react';
import { builtBy, equipmentOf } from '../../../src/course/builtBy.ts';
import type { Course } from '../../../src/course/course.ts';
import { drawingFindings, type DrawingFinding } from '../../../src/course/drawingFindings.ts';
import { useBookOf } from '../stores/bookOf.ts';

/** What does not fit in a drawing whose equipment is built by the course's rule book. */
export function useDrawingFindings(course: Course): readonly DrawingFinding[] {
  const { book } = useBookOf(course);
  return useMemo(() => drawingFindings(builtBy(course, book), equipmentOf(course, book)), [course, book]);
}
