import { courseFileWords as words } from '../../words/courseFile.ts';
import { problemWords } from '../../words/problems.ts';
import { courseProblems, type Course } from '../course.ts';
import { CourseFile, courseFormat, courseVersion } from './courseFile.ts';
import { courseInSvg } from './courseInSvg.ts';
import { readHandedIn, type NotHandedIn } from './handedIn.ts';

/** The largest course file or drawing that is read, characters. A course at all its limits takes less than half. */
export const largestCourseFile = 16 * 1024 * 1024;

export type CourseReading =
  { readonly ok: true; readonly course: Course } | Pick<NotHandedIn, 'ok' | 'problems'>;

/**
 * Reads a course file, or the course that an SVG drawing of Walkback carries. Never throws: what is wrong comes back
 * as sentences, most telling first. Checked: size, form, format and version, schema, numbers and identities.
 */
export function readCourseFile(text: string): CourseReading {
  if (text.length > largestCourseFile) return bad(words.tooLarge(text.length, largestCourseFile));
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (plain.trim() === '') return bad(problemWords.empty);
  return plain.trimStart().startsWith('<') ? fromSvg(plain) : fromJson(plain);
}

function fromSvg(svg: string): CourseReading {
  const there = courseInSvg(svg);
  switch (there.found) {
    case 'text':
      return there.text.trim() === '' ? bad(words.drawingWithout) : fromJson(there.text);
    case 'none':
      return bad(words.drawingWithout);
    case 'bad':
      return bad(words.badDrawing[there.why](there.detail));
  }
}

function fromJson(json: string): CourseReading {
  const reading = readHandedIn(json, {
    format: courseFormat,
    version: courseVersion,
    largest: largestCourseFile,
    mostTold: 5,
    schema: CourseFile,
    words: { ...words, notThis: () => words.notCourse },
    problems: ({ course }) => courseProblems(course).map((p) => problemWords.course(p)),
  });
  return reading.ok ? { ok: true, course: reading.value.course } : reading;
}

const bad = (problem: string): CourseReading => ({ ok: false, problems: [problem] });
