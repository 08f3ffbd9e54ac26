import { coachingReport as words } from '../words/coachingReport.ts';
import type { CrossCard } from './crossCards.ts';
import type { ReportModel } from './model.ts';
import type { StartCard } from './startCards.ts';
import { lineText } from './pieces.ts';

/** A report as plain text for a terminal: the same figures in the same order, without pictures. */
export function reportText(r: ReportModel): string {
  const blocks = [
    head(r),
    clock(r),
    splits(r),
    titled(words.headings.crosses, r.crosses.map(cross)),
    titled(words.headings.startLine, r.startLine.map(start)),
    events(r),
    titled(
      words.headings.doubts,
      r.smallPrint.doubts.map((d) => `  ${d}`),
    ),
    words.unofficial,
  ];
  return `${blocks.filter((b) => b !== '').join('\n\n')}\n`;
}

/** Rows as columns that line up; the last is not padded. `right` says which are set flush right. */
export function columns(rows: readonly (readonly string[])[], right: readonly number[] = []): string[] {
  const widths: number[] = [];
  for (const row of rows) row.forEach((c, i) => (widths[i] = Math.max(widths[i] ?? 0, [...c].length)));
  return rows.map((row) =>
    row
      .map((c, i) => {
        const pad = ' '.repeat((widths[i] ?? 0) - [...c].length);
        return right.includes(i) ? pad + c : i === row.length - 1 ? c : c + pad;
      })
      .join('  ')
      .trimEnd(),
  );
}

function head(r: ReportModel): string {
  const about = [r.team ? lineText(r.team) : null, r.day, r.runKind].filter((t) => t !== null).join(' · ');
  return `${lineText(r.title)}\n${about}`;
}

function clock(r: ReportModel): string {
  const { clock: figure, clockBy, rows } = r.glance;
  const reading = figure ? `${figure.text} ${clockBy}` : clockBy;
  return columns([[words.runClock, reading], ...rows.map((x) => [x.label, x.value])]).join('\n');
}

function splits(r: ReportModel): string {
  if (r.splits.length === 0) return words.noSplits;
  const { obstacle, split, clock: onClock } = words.columns;
  const rows = r.splits.map((s) => [
    '',
    String(s.number),
    lineText(s.what),
    s.split.text,
    s.clock?.text ?? '',
  ]);
  const table = columns([['', '', obstacle, split, onClock], ...rows], [1, 3, 4]);
  return [words.headings.splits, ...table].join('\n');
}

function titled(title: string, parts: readonly string[]): string {
  return parts.length === 0 ? '' : [title, ...parts].join('\n');
}

function cross(c: CrossCard): string {
  const figures = columns(c.figures.map((f) => ['', '', f.label, lineText(f.value)]));
  return [`  ${lineText(c.title)}: ${c.verdictWords}`, `    ${lineText(c.sentence)}`, ...figures].join('\n');
}

function start(s: StartCard): string {
  const title = s.title === null ? '' : `${s.title}: `;
  const waiting = s.waiting === '' ? '' : ` ${s.waiting}`;
  return `  ${title}${s.verdictWords}. ${lineText(s.sentence)}${waiting}`;
}

function events(r: ReportModel): string {
  if (r.events.length === 0) return '';
  const rows = r.events.map((e) => ['', e.clock.text, lineText(e.where), lineText(e.what), lineText(e.note)]);
  return [words.headings.events, ...columns(rows, [1])].join('\n');
}
