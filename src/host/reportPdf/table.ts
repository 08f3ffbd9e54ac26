import { ink, type Page } from './page.ts';

export interface TableSet {
  readonly caption: string;
  readonly head: readonly string[];
  /** Shares of the width. */
  readonly widths: readonly number[];
  readonly rows: readonly (readonly string[])[];
  /** Columns of figures. */
  readonly right: readonly number[];
}

const padding = 3;
const size = 9.5;

/** A table with its caption; the first cell of a row heads it, and the head is set again on every sheet. */
export function setTable(page: Page, { caption, head, widths, rows, right }: TableSet): void {
  page.text(caption, { as: 'Caption', size: 9, colour: ink.textSoft });
  const columns = widths.map((share) => share * page.width);
  const left = page.doc.x;
  const heightOf = (cells: readonly string[], weight: 'regular' | 'strong'): number =>
    2 * padding +
    Math.max(
      ...cells.map((cell, i) =>
        page.heightOf(cell === '' ? ' ' : cell, (columns[i] ?? 0) - 2 * padding, { size, weight }),
      ),
    );
  const row = (cells: readonly string[], isHead: boolean): void => {
    const weight = isHead ? 'strong' : 'regular';
    const height = heightOf(cells, weight);
    const top = page.doc.y;
    page.part('TR', () => {
      cells.forEach((cell, i) => {
        const x = left + columns.slice(0, i).reduce((a, b) => a + b, 0);
        const wide = (columns[i] ?? 0) - 2 * padding;
        page.part(isHead || i === 0 ? 'TH' : 'TD', () => {
          page.doc.y = top + padding;
          page.column(cell, x + padding, wide, { size, weight, align: right.includes(i) ? 'right' : 'left' });
        });
      });
    });
    page.line(left, top + height, left + page.width, isHead ? ink.lineStrong : ink.line);
    page.doc.x = left;
    page.doc.y = top + height;
  };
  page.part('Table', () => {
    page.room(heightOf(head, 'strong') * 3);
    row(head, true);
    for (const cells of rows) {
      const sheet = page.doc.page;
      page.room(heightOf(cells, 'regular'));
      if (page.doc.page !== sheet) row(head, true);
      row(cells, false);
    }
  });
  page.doc.y += 6;
}
