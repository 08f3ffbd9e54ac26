import type { CrossCard } from '../../report/crossCards.ts';
import { overlineOf } from '../../report/copies.ts';
import type { ReportModel } from '../../report/model.ts';
import type { StartCard } from '../../report/startCards.ts';
import { lineText, type Line } from '../../report/pieces.ts';
import type { TrainItem } from '../../report/toTrain.ts';
import { coachingReport as words } from '../../words/coachingReport.ts';
import { bandFigure, mapFigure, stillRows, stripFigure, verdictInk } from './pictures.ts';
import { ink, startPage, type About, type Page, type Setting } from './page.ts';
import { setTable } from './table.ts';

/** What a PDF of ours bears among its keywords: which review it is of, in letters that every writer leaves alone. */
export const keywordOf = (reviewId: string): string =>
  `walkback-review ${Buffer.from(reviewId).toString('base64url')}`;

/**
 * The report as a tagged PDF (ISO 32000-1): real text, the map and the lines of time as vectors, an outline, an
 * alternative text for every picture. It says what the HTML says, in the same order.
 */
export function reportPdf(r: ReportModel): Promise<Uint8Array> {
  const overline = overlineOf(r.copy, words.overline);
  const page = startPage(aboutOf(r, overline));
  cover(page, r, overline);
  wentWell(page, r);
  glance(page, r);
  splits(page, r);
  crosses(page, r);
  startLine(page, r);
  events(page, r);
  section(page, r.drawings.length > 0 ? words.headings.drawings : null, () => {
    stillRows(
      page,
      r.drawings.map((d) => ({ picture: d.picture, lines: [d.caption] })),
    );
  });
  toTrain(page, r);
  section(page, r.notes === null ? null : words.headings.notes, () => {
    paragraphs(page, r.notes ?? '');
  });
  forCoach(page, r);
  smallPrint(page, r);
  return page.end(words.pageOf);
}

/** What the file says of itself. */
export const aboutOf = (r: ReportModel, overline: string): About => ({
  title: `${lineText(r.title)} · ${overline}`,
  subject: overline,
  keywords: keywordOf(r.reviewId),
});

/** A heading with a table under it takes its caption, head and first rows along, points. */
const tableRoom = 150;

/** A part of the report under its heading; nothing where it has none. */
export function section(page: Page, heading: string | null, body: () => void, room = 70): void {
  if (heading === null) return;
  page.part('Sect', () => {
    page.room(room);
    if (page.doc.y > page.doc.page.margins.top + 10) page.gap(14);
    page.mark(heading);
    page.text(heading, { as: 'H2', size: 16, weight: 'strong', colour: ink.pine, below: 6 });
    body();
  });
}

export function cover(page: Page, r: ReportModel, overline: string): void {
  page.text(overline, { size: 11, weight: 'strong', colour: ink.pine });
  page.text(lineText(r.title), { as: 'H1', size: 24, weight: 'strong', below: 4 });
  if (r.team) page.text(lineText(r.team), { size: 13 });
  page.text([r.day, r.runKind].filter((t) => t !== null).join(' · '), { colour: ink.textSoft });
}

export function wentWell(page: Page, { wentWell: w }: ReportModel): void {
  section(page, words.headings.wentWell, () => {
    if (w.coach !== null) paragraphs(page, w.coach);
    else if (w.facts.length > 0) list(page, w.facts.map(lineText));
    else page.text(words.noFacts);
  });
}

function glance(page: Page, { glance: g }: ReportModel): void {
  section(page, words.headings.glance, () => {
    stats(g, (text, setting) => {
      page.text(text, setting);
    });
    bandFigure(page, g.band);
    page.gap(4);
    if (g.map) mapFigure(page, g.map, g.lines);
  });
}

/** The clock and the counts of the run, line by line. */
export function stats(g: ReportModel['glance'], line: (text: string, setting?: Setting) => void): void {
  line(words.runClock, { size: 9.5, colour: ink.textSoft, below: 0 });
  if (g.clock) line(g.clock.text, { size: 20, weight: 'strong', below: 0 });
  line(g.clockBy, { colour: ink.textSoft });
  for (const { label, value } of g.rows) line(`${label}: ${value}`, { below: 1 });
}

function splits(page: Page, r: ReportModel): void {
  section(
    page,
    words.headings.splits,
    () => {
      if (r.splits.length === 0) {
        page.text(words.noSplits, { colour: ink.textSoft });
        return;
      }
      const { columns } = words;
      const measured = r.splits.some((s) => s.metres);
      setTable(page, {
        caption: words.splitsCaption,
        head: [columns.obstacle, columns.split, columns.clock, ...(measured ? [columns.way] : [])],
        widths: measured ? [0.34, 0.18, 0.18, 0.3] : [0.5, 0.25, 0.25],
        rows: r.splits.map((s) => [
          [String(s.number), lineText(s.what)].filter((t) => t !== '').join('  '),
          s.split.text,
          s.clock?.text ?? '',
          ...(measured ? [[s.metres?.text, s.speed?.text].filter((t) => t).join(', ')] : []),
        ]),
        right: measured ? [1, 2, 3] : [1, 2],
      });
    },
    tableRoom,
  );
}

function crosses(page: Page, r: ReportModel): void {
  if (r.crosses.length === 0 && r.plannedOnly.length === 0) return;
  section(page, words.headings.crosses, () => {
    for (const c of r.crosses) cross(page, c);
    if (r.plannedOnly.length === 0) return;
    page.text(words.plannedOnly, { colour: ink.textSoft });
    list(page, r.plannedOnly.map(lineText));
  });
}

function cross(page: Page, c: CrossCard): void {
  page.part('Div', () => {
    page.room(120);
    card(page, lineText(c.title), c.verdictWords, verdictInk[c.verdict]);
    if (c.sentence.length > 0) page.text(lineText(c.sentence));
    if (c.note.length > 0) page.text(lineText(c.note), { indent: 10 });
    if (c.plan.length > 0) page.text(lineText(c.plan), { colour: ink.textSoft });
    stripFigure(page, c.strip);
    const said = (m: CrossCard['moments'][number]): string[] => [
      `${m.n}  ${m.what}`,
      ...(m.relation ? [lineText(m.relation)] : []),
      `${m.clock.text} ${words.onClock}, ${m.frame}`,
      ...(m.note.length > 0 ? [lineText(m.note)] : []),
    ];
    stillRows(
      page,
      c.moments.flatMap((m) => (m.picture ? [{ picture: m.picture, lines: said(m) }] : [])),
    );
    for (const m of c.moments) if (!m.picture) page.text(said(m).join(' · '), { size: 9.5, below: 2 });
    figures(page, c.figures);
    page.doc.y += 8;
  });
}

function card(page: Page, title: string, verdict: string, colour: string): void {
  page.room(60);
  if (title !== '') page.text(title, { as: 'H3', size: 12.5, weight: 'strong', below: 1 });
  page.text(verdict, { weight: 'strong', colour, below: 3 });
}

function figures(page: Page, all: readonly { readonly label: string; readonly value: Line }[]): void {
  for (const { label, value } of all)
    page.text(`${label}: ${lineText(value)}`, { size: 9.5, colour: ink.textSoft, below: 1 });
}

function startLine(page: Page, r: ReportModel): void {
  section(page, r.startLine.length > 0 ? words.headings.startLine : null, () => {
    for (const s of r.startLine) start(page, s);
  });
}

function start(page: Page, s: StartCard): void {
  page.part('Div', () => {
    card(page, s.title ?? '', s.verdictWords, verdictInk[s.verdict]);
    page.text(`${lineText(s.sentence)}${s.waiting === '' ? '' : ` ${s.waiting}`}`);
    stillRows(
      page,
      s.pictures.map((p) => ({ picture: p.picture, lines: [`${p.what}, ${p.frame}`] })),
    );
    figures(page, s.figures);
    page.doc.y += 8;
  });
}

function events(page: Page, r: ReportModel): void {
  section(
    page,
    r.events.length > 0 ? words.headings.events : null,
    () => {
      const { columns } = words;
      setTable(page, {
        caption: words.eventsCaption,
        head: [columns.place, columns.event, columns.clock],
        widths: [0.36, 0.42, 0.22],
        rows: r.events.map((e) => [
          lineText(e.where),
          [lineText(e.what), lineText(e.note)].filter((t) => t !== '').join(': '),
          e.clock.text,
        ]),
        right: [2],
      });
    },
    tableRoom,
  );
}

/** One or two things to train, and what to mind before. */
export function toTrain(page: Page, { toTrain: t }: ReportModel): void {
  const { headings, cautions } = words;
  const none = t.coach === null && t.items.length === 0;
  section(page, none ? headings.cautions : headings.toTrain, () => {
    if (t.coach !== null) paragraphs(page, t.coach);
    else if (t.items.length > 0) {
      list(page, t.items.map(trained));
      page.text(words.byTheRun, { size: 9.5, colour: ink.textSoft });
    }
    if (!none) page.text(headings.cautions, { as: 'H3', size: 12, weight: 'strong' });
    list(page, cautions);
  });
}

function trained({ what, where, lost, exercise }: TrainItem): string {
  const cost = lost > 0 ? ` (${words.trainLost(lost)})` : '';
  const head = `${what} ${where}`.trim() + cost;
  return exercise ? `${head}: ${exercise.title}. ${exercise.how}` : `${head}.`;
}

function forCoach(page: Page, { forCoach: { notes, alsoSeen } }: ReportModel): void {
  section(page, notes === null && alsoSeen.length === 0 ? null : words.headings.coachNotes, () => {
    if (notes !== null) paragraphs(page, notes);
    if (alsoSeen.length === 0) return;
    page.text(words.alsoSeen, { colour: ink.textSoft });
    list(
      page,
      alsoSeen.map(({ what, where }) => `${what} ${where}`.trim()),
    );
  });
}

function smallPrint(page: Page, { smallPrint: s }: ReportModel): void {
  const { headings, columns } = words;
  section(page, headings.smallPrint, () => {
    for (const line of s.lines) page.text(line, { size: 9, colour: ink.textSoft, below: 2 });
    if (s.plusMinus) {
      small(page, headings.plusMinus);
      page.text(lineText(s.plusMinus), { size: 9 });
    }
    small(page, headings.clips);
    if (s.clips.length === 0) page.text(words.noClips, { size: 9 });
    else
      setTable(page, {
        caption: words.clipsCaption,
        head: [columns.clip, columns.frames, columns.picture, columns.marks],
        widths: [0.4, 0.15, 0.3, 0.15],
        rows: s.clips.map((c) => [lineText(c.name), String(c.frames), c.picture, String(c.marks)]),
        right: [1, 3],
      });
    if (s.doubts.length === 0) return;
    small(page, headings.doubts);
    list(page, s.doubts);
  });
}

/** A small heading, not the last line of a sheet. */
function small(page: Page, heading: string): void {
  page.room(60);
  page.text(heading, { as: 'H3', size: 11, weight: 'strong' });
}

function paragraphs(page: Page, text: string): void {
  for (const p of text.split(/\r?\n[ \t]*(?:\r?\n)+/)) if (p.trim() !== '') page.text(p.trim(), { below: 6 });
}

function list(page: Page, items: readonly string[]): void {
  page.part('L', () => {
    for (const item of items) {
      page.part('LI', () => {
        page.text(`•  ${item}`, { as: 'LBody', below: 2 });
      });
    }
  });
}
