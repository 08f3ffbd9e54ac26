import { obstacleAt } from '../../course/course.ts';
import type { Analysis, Moment } from '../../review/analysis.ts';
import type { ReviewState } from '../../review/entities.ts';
import type { Quantity } from '../../time/quantity.ts';
import { dataOutWords as words } from '../../words/dataOut.ts';
import { obstacleWords } from '../../words/trade.ts';
import { maskFor } from '../names.ts';
import type { Dialect } from '../places.ts';
import type { Cell, Table } from './csv.ts';

/**
 * What the analysis says as tables, in its own order and with all its digits: splits, obstacles taken, crosses, start
 * line, events. Times are seconds on the clock of the run; each figure has its plus or minus beside it. Names are left
 * out where the report leaves them out.
 */
export function dataTables(
  review: ReviewState,
  analysis: Analysis,
  dialect: Dialect = 'british',
): readonly Table[] {
  const mask = maskFor(review.header);
  const clipNumber = new Map(review.footage.map((f, i) => [f.id, i + 1]));
  const kindAt = (place: number): Cell => {
    const kind = obstacleAt(review.course, place)?.kind;
    return kind === undefined || kind === 'unknown' ? null : obstacleWords[dialect][kind];
  };
  const momentCells = (m: Moment | null | undefined): Cell[] =>
    m ? [clipNumber.get(m.footageId) ?? null, m.frame, ...figureCells(m.at)] : [null, null, null, null];
  const said = (text: string): Cell => (text.trim() === '' ? null : mask(text.trim()));
  return [
    {
      name: words.tables.splits,
      columns: ['try', 'from', 'to', 'kind', ...figureColumns('split', 's'), ...figureColumns('clock', 's')],
      rows: analysis.splits.map((s) => {
        const out = analysis.taken.find((t) => t.place === s.to && t.try === s.try)?.out;
        return [s.try, s.from, s.to, kindAt(s.to), ...figureCells(s.time), ...figureCells(out?.at)];
      }),
    },
    {
      name: words.tables.obstacles,
      columns: [
        ...['try', 'number', 'kind', 'nickname', 'one_mark'],
        ...momentColumns('in'),
        ...momentColumns('out'),
        ...figureColumns('on', 's'),
      ],
      rows: analysis.taken.map((t) => [
        ...[t.try, t.place, t.kind === 'unknown' ? null : obstacleWords[dialect][t.kind], said(t.nickname)],
        ...[t.single, ...momentCells(t.in), ...momentCells(t.out), ...figureCells(t.on)],
      ]),
    },
    {
      name: words.tables.crosses,
      columns: [
        ...['number', 'kind', 'planned', 'verdict', 'reason'],
        ...figureColumns('lead', 's'),
        ...figureColumns('lead', 'frames'),
        ...figureColumns('finished_before', 's'),
        ...figureColumns('cue_after_commitment', 's'),
        'stride_s',
        ...momentColumns('deadline'),
      ],
      rows: analysis.crosses.map((c) => [
        ...[c.place, c.kind, c.plannedId !== null, c.verdict, c.reason],
        ...[...figureCells(c.lead), ...figureCells(c.leadFrames), ...figureCells(c.finish)],
        ...[...figureCells(c.afterCommitted), c.stride, ...momentCells(c.deadline)],
      ]),
    },
    {
      name: words.tables.startLine,
      columns: [
        ...['try', 'verdict', ...figureColumns('stay', 's'), ...figureColumns('early', 's')],
        ...['fakes', 'shifts'],
      ],
      rows: analysis.startLine.map((s) => [
        ...[s.try, s.verdict, ...figureCells(s.stay), ...figureCells(s.early), s.fakes, s.shifts],
      ]),
    },
    {
      name: words.tables.events,
      columns: ['number', 'event', 'refusal', 'own_name', ...momentColumns('at'), 'note'],
      rows: analysis.events.map((e) => [
        ...[e.place, e.mark.event, e.mark.refusal ?? null, e.ownLabel === null ? null : said(e.ownLabel)],
        ...[...momentCells(e.moment), said(e.mark.note)],
      ]),
    },
  ];
}

export const figureColumns = (name: string, unit: string): string[] => [
  `${name}_${unit}`,
  `${name}_plus_minus_${unit}`,
];
const momentColumns = (name: string): string[] => [
  `${name}_clip`,
  `${name}_frame`,
  ...figureColumns(name, 's'),
];
export const figureCells = (q: Quantity | null | undefined): Cell[] =>
  q ? [q.value, q.plusMinus] : [null, null];
