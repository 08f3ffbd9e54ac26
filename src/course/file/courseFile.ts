import { z } from 'zod';
import { Course } from '../course.ts';

export const courseFormat = 'walkback.course';
export const courseVersion = 1;

/** A course as one JSON document that stands on its own. Its JSON Schema is printed by `walkback schema course`. */
export const CourseFile = z.strictObject({
  format: z.literal(courseFormat),
  version: z.literal(courseVersion),
  course: Course,
});
export type CourseFile = z.infer<typeof CourseFile>;

/** A course as it is written to a file. */
export const courseFileOf = (course: Course): CourseFile => ({
  format: courseFormat,
  version: courseVersion,
  course,
});

/** The text of a course file: a line for each obstacle and number, so that two versions can be compared by eye. */
export function writeCourseFile(course: Course): string {
  const parts = Object.entries(course).map(([key, value]: [string, unknown]) => {
    if (!Array.isArray(value) || value.length === 0)
      return `    ${JSON.stringify(key)}: ${JSON.stringify(value)}`;
    return `    ${JSON.stringify(key)}: [\n${value.map((v) => `      ${JSON.stringify(v)}`).join(',\n')}\n    ]`;
  });
  const { format, version } = courseFileOf(course);
  return `{\n  "format": "${format}",\n  "version": ${version},\n  "course": {\n${parts.join(',\n')}\n  }\n}\n`;
}
