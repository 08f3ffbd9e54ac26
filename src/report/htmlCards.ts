import { coachingReport as words } from '../words/coachingReport.ts';
import type { CrossCard, MomentCard } from './crossCards.ts';
import { escaped } from './escape.ts';
import { momentDot, stripHtml } from './htmlDrawings.ts';
import { figureHtml, lineHtml, pictureHtml, section, verdictHtml } from './htmlPieces.ts';
import type { ReportModel } from './model.ts';
import type { Line } from './pieces.ts';
import type { StartCard } from './startCards.ts';

/** The crosses, one card each, and those that were planned only. */
export function crossesHtml(r: ReportModel): string {
  const cards = r.crosses.map(crossHtml);
  const planned =
    r.plannedOnly.length === 0
      ? ''
      : `<p class="soft after-cards">${escaped(words.plannedOnly)}</p><ul class="planned soft">${r.plannedOnly
          .map((l) => `<li>${lineHtml(l)}</li>`)
          .join('')}</ul>`;
  return section(
    'crosses',
    '',
    words.headings.crosses,
    [...cards, planned].filter((t) => t !== '').join('\n'),
  );
}

function crossHtml(c: CrossCard): string {
  const pictured = c.moments.filter((m) => m.picture);
  const told = c.moments.filter((m) => !m.picture);
  const list = (className: string, moments: readonly MomentCard[]): string =>
    moments.length === 0 ? '' : `<ul class="${className}">${moments.map(momentHtml).join('\n')}</ul>`;
  return `<article class="card">
<div class="card-head"><h3>${lineHtml(c.title)}</h3>${verdictHtml(c.verdict, c.verdictWords)}</div>
${c.sentence.length > 0 ? `<p class="said">${lineHtml(c.sentence)}</p>` : ''}
${noteHtml(c.note)}${c.plan.length > 0 ? `<p class="soft">${lineHtml(c.plan)}</p>` : ''}
${stripHtml(c.strip)}
${list('moments', pictured)}
${list('moments plain', told)}
${factsHtml(c.figures)}
</article>`;
}

/** A note as a person wrote it. */
export function noteHtml(note: Line): string {
  return note.length === 0 ? '' : `<p class="note written" dir="auto">${lineHtml(note)}</p>`;
}

function factsHtml(figures: CrossCard['figures']): string {
  if (figures.length === 0) return '';
  return `<dl class="facts">${figures
    .map((f) => `<div><dt>${escaped(f.label)}</dt><dd>${lineHtml(f.value)}</dd></div>`)
    .join('')}</dl>`;
}

function momentHtml(m: MomentCard): string {
  const relation = m.relation ? `<p>${lineHtml(m.relation)}</p>` : '';
  return `<li class="moment">${m.picture ? pictureHtml(m.picture) : ''}
<div class="legend">${momentDot(m.n, m.part)}<p><strong>${escaped(m.what)}</strong></p>${relation}
<p class="soft">${figureHtml(m.clock)} ${escaped(words.onClock)}, <span class="frame">${escaped(m.frame)}</span></p>
${noteHtml(m.note)}</div></li>`;
}

/** The tries at the start line, one card each. */
export function startLineHtml(r: ReportModel): string {
  return section('start-line', '', words.headings.startLine, r.startLine.map(startHtml).join('\n'));
}

function startHtml(s: StartCard): string {
  const pictures = s.pictures.map(
    (p) => `<li class="moment">${pictureHtml(p.picture)}
<p class="small"><strong>${escaped(p.what)}</strong>, ${escaped(p.frame)}</p></li>`,
  );
  const head = s.title ? `<h3>${escaped(s.title)}</h3>` : '';
  return `<div class="card">
<div class="card-head">${head}${verdictHtml(s.verdict, s.verdictWords)}</div>
<p class="said">${lineHtml(s.sentence)}${s.waiting === '' ? '' : ` ${escaped(s.waiting)}`}</p>
${pictures.length > 0 ? `<ul class="moments">${pictures.join('\n')}</ul>` : ''}
${factsHtml(s.figures)}
</div>`;
}
