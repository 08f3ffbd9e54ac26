import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Course } from '../../../../src/course/course.ts';
import type { ReviewDocument } from '../../../../src/review/document.ts';
import { readDocument } from '../../../../src/review/readDocument.ts';

/** The drawn course of the demo's films. */
export const demoCourse = (): Course => demoReview('first-evening').course;

/** A review of the demo, by the name of its file; `a-course-to-plan` is planned and not filmed. */
export function demoReview(name: 'first-evening' | 'a-course-to-plan'): ReviewDocument {
  const file = resolve(import.meta.dirname, `../../../../fixtures/demo/${name}.walkback.json`);
  const reading = readDocument(readFileSync(file, 'utf8'));
  if (!reading.ok) throw new Error(reading.problems.join(' '));
  return reading.document;
}

/** The demo's course with all that a course can say, and texts that mean something to JSON, XML and terminals. */
export function fullCourse(): Course {
  const course = demoCourse();
  return {
    ...course,
    name: 'A “course” <b>&amp; more</b> ]]> \u0007\u0085\u2028\uFFFE 犬 🐕',
    head: {
      class: '</course></metadata><script>alert(1)</script>',
      level: '2',
      judge: '<!ENTITY x "y">',
      place: '&lol;',
      date: '2031-05-04',
      heightCategory: 'L',
    },
    ruleBook: 'fci2023',
    unit: 'feet',
    startLine: { from: { x: 10, y: 5 }, to: { x: 10, y: 8 } },
    finishLine: { from: { x: 11, y: 5 }, to: { x: 11, y: 8 } },
    wheelPath: [
      { x: 1, y: 2 },
      { x: 3, y: 4.25 },
    ],
    obstacles: course.obstacles.map((o, i) =>
      i === 0 ? { ...o, nickname: '\u202Eeno eht', sizes: { barWidth: 1.2, wings: false } } : o,
    ),
    steps: course.steps.map((s, i) =>
      i === 3 ? { ...s, backside: true, wrap: 'left', onPicture: { x: 0.25, y: 1 } } : s,
    ),
    mapPicture: { pictureId: 'a'.repeat(64), name: 'map.jpg', width: 4000, height: 3000 },
    underlay: {
      corners: [
        { x: 0.1, y: 0.9 },
        { x: 0.9, y: 0.9 },
        { x: 0.8, y: 0.1 },
        { x: 0.2, y: 0.1 },
      ],
      shape: 2,
      known: [
        { onPicture: { x: 0.1, y: 0.9 }, onGround: { x: 0, y: 0 } },
        { onPicture: { x: 0.8, y: 0.1 }, onGround: { x: 40, y: 20 } },
      ],
      strength: 0.4,
    },
  };
}
