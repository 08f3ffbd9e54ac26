import { plural } from './locale.ts';

type Unit = 'metres' | 'feet';
const short = (unit: Unit): string => (unit === 'feet' ? 'ft' : 'm');

/** Words for laying a map picture under the drawing, to trace it. */
export const traceWords = {
  act: 'Lay the picture under the drawing',
  lay: 'Lay it under the drawing',
  known: 'What is known',
  ways: {
    ring: 'the ring’s four corners',
    length: 'a length, the picture is flat',
    sheet: 'a sheet’s corners and a length',
  },
  width: (unit: Unit) => `Ring width, ${short(unit)}`,
  depth: (unit: Unit) => `Ring depth, ${short(unit)}`,
  between: (unit: Unit) => `From point to point, ${short(unit)}`,
  sheet: 'Shape of the sheet',
  sheets: { across: 'A4 or A5 on its side', upright: 'A4 or A5 upright', square: 'square' },
  waiting: {
    ring: (n: number) =>
      plural(n, {
        one: 'Click the last corner of the ring, in any order.',
        other: 'Click the corners of the ring, in any order: # to go.',
      }),
    length: (n: number) =>
      plural(n, {
        one: 'Click the other end of a length that you know.',
        other: 'Click the lower left corner of the ring, then the end of a length that you know.',
      }),
    sheet: (n: number) =>
      n > 2
        ? `Click the four corners of the sheet, in any order: ${n - 2} to go.`
        : plural(n, {
            one: 'Click the other end of a length that you know.',
            other: 'Click the lower left corner of the ring, then the end of a length that you know.',
          }),
  },
  ready: 'All points are set. Drag one, or choose it and use the arrow keys, to set it finely.',
  unclear:
    'By these points and lengths the picture cannot be laid. Set the points apart and check the lengths.',
  done: 'Lay it',
  cancel: 'Leave it',
  pictureAlt: 'The map picture, on which known points are set.',
  pointOf: (id: string) =>
    id.startsWith('corner')
      ? `Corner ${Number(id.slice(6)) + 1}`
      : `End ${Number(id.slice(3)) + 1} of the length`,
  strength: 'Picture',
  turn: 'Turn a quarter',
  again: 'Lay it again',
  stand: (n: number) =>
    plural(n, {
      one: 'Stand # obstacle where its number is',
      other: 'Stand # obstacles where their numbers are',
    }),
  laid: 'The picture lies under the drawing. The grid lets go, so that pieces stand where you click.',
  page: {
    label: 'Page of the PDF',
    of: (n: number, pages: number) => `Page ${n} of ${pages}`,
    next: 'Next page',
    previous: 'Page before',
  },
  labels: {
    lay: 'Lay the picture',
    turn: 'Turn the picture',
    strength: 'How strongly the picture shows',
    stand: 'Stand the numbered obstacles',
  },
} as const;
