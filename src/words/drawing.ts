import type { DrawingFinding } from '../course/drawingFindings.ts';
import type { Sizes } from '../course/equipment.ts';
import { inUnit, type LengthUnit } from '../course/grid.ts';
import type { WhichLine } from '../course/postLines.ts';
import type { TemplateName } from '../course/templates.ts';
import { locale, plural } from './locale.ts';

const figures = new Map<number, Intl.NumberFormat>();
function fixed(value: number, digits: number): string {
  const format =
    figures.get(digits) ??
    new Intl.NumberFormat(locale, { minimumFractionDigits: digits, maximumFractionDigits: digits });
  figures.set(digits, format);
  return format.format(value).replace('-', '−');
}

/** A length on the ground, in the coach's unit: metres to the decimetre or feet to the tenth. */
export const lengthWords = (metres: number, unit: LengthUnit, digits = 1): string =>
  `${fixed(inUnit(metres, unit), digits)} ${unit === 'feet' ? 'ft' : 'm'}`;

/** A number for a field: no more digits than it has. */
export const plainFigure = (value: number): string => String(Math.round(value * 1000) / 1000);

const lineNames: Record<WhichLine, string> = { start: 'start line', finish: 'finish line' };

const sizeNames: Record<keyof Sizes, string> = {
  barWidth: 'Bar length',
  wings: 'Wings',
  height: 'Height',
  depth: 'Depth',
  units: 'Boards',
  poles: 'Poles',
  spacing: 'Between poles',
  tunnelLength: 'Length',
};

const templateNames: Record<TemplateName, readonly [string, string]> = {
  emptyRing: ['Empty ring', 'Forty by twenty metres of grass.'],
  straightLine: ['Straight line', 'Three jumps and a tunnel: stay, lead-out, drive.'],
  roundTheCorner: ['Round the corner', 'Four jumps and one right angle, for either side.'],
  threeInARow: ['Three in a row', 'Out, in, out, and all the way back.'],
  square: ['Square of four', 'Four jumps round an open middle.'],
  polesBothWays: ['Poles both ways', 'A weave entry from the far left and one straight on.'],
  tunnelAndBack: ['Tunnel and back', 'A bent tunnel that brings the dog past you.'],
};

/** Words of the drawing board: tools, acts, findings, what is read out. */
export const drawingWords = {
  pages: {
    label: 'Pages of the course',
    numbers: 'Numbers',
    draw: 'Draw',
    course: 'Course',
    check: 'Check',
    rules: 'Rules',
    read: 'Read',
    plan: 'Plan',
    dog: 'Dog',
  },
  board: {
    label: (n: number) =>
      plural(n, { one: 'Drawing of the course, # number', other: 'Drawing of the course, # numbers' }),
    /** Read out with the board. */
    how: 'Arrow keys move what is chosen; J and K choose the next and the previous piece; the sheet of keys lists every act.',
    empty: 'Press a digit to put down a piece under the pointer, or pick one on the page “Draw”.',
    wheelPath: (length: string) => `Wheel: ${length}`,
    straight: (length: string) => `Centre to centre: ${length}`,
    fromLast: (n: number, length: string) => `${length} from ${n}`,
    toNext: (n: number, length: string) => `${length} to ${n}`,
    fromPiece: (length: string) => `${length} from the last`,
    degrees: (n: number) => `${fixed(n, 0)}°`,
    long: (length: string) => `${length} long`,
  },
  tools: {
    label: 'Tools of the board',
    view: 'How the drawing is seen',
    choose: 'Choose',
    number: 'Number',
    wheel: 'Wheel',
    start: 'Start line',
    finish: 'Finish line',
    fit: 'Show all',
    grid: { snap: 'Grid: on it', shown: 'Grid: seen', none: 'Grid: none' },
    putting: (kind: string) => `Click where the ${kind} stands. Esc puts it away.`,
    numbering: (n: number) => `Click the obstacle that is ${n}. Tunnels: at the mouth the dog goes in.`,
    numberedOut: 'The course has as many numbers as it can have.',
    wheeling: 'Roll the wheel: draw along the way with the button held, or by the arrow keys.',
    lining: (line: WhichLine) => `Draw the ${lineNames[line]} from post to post.`,
  },
  acts: {
    put: (kind: string) => `Put down: ${kind}`,
    wheel: 'Measure with the wheel',
    start: 'Put or choose the start line',
    finish: 'Put or choose the finish line',
    nextPiece: 'Choose the next piece',
    previousPiece: 'Choose the previous piece',
    nextToo: 'Choose the next piece too',
    all: 'Choose all',
    turnLeft: 'Turn left by 15°',
    turnRight: 'Turn right by 15°',
    turnLeftFine: 'Turn left by 1°',
    turnRightFine: 'Turn right by 1°',
    bendLeft: 'Bend the tunnel left',
    bendRight: 'Bend the tunnel right',
    mirror: 'Mirror',
    row: 'Put in a row',
    heading: 'Same heading as the first',
    evenly: 'Equal distances',
    duplicate: 'Duplicate',
    remove: 'Delete',
    give: 'Give it the next number',
    otherWay: 'Take it the other way',
    backside: 'Backside',
    wrap: 'Wrap: left, right, none',
    takeOff: 'Take the number off',
    grid: 'Grid: on it, seen, none',
    fit: 'Show all',
    zoomIn: 'Nearer',
    zoomOut: 'Further',
    nextPage: 'Next page',
    previousPage: 'Previous page',
    leave: 'Put the tool away',
  },
  say: {
    put: (name: string, length: string | null) =>
      length === null ? `${name}.` : `${name}, ${length} from the last.`,
    chosen: (name: string, at: string) => `${name}, ${at}`,
    several: (n: number) => plural(n, { one: '# piece', other: '# pieces' }),
    at: (x: string, y: string, degrees: number) => `at ${x} by ${y}, heading ${fixed(degrees, 0)}°`,
    numbered: (n: number, name: string, length: string | null) =>
      length === null ? `${n}: ${name}.` : `${n}: ${name}, ${length} from ${n - 1}.`,
    full: 'A course cannot hold more pieces.',
    keptNumbers: 'Marks or plans stand on numbers that were on it: they wait for another obstacle.',
    oneLine: 'Choose two pieces or more first.',
    threeEven: 'Choose three pieces or more first.',
    bending: 'Choose a tunnel first.',
  },
  labels: {
    put: (name: string) => `Put down: ${name}`,
    move: (name: string) => `Move: ${name}`,
    turn: (name: string) => `Turn: ${name}`,
    bend: 'Bend the tunnel',
    mirror: (name: string) => `Mirror: ${name}`,
    row: 'In a row',
    heading: 'Same heading',
    evenly: 'Equal distances',
    duplicate: (name: string) => `Duplicate: ${name}`,
    remove: (name: string) => `Delete: ${name}`,
    number: (n: number) => `Number ${n}`,
    step: (n: number) => `How ${n} is taken`,
    takeOff: (n: number) => `Take ${n} off`,
    wheel: 'Wheel path',
    wheelOff: 'Delete the wheel path',
    line: (line: WhichLine) => `The ${lineNames[line]}`,
    lineOff: (line: WhichLine) => `Delete the ${lineNames[line]}`,
    sizes: (name: string) => `Sizes: ${name}`,
    template: (name: TemplateName) => templateNames[name][0],
    ring: 'Size of the ring',
    unit: 'Unit of the drawing',
    head: (field: string) => `Field: ${field}`,
  },
  line: (which: WhichLine) => lineNames[which],
  palette: {
    title: 'Put down',
    hint: 'Its key puts a piece under the pointer at once; its button lets you click places.',
  },
  piece: {
    none: 'Nothing is chosen. Click a piece, draw a box round several, or press J.',
    kind: 'Kind',
    nickname: 'What you call it',
    title: 'Chosen',
    numbers: 'Numbers',
    noNumbers: 'It carries no number.',
    reverse: 'other way',
    backside: 'backside',
    wrapLeft: 'wrap left',
    wrapRight: 'wrap right',
    place: 'Place',
    usual: 'as usual',
    withWings: 'with wings',
    withoutWings: 'without wings',
    size: (name: keyof Sizes, unit: LengthUnit) =>
      name === 'units' || name === 'poles' || name === 'wings'
        ? sizeNames[name]
        : `${sizeNames[name]}, ${unit === 'feet' ? 'ft' : 'm'}`,
    /** What to do with what is chosen. */
    acts: 'With what is chosen',
  },
  course: {
    ring: 'Ring',
    width: (unit: LengthUnit) => `Width, ${unit === 'feet' ? 'ft' : 'm'}`,
    length: (unit: LengthUnit) => `Depth, ${unit === 'feet' ? 'ft' : 'm'}`,
    unit: 'Draw in',
    units: { metres: 'metres', feet: 'feet' },
    notASize: (least: string, most: string) => `A ring measures ${least} to ${most} each way.`,
    fields: {
      class: 'Class',
      level: 'Level',
      judge: 'Judge',
      place: 'Place',
      date: 'Date',
      heightCategory: 'Height category',
    },
    head: 'On the course map',
    templates: 'Start from',
    templatesMore: 'Add to the drawing',
    template: templateNames,
  },
  check: {
    title: 'What to look at',
    none: 'Nothing to look at: all stands apart and inside, and the numbers are whole.',
    notDrawn: 'Nothing is drawn yet.',
    show: 'Show',
    finding: (f: DrawingFinding, name: (id: string) => string, unit: LengthUnit): string => {
      switch (f.finding) {
        case 'overlap':
          return `${name(f.ids[0])} and ${name(f.ids[1])} stand on the same ground.`;
        case 'outside':
          return `${name(f.ids[0])} reaches out of the ring.`;
        case 'tunnelLength':
          return `${name(f.ids[0])} is ${lengthWords(f.metres, unit)} long as drawn; tunnels are ${lengthWords(f.range[0], unit, 0)} to ${lengthWords(f.range[1], unit, 0)} (equipment makers’ sheets).`;
        case 'missingNumber':
          return `Number ${f.number} is missing.`;
        case 'repeatedNumber':
          return `Number ${f.number} stands twice.`;
        case 'waitingNumber':
          return `${f.number} stands on nothing drawn yet.`;
        case 'lineOutside':
          return `The ${lineNames[f.line]} reaches out of the ring.`;
      }
    },
  },
} as const;
