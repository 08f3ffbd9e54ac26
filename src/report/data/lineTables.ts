import { dataOutWords as words } from '../../words/dataOut.ts';
import { placeAt, speedAt } from '../../track/figures.ts';
import type { RunFacts } from '../runFacts.ts';
import type { Cell, Table } from './csv.ts';
import { figureCells, figureColumns } from './tables.ts';

/**
 * The dog's measured line as tables: where she was and how fast, moment by moment, and each stretch that the line covers. Metres on
 * the course's ground and seconds on the clock of the run; none where no line was measured.
 */
export function lineTables({ line, stretches }: RunFacts): readonly Table[] {
  if (!line) return [];
  return [
    {
      name: words.tables.line,
      columns: [
        ...['clock_s', 'x_m', 'y_m', 'place_band_long_m', 'place_band_short_m', 'place_band_turned_deg'],
        ...figureColumns('speed', 'm_per_s'),
        'not_marked_here',
      ],
      rows: line.times.map((at): Cell[] => {
        const place = placeAt(line, at);
        const inGap = line.gaps.some((g) => at > g.from && at < g.to);
        return [
          ...[at, place?.x ?? null, place?.y ?? null],
          ...[
            place?.band.long ?? null,
            place?.band.short ?? null,
            place ? (place.band.angle * 180) / Math.PI : null,
          ],
          ...[...figureCells(speedAt(line, at)), inGap],
        ];
      }),
    },
    {
      name: words.tables.stretches,
      columns: [
        ...['from', 'to', ...figureColumns('time', 's'), ...figureColumns('length', 'm')],
        ...[...figureColumns('speed', 'm_per_s'), 'partly_not_marked'],
      ],
      rows: stretches.map((s): Cell[] => [
        ...[s.from, s.to, ...figureCells(s.time), ...figureCells(s.length)],
        ...[...figureCells(s.speed), s.gap],
      ]),
    },
  ];
}
