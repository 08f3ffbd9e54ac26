import { coachingReport as words } from '../words/coachingReport.ts';
import { overlineOf } from './copies.ts';
import type { CrossCard } from './crossCards.ts';
import { escaped } from './escape.ts';
import { documentHtml, statsHtml, toTrainHtml, wentWellHtml } from './html.ts';
import { mapHtml } from './htmlDrawings.ts';
import { lineHtml, section, verdictHtml } from './htmlPieces.ts';
import { shortOf, type ShortReport } from './short.ts';
import type { ReportModel } from './model.ts';

/** The report on one page: what went well, the run at a glance, the verdicts, what to train, what to mind. */
export function shortReportHtml(report: ReportModel): string {
  const short = shortOf(report);
  return documentHtml(
    report,
    overlineOf(report.copy, words.shortOverline),
    [
      wentWellHtml(short),
      glance(short),
      crosses(short),
      startLine(short),
      toTrainHtml(short),
      smallPrint(short),
    ],
    'short',
  );
}

function glance(short: ShortReport): string {
  const { map, lines } = short.glance;
  const drawn = map ? mapHtml(map, lines) : '';
  return section(
    'glance',
    '',
    words.headings.glance,
    `<div class="beside${drawn === '' ? '' : ' with-map'}">${drawn}${statsHtml(short)}</div>`,
  );
}

function crosses({ crosses: all, moreCrosses }: ShortReport): string {
  const rows = all.map(crossRow);
  const more = moreCrosses === 0 ? '' : `<p class="soft">${escaped(words.moreCrosses(moreCrosses))}</p>`;
  return section(
    'crosses',
    '',
    words.headings.crossesShort,
    rows.length === 0 ? '' : `<ul class="rows">${rows.join('\n')}</ul>${more}`,
  );
}

function crossRow(c: CrossCard): string {
  const said = c.sentence.length === 0 ? '' : `<p class="small">${lineHtml(c.sentence)}</p>`;
  return `<li><div class="card-head"><h3>${lineHtml(c.title)}</h3>${verdictHtml(c.verdict, c.verdictWords)}</div>${said}</li>`;
}

function startLine({ startLine: tries }: ShortReport): string {
  const rows = tries.map(
    (s) =>
      `<li><div class="card-head">${s.title === null ? '' : `<h3>${escaped(s.title)}</h3>`}${verdictHtml(s.verdict, s.verdictWords)}</div>${
        s.sentence.length === 0 ? '' : `<p class="small">${lineHtml(s.sentence)}</p>`
      }</li>`,
  );
  return section(
    'start-line',
    '',
    words.headings.startLine,
    rows.length === 0 ? '' : `<ul class="rows">${rows.join('\n')}</ul>`,
  );
}

function smallPrint({ smallPrint: s }: ShortReport): string {
  return section(
    'small-print',
    'print-small',
    words.headings.smallPrint,
    `<p class="soft">${[...s.lines, words.inFull].map(escaped).join(' ')}</p>`,
  );
}
