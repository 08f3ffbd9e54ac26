import { centreOf } from '../../course/courseLength.ts';
import type { Course, Obstacle, Step } from '../../course/course.ts';
import { distance } from '../../course/pose.ts';
import { drawnSteps } from '../../course/sequence.ts';
import { courseExportWords, courseSheetWords as words } from '../../words/courseSheet.ts';
import { obstacleWords } from '../../words/trade.ts';
import { headLines } from './head.ts';
import { fitted, papers, placed, type PaperDrawing, type PaperShape, type Size } from './paper.ts';
import { no, planOnPaper, sheetSizes, type Drawn, type SheetChoices } from './planSheet.ts';

export interface WalkChoices extends SheetChoices {
  readonly dialect: 'british' | 'american';
}

/** Sizes of the table on each paper, millimetres; rows may come closer, down to `least`. */
const tables = {
  a4: { row: 7.4, least: 5.6, text: 3.5, number: 9, name: 40, kind: 36, next: 16 },
  a5: { row: 5.4, least: 4.4, text: 2.9, number: 7, name: 30, kind: 30, next: 13 },
} as const;

/** Between map and table, and from the table to the foot, millimetres. */
const aroundTable = 8;

/** Least room for free notes under the table before the page ends, millimetres. */
const notesRoom = 16;

/**
 * The sheet to take along when a course is walked: its map, each number with what it stands on, its nickname and how
 * far it is to the next, and room to write. As many pages as the numbers need. Upright, so that it fits a clipboard.
 */
export function walkSheet(course: Course, choices: WalkChoices): Drawn<readonly PaperDrawing[]> {
  const page = papers[choices.paper];
  const usual = tables[choices.paper];
  const border = sheetSizes.border[choices.paper];
  const width = page.width - 2 * border;
  const head = headLines(course, choices.unit, width);
  const rows = rowsOf(course, choices);
  const top = border + head.height;
  // The map takes what the table leaves of the first page, but never less than a third of it.
  const wanted = usual.least * (rows.length + 1) + aroundTable;
  const least = page.height * 0.36;
  const mapHeight = Math.max(least, Math.min(page.height * 0.62, page.height - top - border - wanted));
  const plan = planOnPaper(
    course,
    choices,
    { x: border, y: top },
    { width, height: mapHeight },
    choices.paper === 'a4' ? sheetSizes.number : sheetSizes.number * 0.85,
  );
  // A course that is only a count still has its table to write on.
  if (!plan.ok && (plan.why !== courseExportWords.nothingDrawn || rows.length === 0)) return no(plan.why);

  const pages: PaperShape[][] = [
    [...placed(head.shapes, 1, border, border), ...(plan.ok ? plan.drawing.shapes : [])],
  ];
  let y = top + (plan.ok ? plan.drawing.height + 4 : 2);
  let sheet = pages[0] ?? [];
  const bottom = page.height - border - 3.6;
  // Rows a little closer rather than one that is left over for a second page.
  const row = Math.min(usual.row, Math.max(usual.least, (bottom - y) / (rows.length + 1) - 0.01));
  const table: Table = { ...usual, row };
  if (rows.length > 0) {
    sheet.push(...header(table, border, width, y));
    y += table.row;
  }
  for (const each of rows) {
    if (y + row > bottom) {
      sheet = header(table, border, width, border);
      pages.push(sheet);
      y = border + table.row;
    }
    sheet.push(...line(each, table, border, width, y));
    y += table.row;
  }
  // Lines for what else is seen on the walk, as far as the page goes.
  if (bottom - y >= notesRoom) {
    y += table.row * 0.9;
    sheet.push(textAt(words.notes, border, y, table.text, 'soft', width));
    for (y += table.row; y <= bottom; y += table.row) sheet.push(rule(border, y, width));
  }
  const title = `${course.name === '' ? words.untitled : course.name}, ${words.walkTitle}`;
  return {
    ok: true,
    drawing: pages.map((shapes, i): PaperDrawing => ({
      ...page,
      unit: 1,
      title,
      shapes: [...shapes, ...foot(page, border, i + 1, pages.length, plan.ok && plan.drawing.scale !== null)],
    })),
  };
}

interface Row {
  readonly number: number;
  readonly name: string;
  readonly kind: string;
  readonly next: string;
}

function rowsOf(course: Course, { dialect, unit }: WalkChoices): readonly Row[] {
  const byId = new Map(course.obstacles.map((o) => [o.id, o]));
  const drawn = new Map(drawnSteps(course).map((s) => [s.step.number, centreOf(s)]));
  return course.steps
    .toSorted((a, b) => a.number - b.number)
    .map((step): Row => {
      const obstacle = byId.get(step.obstacleId);
      const here = drawn.get(step.number);
      const there = drawn.get(step.number + 1);
      const kind = obstacle && obstacle.kind !== 'unknown' ? obstacleWords[dialect][obstacle.kind] : '';
      const nickname = obstacle?.nickname ?? '';
      return {
        number: step.number,
        name: nickname,
        kind: [kind, ...how(step, obstacle)].filter((t) => t !== '').join(', '),
        next: here && there ? words.ground(distance(here, there), unit) : '',
      };
    });
}

/** What the dog has to know of a number besides what it stands on. */
function how(step: Step, obstacle: Obstacle | undefined): string[] {
  const tunnel = obstacle?.kind === 'tunnel';
  return [
    ...(step.direction === 'reverse' ? [tunnel ? words.mouth : words.reverse] : []),
    ...(step.backside ? [words.backside] : []),
    ...(step.wrap ? [words.wrap[step.wrap]] : []),
  ];
}

interface Table {
  readonly row: number;
  readonly text: number;
  readonly number: number;
  readonly name: number;
  readonly kind: number;
  readonly next: number;
}

function header(table: Table, x: number, width: number, y: number): PaperShape[] {
  const { columns } = words;
  const base = y + table.row * 0.66;
  const small = table.text * 0.86;
  const at = columnsOf(table, x);
  return [
    textAt(columns.number, at.number, base, small, 'soft', table.number),
    textAt(columns.name, at.name, base, small, 'soft', table.name),
    textAt(columns.kind, at.kind, base, small, 'soft', table.kind),
    { ...textAt(columns.next, at.nextEnd, base, small, 'soft', table.next), from: 'right' },
    textAt(columns.notes, at.notes, base, small, 'soft', width - (at.notes - x)),
    rule(x, y + table.row, width),
  ];
}

function columnsOf(table: Table, x: number) {
  const name = x + table.number;
  const kind = name + table.name;
  const nextEnd = kind + table.kind + table.next;
  return { number: x, name, kind, nextEnd, notes: nextEnd + 5 };
}

function line(row: Row, table: Table, x: number, width: number, y: number): PaperShape[] {
  const at = columnsOf(table, x);
  const base = y + table.row * 0.68;
  return [
    textAt(String(row.number), at.number, base, table.text, 'strong', table.number),
    textAt(fitted(row.name, table.text, table.name - 1), at.name, base, table.text, 'plain', table.name - 1),
    textAt(fitted(row.kind, table.text, table.kind), at.kind, base, table.text, 'plain', table.kind),
    { ...textAt(row.next, at.nextEnd, base, table.text, 'plain', table.next), from: 'right' as const },
    rule(x, y + table.row, width),
  ];
}

function foot({ width, height }: Size, border: number, n: number, of: number, map: boolean): PaperShape[] {
  const { small } = sheetSizes;
  const y = height - border;
  return [
    ...(map && n === 1 ? [textAt(words.printing, border, y, small * 0.9, 'soft', width / 2)] : []),
    ...(of > 1
      ? [{ ...textAt(words.page(n, of), width - border, y, small, 'soft', 30), from: 'right' as const }]
      : []),
  ];
}

type Text = Extract<PaperShape, { shape: 'text' }>;

function textAt(
  text: string,
  x: number,
  y: number,
  textSize: number,
  tone: Text['tone'],
  most: number,
): Text {
  return { shape: 'text', x, y, text, textSize, tone, from: 'left', most };
}

const rule = (x: number, y: number, width: number): PaperShape => ({
  shape: 'path',
  as: 'hairline',
  width: 0.15,
  points: [
    [x, y],
    [x + width, y],
  ],
});
