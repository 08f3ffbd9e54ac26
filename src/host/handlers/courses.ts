import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { largestCourseFile, readCourseFile } from '../../course/file/readCourseFile.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { courseFileWords } from '../../words/courseFile.ts';
import { writeCourse } from '../courseSheet/export.ts';
import type { CallHandler } from '../desk.ts';
import { given } from '../fileSource.ts';
import { givenText } from '../givenText.ts';
import { readPreferences } from '../preferences.ts';
import { bookOfCourse } from '../ruleBooks.ts';
import { trouble } from '../troubles.ts';

/** Writes the course of a review into the library's folder of things to hand over. */
export const courseExport: CallHandler<'course.export'> = async (desk, { reviewId, form, paper, scale }) => {
  const { course } = desk.library.reviews.whole(reviewId).state;
  const { lengths, dialect } = readPreferences(desk.library.notes);
  const { path, bytes } = await writeCourse(
    course,
    {
      form,
      book: bookOfCourse(desk.library, course),
      paper,
      scale,
      unit: course.unit ?? lengths,
      dialect,
      async picture() {
        const kept = course.mapPicture && desk.library.pictures.get(course.mapPicture.pictureId);
        return kept ? readFile(join(desk.library.layout.pictures, kept.file)).catch(() => null) : null;
      },
    },
    desk.library.layout.reports,
  );
  return { mediaId: desk.media.idFor(path), path, name: basename(path), bytes };
};

/** Reads the course out of a course file or a drawing that Walkback exported. Nothing is changed by it. */
export const courseRead: CallHandler<'course.read'> = async (desk, { source }) => {
  const file = await given(desk, source);
  try {
    // A character of UTF-8 takes four bytes at the most; the reader counts characters.
    if (file.bytes > 4 * largestCourseFile) {
      throw trouble(
        'badInput',
        hostTroubles.courseFile(file.name, [courseFileWords.tooLarge(file.bytes, largestCourseFile)]),
      );
    }
    const reading = readCourseFile(await givenText(file));
    if (!reading.ok) throw trouble('badInput', hostTroubles.courseFile(file.name, reading.problems));
    const { mapPicture, underlay: _, ...rest } = reading.course;
    const there = mapPicture !== undefined && desk.library.pictures.get(mapPicture.pictureId) !== null;
    // A picture that is not in this library cannot be shown; what was clicked on it waits for another.
    return there || mapPicture === undefined
      ? { course: reading.course, pictureMissing: false }
      : { course: rest, pictureMissing: true };
  } finally {
    if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
  }
};
