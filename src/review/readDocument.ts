import { courseProblems } from '../course/course.ts';
import { readHandedIn, type NotHandedIn } from '../course/file/handedIn.ts';
import { ruleBookFormat } from '../course/rules/book.ts';
import { dogFormat } from '../line/dogFile.ts';
import { sheetsOf } from '../plan/plan.ts';
import { checkSpeedMap } from '../time/captureClock.ts';
import type { ClipClock } from '../time/bracket.ts';
import { frameTable } from '../time/frameTable.ts';
import { timeBase } from '../time/timeBase.ts';
import { problemWords } from '../words/problems.ts';
import {
  ReviewDocument,
  reviewFormat,
  reviewVersion,
  type ClipFacts,
  type Cut,
  type DocumentFootage,
} from './document.ts';
import type { ReviewState } from './entities.ts';

/** The largest review file that is read, bytes of UTF-8. */
export const largestDocument = 64 * 1024 * 1024;

export type Reading = { readonly ok: true; readonly document: ReviewDocument } | NotHandedIn;

/**
 * Reads a review file; see `readHandedIn`. What has to fit together: numbers of the course, references between parts,
 * times of marks against the frames of their footage.
 */
export function readDocument(text: string): Reading {
  const reading = readHandedIn(text, {
    format: reviewFormat,
    version: reviewVersion,
    largest: largestDocument,
    schema: ReviewDocument,
    words: { ...problemWords, notThis: notAReview },
    broughtUp,
    problems: documentProblems,
  });
  return reading.ok ? { ok: true, document: reading.value } : reading;
}

function notAReview(format: string | null): string {
  switch (format) {
    case ruleBookFormat:
      return problemWords.isRuleBook;
    case dogFormat:
      return problemWords.isDog;
    default:
      return problemWords.notReview;
  }
}

/** What each older version needs to become the next one. */
const steps: Readonly<Record<number, (raw: Record<string, unknown>) => Record<string, unknown>>> = {
  // Version 1 knew no line-up: its clips keep their offsets and stay without a statement of how they came about.
  1: (raw) => ({ ...raw, version: 2 }),
  // Version 2 knew no cut, no runs and no doubt about a speed: a file without them says the same in version 3.
  2: (raw) => ({ ...raw, version: 3 }),
  // Version 3 knew courses without head, lines and sizes; what it did not say, version 4 may leave unsaid too.
  3: (raw) => ({ ...raw, version: 4 }),
  // Version 4 named a rule book by its id alone, and may go on doing so.
  4: (raw) => ({ ...raw, version: 5 }),
  // Version 5 knew plans of crosses and notes; all else of a plan may be left unsaid, and is then empty.
  5: (raw) => ({ ...raw, version: 6 }),
  // Version 6 knew no figures of the ring, no sections and no word on what to work on; none of them has to be said.
  6: (raw) => ({ ...raw, version: 7 }),
  // Version 7 knew no hand in the report; without it the report is as it was.
  7: (raw) => ({ ...raw, version: 8 }),
};

function broughtUp(raw: Readonly<Record<string, unknown>>): Record<string, unknown> {
  let document: Record<string, unknown> = raw;
  for (let step = stepFor(document); step; step = stepFor(document)) document = step(document);
  return document;
}

function stepFor({ version }: Record<string, unknown>): (typeof steps)[number] | undefined {
  return typeof version === 'number' && Object.hasOwn(steps, version) ? steps[version] : undefined;
}

/** What does not fit together in a document whose shape is right. */
export function documentProblems(d: ReviewDocument): string[] {
  const problems = courseProblems(d.course).map((p) => problemWords.course(p));
  const ranges = new Map<string, { name: string; first: number; last: number }>();
  for (const f of d.footage) {
    problems.push(...footageProblems(f));
    ranges.set(f.id, { name: f.name, first: f.clip.pts[0] ?? 0, last: f.clip.pts.at(-1) ?? 0 });
  }
  const places = Math.max(0, ...d.course.steps.map((s) => s.number));
  const crosses = new Set(d.crosses.map((c) => c.id));
  repeated(d.footage, 'footage', problems);
  repeated(d.crosses, 'cross', problems);
  repeated(d.drawings, 'drawing', problems);
  repeated(d.marks, 'mark', problems);
  repeated(d.tracks, 'track', problems);
  repeated(d.fits, 'fit', problems);
  repeated(d.header.sections ?? [], 'section', problems);
  for (const sheet of sheetsOf(d.plan)) {
    repeated(sheet.crosses, 'planned cross', problems);
    repeated(sheet.supports, 'support', problems);
  }
  const place = (what: string, n: number | undefined): void => {
    if (n !== undefined && n > places) problems.push(problemWords.unknownPlace(what, n, places));
  };
  for (const m of [...d.marks, ...d.drawings]) {
    const range = ranges.get(m.footageId);
    if (!range) problems.push(problemWords.unknownFootage(m.id, m.footageId));
    else if (m.pts < range.first || m.pts > range.last)
      problems.push(problemWords.outsideFootage(m.id, range.name));
  }
  for (const t of d.tracks) {
    const range = ranges.get(t.footageId);
    if (!range) problems.push(problemWords.unknownFootage(t.id, t.footageId));
    else if (t.marks.some((m) => m.pts < range.first || m.pts > range.last))
      problems.push(problemWords.outsideFootage(t.id, range.name));
  }
  for (const f of d.fits) {
    const range = ranges.get(f.footageId);
    if (!range) problems.push(problemWords.unknownFootage(f.id, f.footageId));
    else if (f.points.some((p) => p.pts < range.first || p.pts > range.last))
      problems.push(problemWords.outsideFootage(f.id, range.name));
  }
  for (const m of d.marks) {
    if (m.kind === 'cross' && !crosses.has(m.crossId))
      problems.push(problemWords.unknownCross(m.id, m.crossId));
    if (m.kind === 'taken' || m.kind === 'event') place(`mark "${m.id}"`, m.place);
  }
  for (const c of d.crosses) place(`cross "${c.id}"`, c.place);
  for (const s of d.header.sections ?? []) place(`section "${s.name}"`, s.to);
  for (const sheet of sheetsOf(d.plan)) {
    for (const c of sheet.crosses) place(`planned cross "${c.id}"`, c.place);
    for (const s of sheet.supports) place(`support "${s.id}"`, s.place);
    for (const s of sheet.sides) place('a stated side of the plan', s.after);
    for (const l of sheet.landings ?? []) place('a landing of the plan', l.number);
  }
  return problems;
}

/** The review's state, as screens and analysis use it. */
export function stateOf(d: ReviewDocument): ReviewState {
  return {
    id: d.id,
    header: d.header,
    course: d.course,
    plan: d.plan,
    footage: d.footage.map(({ clip, clipId, ...use }) => ({ ...use, clipId: clipId ?? clip.sha256 })),
    marks: d.marks,
    crosses: d.crosses,
    drawings: d.drawings,
    tracks: d.tracks,
    fits: d.fits,
  };
}

/** Clocks of a document's footage, from the frame times it carries. */
export function clocksOf(d: ReviewDocument): Map<string, ClipClock> {
  return new Map(d.footage.map((f) => [f.id, clockOf(f)]));
}

function clockOf(f: DocumentFootage): ClipClock {
  const [num, den] = f.clip.timeBase;
  return {
    table: frameTable(timeBase(num, den), f.clip.pts),
    speed: checkSpeedMap(f.speed),
    offset: f.offset,
    rate: f.rate,
  };
}

/** A review as a document that stands on its own. `clips` gives the facts of each clip by clip id; all must be there. */
export function documentOf(state: ReviewState, clips: ReadonlyMap<string, ClipFacts>): ReviewDocument {
  return {
    format: reviewFormat,
    version: reviewVersion,
    id: state.id,
    header: state.header,
    course: state.course,
    plan: state.plan,
    footage: state.footage.map((use) => {
      const clip = clips.get(use.clipId);
      if (!clip) throw new Error(`The clip of footage "${use.name}" is not in the library`);
      return { ...use, clip };
    }),
    marks: [...state.marks],
    crosses: [...state.crosses],
    drawings: [...state.drawings],
    tracks: [...state.tracks],
    fits: [...state.fits],
  };
}

/** The text of a review file: one line per mark and per short part, so that two versions can be compared by eye. */
export function writeDocument(document: ReviewDocument): string {
  const parts = Object.entries(document).map(([key, value]) => {
    if (!Array.isArray(value) || value.length === 0)
      return `  ${JSON.stringify(key)}: ${JSON.stringify(value)}`;
    return `  ${JSON.stringify(key)}: [\n${value.map((v) => `    ${JSON.stringify(v)}`).join(',\n')}\n  ]`;
  });
  return `{\n${parts.join(',\n')}\n}\n`;
}

function footageProblems(f: DocumentFootage): string[] {
  const problems: string[] = [];
  try {
    frameTable({ num: f.clip.timeBase[0], den: f.clip.timeBase[1] }, f.clip.pts);
  } catch (error) {
    problems.push(problemWords.frames(f.name, error instanceof Error ? error.message : String(error)));
  }
  try {
    checkSpeedMap(f.speed);
  } catch (error) {
    problems.push(problemWords.speed(f.name, error instanceof Error ? error.message : String(error)));
  }
  if (f.cut && !withinClip(f.cut, f.clip)) problems.push(problemWords.cutOutside(f.name));
  for (const run of f.runs ?? []) {
    if (!withinClip({ from: run.from, to: run.to ?? run.from }, f.clip))
      problems.push(problemWords.runOutside(f.name, run.dog));
  }
  repeated(f.runs ?? [], 'run', problems);
  return problems;
}

function withinClip(cut: Cut, { pts }: Pick<ClipFacts, 'pts'>): boolean {
  return cut.from <= cut.to && cut.from >= (pts[0] ?? 0) && cut.to <= (pts.at(-1) ?? 0);
}

function repeated(list: readonly { readonly id: string }[], what: string, problems: string[]): void {
  const ids = new Set<string>();
  for (const { id } of list) {
    if (ids.has(id)) problems.push(problemWords.repeatedId(what, id));
    ids.add(id);
  }
}
