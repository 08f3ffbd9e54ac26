import { courseFileWords as words } from '../../words/courseFile.ts';
import { issueTold, problemWords } from '../../words/problems.ts';
import { courseProblems, type Course } from '../course.ts';
import { CourseFile, courseFormat, courseVersion } from './courseFile.ts';
import { courseInSvg } from './courseInSvg.ts';

/** The largest course file or drawing that is read, characters. A course at all its limits takes less than half. */
export const largestCourseFile = 16 * 1024 * 1024;
/** Problems told at once; a file of ten thousand mistakes is told by its first few. */
const mostProblems = 5;

export type CourseReading =
  | { readonly ok: true; readonly course: Course }
  | { readonly ok: false; readonly problems: readonly string[] };

/**
 * Reads a course file, or the course that an SVG drawing of Walkback carries. Never throws: what is wrong comes back
 * as sentences, most telling first. Checked: size, form, format and version, schema, numbers and identities.
 */
export function readCourseFile(text: string): CourseReading {
  if (text.length > largestCourseFile) return bad([words.tooLarge(text.length, largestCourseFile)]);
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (plain.trim() === '') return bad([problemWords.empty]);
  return plain.trimStart().startsWith('<') ? fromSvg(plain) : fromJson(plain);
}

function fromSvg(svg: string): CourseReading {
  const there = courseInSvg(svg);
  switch (there.found) {
    case 'text':
      return fromJson(there.text);
    case 'none':
      return bad([words.drawingWithout]);
    case 'bad':
      return bad([words.badDrawing[there.why](there.detail)]);
  }
}

function fromJson(json: string): CourseReading {
  let raw: unknown;
  try {
    raw = JSON.parse(json);
  } catch (error) {
    return bad([problemWords.notJson(error instanceof Error ? error.message : String(error))]);
  }
  if (typeof raw !== 'object' || raw === null || !('format' in raw) || raw.format !== courseFormat)
    return bad([words.notCourse]);
  const version = 'version' in raw ? raw.version : undefined;
  if (version !== courseVersion)
    return bad([
      typeof version === 'number' && version > courseVersion
        ? words.tooNew(version, courseVersion)
        : words.noSuchVersion(courseVersion),
    ]);
  const parsed = CourseFile.safeParse(raw);
  if (!parsed.success) return bad(parsed.error.issues.map(issueTold));
  const { course } = parsed.data;
  const problems = courseProblems(course);
  return problems.length > 0 ? bad(problems.map((p) => problemWords.course(p))) : { ok: true, course };
}

function bad(problems: readonly string[]): CourseReading {
  const told = problems.slice(0, mostProblems);
  const left = problems.length - told.length;
  return { ok: false, problems: left > 0 ? [...told, words.more(left)] : told };
}
