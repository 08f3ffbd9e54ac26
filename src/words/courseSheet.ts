import { locale, plural } from './locale.ts';

/** A length of the ground for a sheet: "12.5 m" or "41 ft". */
function ground(metres: number, unit: 'metres' | 'feet', digits = 1): string {
  const value = unit === 'metres' ? metres : metres / 0.3048;
  const text = new Intl.NumberFormat(locale, {
    minimumFractionDigits: unit === 'metres' ? digits : 0,
    maximumFractionDigits: unit === 'metres' ? digits : 0,
  }).format(value);
  return unit === 'metres' ? `${text} m` : `${text} ft`;
}

/** Words on the paper: plans and the sheet for walking a course. */
export const courseSheetWords = {
  untitled: 'Course',
  creator: 'Walkback',
  ground,
  ring: (width: number, length: number, unit: 'metres' | 'feet') =>
    `ring ${ground(width, unit, 0)} × ${ground(length, unit, 0)}`,
  numbers: (n: number) => plural(n, { one: '# number', other: '# numbers' }),
  obstacles: (n: number) => plural(n, { one: '# obstacle', other: '# obstacles' }),
  straight: (metres: number, unit: 'metres' | 'feet') =>
    `${ground(metres, unit, 0)} straight from centre to centre`,
  wheel: (metres: number, unit: 'metres' | 'feet') => `${ground(metres, unit, 0)} by the wheel`,
  length: (count: number, unit: 'metres' | 'feet') => `${count} ${unit === 'metres' ? 'm' : 'ft'}`,
  bar: (count: number, unit: 'metres' | 'feet', scale: number, paper: string) =>
    `${count} ${unit === 'metres' ? 'm' : 'ft'} · 1:${scale}${paper === '' ? '' : ` on ${paper}`}`,
  paper: { a4: 'A4', a5: 'A5' },
  printing: 'Print at 100 %; measure the bar to be sure.',
  notToScale: 'Not to scale: numbers on a picture of the map.',
  unnumbered: 'No numbers yet.',
  columns: { number: 'No.', name: 'Obstacle', kind: 'Kind', next: 'To next', notes: 'Notes' },
  backside: 'from behind',
  reverse: 'other way',
  mouth: 'other mouth',
  wrap: { left: 'wrap left', right: 'wrap right' },
  notes: 'More notes',
  page: (n: number, of: number) => `${n} / ${of}`,
  walkTitle: 'course walk',
} as const;

/** What keeps a course from being put on paper, and what to do. */
export const courseExportWords = {
  nothingDrawn:
    'There is nothing to draw yet: stand at least two obstacles on the ring, or click the numbers on a picture of the map.',
  drawFirst:
    'A drawing (SVG) needs a drawn course; this one is only numbers on a picture. Export it as PDF, PNG or a sheet, or trace it first.',
  tooLargeAt: (scale: number, paper: string) =>
    `At 1:${scale} this course does not fit on ${paper}. Choose a smaller scale, larger paper, or leave the scale open.`,
  tooLarge: (paper: string) =>
    `This course is too large for ${paper} at any scale that there is. Choose larger paper.`,
} as const;
