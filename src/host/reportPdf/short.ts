import { overlineOf } from '../../report/copies.ts';
import type { CrossCard } from '../../report/crossCards.ts';
import type { ReportModel } from '../../report/model.ts';
import type { StartCard } from '../../report/startCards.ts';
import { lineText } from '../../report/pieces.ts';
import { shortOf, type ShortReport } from '../../report/short.ts';
import { coachingReport as words } from '../../words/coachingReport.ts';
import { capital } from '../../words/sentence.ts';
import { aboutOf, cover, section, stats, toTrain, wentWell } from './report.ts';
import { ink, startPage, type Page } from './page.ts';
import { mapFigure, verdictInk } from './pictures.ts';

/** Sizes of the type, the largest first: the first at which everything is on one sheet is taken. */
const scales = [1, 0.92, 0.84, 0.76, 0.68, 0.6] as const;
/** How high the map is at most where type is at its full size, points. */
const mostMap = 230;
/** The figures of the run stand beside the map on this share of the width. */
const besideMap = 0.4;

/** The report on one sheet. */
export function shortReportPdf(report: ReportModel): Promise<Uint8Array> {
  const short = shortOf(report);
  const overline = overlineOf(report.copy, words.shortOverline);
  for (const scale of scales) {
    const page = startPage(aboutOf(report, overline), scale);
    set(page, short, overline, scale);
    if (page.sheets() === 1 || scale === scales.at(-1)) return page.end(words.pageOf);
  }
  throw new RangeError('no size of type to set a report in');
}

function set(page: Page, short: ShortReport, overline: string, scale: number): void {
  const { crosses, startLine, moreCrosses, smallPrint } = short;
  cover(page, short, overline);
  wentWell(page, short);
  section(page, words.headings.glance, () => {
    glance(page, short, scale);
  });
  section(page, crosses.length > 0 ? words.headings.crossesShort : null, () => {
    for (const c of crosses) verdict(page, lineText(c.title), c);
    if (moreCrosses > 0) page.text(words.moreCrosses(moreCrosses), { colour: ink.textSoft });
  });
  section(page, startLine.length > 0 ? words.headings.startLine : null, () => {
    for (const s of startLine) verdict(page, s.title ?? '', s);
  });
  toTrain(page, short);
  page.gap(6);
  page.text([...smallPrint.lines, words.inFull].join(' '), { size: 8.5, colour: ink.textSoft });
}

function glance(page: Page, { glance: g }: ShortReport, scale: number): void {
  if (!g.map) {
    stats(g, (text, setting) => {
      page.text(text, setting);
    });
    return;
  }
  const top = page.doc.y;
  const left = page.width * besideMap;
  stats(g, (text, setting) => {
    page.column(text, page.doc.x, left - 16, setting);
    page.gap(setting?.below ?? 4);
  });
  const below = page.doc.y;
  page.doc.y = top;
  mapFigure(page, g.map, g.lines, { high: mostMap * scale, left, wide: page.width - left });
  page.doc.y = Math.max(below, page.doc.y);
}

/** A verdict and why, on two lines. */
function verdict(page: Page, title: string, { verdict: kind, verdictWords, sentence }: Told): void {
  page.part('Div', () => {
    const head = title === '' ? capital(verdictWords) : `${title}: ${verdictWords}`;
    page.text(head, { as: 'H3', weight: 'strong', colour: verdictInk[kind], below: 1 });
    if (sentence.length > 0) page.text(lineText(sentence), { size: 9.5 });
  });
}

type Told = Pick<CrossCard | StartCard, 'verdict' | 'verdictWords' | 'sentence'>;
