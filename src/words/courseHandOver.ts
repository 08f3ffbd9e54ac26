import type { CourseForm } from '../report/courseSheet/forms.ts';
import { plural } from './locale.ts';

/** Words for handing a course over and taking one in. */
export const courseHandOver = {
  act: 'Export the course',
  takeInAct: 'Take in a course file',
  title: 'Hand it over',
  intro: 'A plan to print, a picture to send, a sheet to walk the course with, or its data.',
  form: 'As',
  forms: {
    sheet: 'sheet for the course walk (PDF)',
    pdf: 'plan to print (PDF)',
    png: 'picture (PNG)',
    svg: 'drawing (SVG), can be taken in again',
    json: 'course file (JSON), can be taken in again',
  } satisfies Record<CourseForm, string>,
  paper: 'Paper',
  papers: { a4: 'A4', a5: 'A5' },
  scale: 'Scale',
  fitting: 'as large as fits',
  oneTo: (n: number) => `1:${n}`,
  export: 'Export',
  exporting: 'Writing it…',
  written: (name: string) => `${name} is written.`,
  takeIn: 'Take in a course',
  takeInHint:
    'A course file, or a drawing (SVG) that Walkback exported. It takes the place of this course; undo brings it back.',
  took: (name: string) => `The course of “${name}” is here.`,
  pictureMissing: 'Its map picture is not in this library: attach it again if you need it.',
  marksStand: (marks: number, numbers: number) =>
    `${plural(marks, { one: '# mark or plan stands', other: '# marks or plans stand' })} on numbers that the other course does not have (it has ${numbers}). Nothing was changed.`,
  label: 'Take in a course',
} as const;
