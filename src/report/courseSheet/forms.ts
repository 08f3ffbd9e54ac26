/** What a course can be exported as: a drawing to edit, the plan to print, a picture to send, a sheet to walk with, its data. */
export const courseForms = ['svg', 'pdf', 'png', 'sheet', 'json'] as const;
export type CourseForm = (typeof courseForms)[number];

/** Endings of the files, by form. */
export const courseEndings: Readonly<Record<CourseForm, string>> = {
  svg: '.svg',
  pdf: '-plan.pdf',
  png: '.png',
  sheet: '-walk.pdf',
  json: '.course.json',
};
