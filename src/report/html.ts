import { coachingReport as words } from '../words/coachingReport.ts';
import { locale } from '../words/locale.ts';
import { overlineOf } from './copies.ts';
import { escaped } from './escape.ts';
import { crossesHtml, noteHtml, startLineHtml } from './htmlCards.ts';
import { bandHtml, isTall, mapHtml, shareHtml } from './htmlDrawings.ts';
import { figureHtml, lineHtml, pictureHtml, section, signHtml, writtenHtml } from './htmlPieces.ts';
import type { ReportModel, SplitRow } from './model.ts';
import { lineText } from './pieces.ts';
import { styleSheet } from './style.ts';
import type { TrainItem } from './toTrain.ts';

/** Nothing may load, run, frame or be sent anywhere; pictures are inside the file. */
const policy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** The meta name under which a report file says which review it is of. */
export const reviewMeta = 'walkback-review';

/**
 * The report as one HTML document that stands on its own: no script, no network, every text escaped. Read on a
 * phone or a desktop, by day or dark, or printed.
 */
export function reportHtml(report: ReportModel): string {
  return documentHtml(report, overlineOf(report.copy, words.overline), [
    wentWellHtml(report),
    glance(report),
    splits(report),
    crossesHtml(report),
    startLineHtml(report),
    events(report),
    drawings(report),
    toTrainHtml(report),
    notes(report),
    forCoach(report),
    smallPrint(report),
  ]);
}

/** The document round the parts of a report, with its cover. */
export function documentHtml(
  report: ReportModel,
  overline: string,
  parts: readonly string[],
  kind = '',
): string {
  const title = `${lineText(report.title)} · ${overline}`;
  return `<!DOCTYPE html>
<html lang="${escaped(locale)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<meta name="${reviewMeta}" content="${escaped(report.reviewId)}">
<title>${escaped(title)}</title>
<style>
${styleSheet()}
</style>
</head>
<body>
<main class="sheet${kind === '' ? '' : ` ${kind}`}">
${[cover(report, overline), ...parts].filter((part) => part !== '').join('\n')}
</main>
</body>
</html>
`;
}

/** A pair of posts with a line run between them: the report's own mark. */
const mark = `<svg width="34" height="18" viewBox="0 0 34 18" aria-hidden="true"><path d="M3 2v14M31 2v14" stroke="currentColor" stroke-width="3" stroke-linecap="round"/><path d="M7 14C13 14 12 4 17 4s4 10 10 10" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="1 4" stroke-linecap="round"/></svg>`;

function cover(r: ReportModel, overline: string): string {
  const about = [r.day, r.runKind].flatMap((t) => (t === null ? [] : [escaped(t)])).join(' · ');
  return `<header class="cover">
<p class="overline">${mark}${escaped(overline)}</p>
<h1>${lineHtml(r.title)}</h1>
${r.team ? `<p class="team">${lineHtml(r.team)}</p>` : ''}
<p class="about">${about}</p>
</header>`;
}

/** What went well, first of all. */
export function wentWellHtml({ wentWell: w }: ReportModel): string {
  const facts = w.facts.map((f) => `<li class="v-kept">${signHtml('kept')}<span>${lineHtml(f)}</span></li>`);
  const body =
    w.coach !== null
      ? writtenHtml(w.coach)
      : facts.length > 0
        ? `<ul>${facts.join('\n')}</ul>`
        : `<p>${escaped(words.noFacts)}</p>`;
  return section('went-well', 'well', words.headings.wentWell, body);
}

/** The clock and the counts of the run. */
export function statsHtml({ glance: g }: ReportModel): string {
  const clock = g.clock
    ? `<dd class="big">${figureHtml(g.clock)}</dd><dd class="by">${escaped(g.clockBy)}</dd>`
    : `<dd>${escaped(g.clockBy)}</dd>`;
  const rows = g.rows.map((r) => `<div><dt>${escaped(r.label)}</dt><dd>${escaped(r.value)}</dd></div>`);
  return `<dl class="stats"><div class="wide"><dt>${escaped(words.runClock)}</dt>${clock}</div>${rows.join('')}</dl>`;
}

function glance(r: ReportModel): string {
  const { glance: g } = r;
  return section(
    'glance',
    '',
    words.headings.glance,
    [statsHtml(r), bandHtml(g.band), g.map && !isTall(g.map) ? mapHtml(g.map, g.lines) : ''].join('\n'),
  );
}

function splits(r: ReportModel): string {
  const { columns } = words;
  const map = r.glance.map && isTall(r.glance.map) ? mapHtml(r.glance.map, r.glance.lines) : '';
  const heading = map === '' ? words.headings.splits : words.headings.courseAndSplits;
  if (r.splits.length === 0)
    return section('splits', '', heading, `<p class="soft">${escaped(words.noSplits)}</p>${map}`);
  const measured = r.splits.some((s) => s.metres);
  const way = ({ metres, speed }: SplitRow): string =>
    measured
      ? `<td class="num way">${metres ? figureHtml(metres) : ''}${speed ? `<div class="soft">${figureHtml(speed)}</div>` : ''}</td>`
      : '';
  const wayHead = measured ? `<th scope="col" class="num">${escaped(columns.way)}</th>` : '';
  const rows = r.splits.map(
    (s) => `<tr><th scope="row"><span class="no">${s.number}</span>${lineHtml(s.what)}</th>
<td class="num">${figureHtml(s.split)}</td><td class="bar">${shareHtml(s.share)}</td>
<td class="num">${s.clock ? figureHtml(s.clock) : ''}</td>${way(s)}</tr>`,
  );
  return section(
    'splits',
    '',
    heading,
    `<div class="beside${map === '' ? '' : ' with-map'}">${map}<table class="splits"><caption>${escaped(words.splitsCaption)}</caption>
<thead><tr><th scope="col">${escaped(columns.obstacle)}</th><th scope="col" class="num">${escaped(columns.split)}</th>
<td class="bar-head"></td><th scope="col" class="num">${escaped(columns.clock)}</th>${wayHead}</tr></thead>
<tbody>${rows.join('\n')}</tbody></table></div>`,
  );
}

function events(r: ReportModel): string {
  if (r.events.length === 0) return '';
  const { columns } = words;
  const rows = r.events.map(
    (e) => `<tr><th scope="row">${lineHtml(e.where)}</th><td>${lineHtml(e.what)}${noteHtml(e.note)}</td>
<td class="num">${figureHtml(e.clock)}</td></tr>`,
  );
  return section(
    'events',
    '',
    words.headings.events,
    `<table class="events"><caption>${escaped(words.eventsCaption)}</caption>
<thead><tr><th scope="col">${escaped(columns.place)}</th><th scope="col">${escaped(columns.event)}</th>
<th scope="col" class="num">${escaped(columns.clock)}</th></tr></thead>
<tbody>${rows.join('\n')}</tbody></table>`,
  );
}

function drawings(r: ReportModel): string {
  const items = r.drawings.map(
    (d) => `<li class="moment">${pictureHtml(d.picture)}<p class="small soft">${escaped(d.caption)}</p></li>`,
  );
  return section(
    'drawings',
    '',
    words.headings.drawings,
    items.length === 0 ? '' : `<ul class="moments">${items.join('\n')}</ul>`,
  );
}

/** One or two things to train, and what to mind before. */
export function toTrainHtml({ toTrain: t }: ReportModel): string {
  const cautions = `<ul>${words.cautions.map((c) => `<li>${escaped(c)}</li>`).join('')}</ul>`;
  if (t.coach === null && t.items.length === 0)
    return section('cautions', 'cautions', words.headings.cautions, cautions);
  const said =
    t.coach === null
      ? `<ul class="items">${t.items.map((i) => `<li>${trainHtml(i)}</li>`).join('\n')}</ul><p class="soft">${escaped(words.byTheRun)}</p>`
      : writtenHtml(t.coach);
  return section(
    'to-train',
    'train',
    words.headings.toTrain,
    `<div class="prose">${said}</div>
<div class="cautions"><h3>${escaped(words.headings.cautions)}</h3>${cautions}</div>`,
  );
}

function trainHtml({ what, where, lost, exercise }: TrainItem): string {
  const cost = lost > 0 ? ` (${escaped(words.trainLost(lost))})` : '';
  const head = `<strong>${escaped(what)}</strong>${where === '' ? '' : ` ${escaped(where)}`}${cost}`;
  return exercise ? `${head}: <b>${written(exercise.title)}.</b> ${written(exercise.how)}` : `${head}.`;
}

/** A person's words within a line. */
const written = (text: string): string => `<bdi>${escaped(text)}</bdi>`;

function forCoach({ forCoach: { notes: own, alsoSeen } }: ReportModel): string {
  const seen =
    alsoSeen.length === 0
      ? ''
      : `<p class="soft">${escaped(words.alsoSeen)}</p><ul>${alsoSeen
          .map(({ what, where }) => `<li>${escaped(`${what} ${where}`.trim())}</li>`)
          .join('')}</ul>`;
  const body = `${own === null ? '' : writtenHtml(own)}${seen}`;
  return section(
    'for-coach',
    'for-coach',
    words.headings.coachNotes,
    body === '' ? '' : `<div class="prose">${body}</div>`,
  );
}

function notes(r: ReportModel): string {
  if (r.notes === null) return '';
  return section('notes', '', words.headings.notes, `<div class="prose">${writtenHtml(r.notes)}</div>`);
}

function smallPrint({ smallPrint: s }: ReportModel): string {
  const { columns, headings } = words;
  const lines = s.lines.map((l) => `<p>${escaped(l)}</p>`).join('\n');
  const plusMinus = s.plusMinus
    ? `<h3>${escaped(headings.plusMinus)}</h3><p class="prose">${lineHtml(s.plusMinus)}</p>`
    : '';
  const clips =
    s.clips.length === 0
      ? `<p>${escaped(words.noClips)}</p>`
      : `<div class="scroll"><table><caption>${escaped(words.clipsCaption)}</caption><thead><tr><th scope="col">${escaped(columns.clip)}</th>
<th scope="col" class="num">${escaped(columns.frames)}</th><th scope="col">${escaped(columns.picture)}</th><th scope="col" class="num">${escaped(columns.marks)}</th></tr></thead>
<tbody>${s.clips
          .map(
            (c) =>
              `<tr><th scope="row">${lineHtml(c.name)}</th><td class="num">${c.frames}</td><td>${escaped(c.picture)}</td><td class="num">${c.marks}</td></tr>`,
          )
          .join('\n')}</tbody></table></div>`;
  const doubts =
    s.doubts.length === 0
      ? ''
      : `<h3>${escaped(headings.doubts)}</h3><ul>${s.doubts.map((d) => `<li>${escaped(d)}</li>`).join('')}</ul>`;
  return section(
    'small-print',
    'print-small',
    headings.smallPrint,
    `<div class="prose soft">${lines}</div>${plusMinus}<h3>${escaped(headings.clips)}</h3>${clips}${doubts}`,
  );
}
