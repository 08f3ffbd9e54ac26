import { courseFormat } from '../../../src/course/file/courseFile.ts';
import { largestCourseFile, readCourseFile } from '../../../src/course/file/readCourseFile.ts';
import type { Course } from '../../../src/course/course.ts';
import { writeCourse } from '../../../src/host/courseSheet/export.ts';
import type { CourseForm } from '../../../src/report/courseSheet/forms.ts';
import type { PaperName } from '../../../src/report/courseSheet/paper.ts';
import { scales } from '../../../src/report/courseSheet/scale.ts';
import { largestDocument, readDocument } from '../../../src/review/readDocument.ts';
import { reviewFormat } from '../../../src/review/document.ts';
import { cliWords } from '../../../src/words/cli.ts';
import { courseFileWords } from '../../../src/words/courseFile.ts';
import { bookInFile } from '../bookInFile.ts';
import type { Output } from '../output.ts';
import { readTextFile } from '../textFile.ts';
import { BadInput } from '../trouble.ts';

/** What is asked for on the command line. */
export interface CourseAsked {
  readonly to: CourseForm;
  readonly paper: PaperName;
  readonly scale?: string;
  readonly unit?: 'metres' | 'feet';
}

/** Writes the course of a course file, a drawing or a review file into a folder and prints where it is. */
export async function exportCourseOf(
  path: string,
  folder: string,
  { to, paper, scale, unit }: CourseAsked,
  out: Output,
): Promise<void> {
  const course = await readCourse(path);
  const written = await writeCourse(
    course,
    {
      form: to,
      paper,
      scale: scales.find((s) => String(s) === scale),
      unit: unit ?? course.unit ?? 'metres',
      dialect: 'british',
      book: bookInFile(course),
      // The map picture lies in a library; a file alone does not carry it.
      picture: () => Promise.resolve(null),
    },
    folder,
  );
  out.text(cliWords.wrote(written.path, written.bytes));
}

async function readCourse(path: string): Promise<Course> {
  const text = await readTextFile(path, {
    largest: largestDocument,
    tooLarge: (size) => cliWords.badCourse(path, [courseFileWords.tooLarge(size, largestCourseFile)]),
    notText: cliWords.notTextCourse(path),
  });
  const reading = isReview(text) ? fromReview(text) : readCourseFile(text);
  if (reading.ok) return reading.course;
  throw new BadInput(cliWords.badCourse(path, reading.problems));
}

/** A review file names its form within its first lines; what else it is, its own reader finds out. */
const isReview = (text: string): boolean =>
  text.slice(0, 400).includes(`"${reviewFormat}"`) && !text.slice(0, 400).includes(`"${courseFormat}"`);

function fromReview(text: string): ReturnType<typeof readCourseFile> {
  const reading = readDocument(text);
  return reading.ok ? { ok: true, course: reading.document.course } : reading;
}
