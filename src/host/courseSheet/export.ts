import { stat, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { builtBy } from '../../course/builtBy.ts';
import type { Course } from '../../course/course.ts';
import { writeCourseFile } from '../../course/file/courseFile.ts';
import type { RuleBook } from '../../course/rules/book.ts';
import { fileStem } from '../../report/fileName.ts';
import { courseEndings, type CourseForm } from '../../report/courseSheet/forms.ts';
import { planDrawing, planPicture, planSheet } from '../../report/courseSheet/planSheet.ts';
import { courseSvg } from '../../report/courseSheet/svg.ts';
import { walkSheet, type WalkChoices } from '../../report/courseSheet/walkSheet.ts';
import { courseSheetWords } from '../../words/courseSheet.ts';
import { trouble } from '../troubles.ts';
import { writeWhole } from '../wholeFile.ts';

export interface CourseExport extends WalkChoices {
  readonly form: CourseForm;
  /** The rule book that the equipment is built by; data tell of the course as it is kept. */
  readonly book?: RuleBook | undefined;
  /** The bytes of the map picture; null where there is none at hand. Asked only where it is to be seen. */
  readonly picture: () => Promise<Uint8Array | null>;
}

/**
 * A course as the bytes of a file.
 * @throws HostTrouble where there is nothing to draw, or it does not fit the paper
 */
export async function exportedCourse(course: Course, asked: CourseExport): Promise<Buffer> {
  const built = builtBy(course, asked.book);
  switch (asked.form) {
    case 'json':
      return Buffer.from(writeCourseFile(course));
    case 'svg':
      return Buffer.from(courseSvg(drawnOr(planDrawing(built, asked.unit)), course));
    case 'pdf': {
      const drawing = drawnOr(planSheet(built, asked));
      const { coursePdf } = await import('./write.ts');
      return coursePdf([drawing], await pictureOf(course, asked));
    }
    case 'sheet': {
      const drawings = drawnOr(walkSheet(built, asked));
      const { coursePdf } = await import('./write.ts');
      return coursePdf(drawings, await pictureOf(course, asked));
    }
    case 'png': {
      const drawing = drawnOr(planPicture(built, asked.unit));
      const { coursePng } = await import('./write.ts');
      return coursePng(drawing, await pictureOf(course, asked));
    }
  }
}

function drawnOr<T>(drawn: { ok: true; drawing: T } | { ok: false; why: string }): T {
  if (drawn.ok) return drawn.drawing;
  throw trouble('badInput', drawn.why);
}

async function pictureOf(course: Course, { picture }: CourseExport) {
  const seen = course.mapPicture && course.obstacles.filter((o) => o.stand).length < 2;
  const bytes = seen ? await picture() : null;
  if (!bytes || !course.mapPicture) return null;
  const { preparedPicture } = await import('./write.ts');
  return preparedPicture(bytes, course.mapPicture);
}

/**
 * Writes an exported course into a folder under the course's name. A file that is there already stays, and the new
 * one gets a number, unless it is the same.
 * @throws HostTrouble where it cannot be written; then nothing is left behind
 */
export async function writeCourse(
  course: Course,
  asked: CourseExport,
  folder: string,
): Promise<{ readonly path: string; readonly bytes: number }> {
  const bytes = await exportedCourse(course, asked);
  const stem = fileStem(course.name) || courseSheetWords.untitled.toLocaleLowerCase();
  const ending = courseEndings[asked.form];
  for (let n = 1; ; n++) {
    const path = join(folder, `${stem}${n === 1 ? '' : `-${n}`}${ending}`);
    const there = await stat(path).catch(() => null);
    if (there === null) return { path, bytes: await writeWhole(path, bytes) };
    const same = there.isFile() && there.size === bytes.length && bytes.equals(await readFile(path));
    if (same) return { path, bytes: bytes.length };
  }
}
