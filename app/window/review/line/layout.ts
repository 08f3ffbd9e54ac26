import { figure, signedFigure } from '../../../../src/words/figures.ts';
import { crossVerdictWords } from '../../../../src/words/review.ts';
import type { CrossSpan, EventSpot, LineContent, Post, Spot, StartSpan } from './content.ts';
import { xAt, type Span } from './scale.ts';

/** Heights of the line of time, pixels from its top. Events above, obstacles, then the dog over the handler. */
export const lanes = {
  height: 126,
  event: { top: 2, height: 18 },
  plate: { top: 23, height: 20 },
  block: { top: 44, height: 18 },
  dog: { top: 67, height: 14 },
  handler: { top: 84, height: 14 },
  /** Slow motion, as a row of strokes: where more frames stand for the same time. */
  slowed: { top: 99, height: 5 },
  ruler: { top: 104, height: 20 },
} as const;

/** What a place on the line stands for. */
export type Target =
  | { readonly target: 'mark'; readonly markId: string; readonly place: number | null }
  | { readonly target: 'cross'; readonly crossId: string };

/** A part of the line that can be touched. Pixels. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly to: Target;
}

export interface PostBox {
  readonly post: Post;
  /** Edges of the block: where the dog was on the obstacle. */
  readonly left: number;
  readonly right: number;
  /** Middle of the plate that carries the number; null where a later post needs the room. */
  readonly plate: number | null;
  readonly plateWidth: number;
}

export interface StretchBox {
  readonly left: number;
  readonly right: number;
  /** The time on it with its plus or minus, where there is room for all of it. */
  readonly text: string | null;
}

export interface EventBox {
  readonly event: EventSpot;
  readonly x: number;
  /** Its word, where there is room before the next. */
  readonly text: string | null;
}

export interface CrossBox {
  readonly cross: CrossSpan;
  readonly x: (spot: Spot | undefined) => number | null;
  /** Where the words may begin, and what they are. */
  readonly wordsAt: number;
  readonly text: string | null;
}

export interface StartBox {
  readonly start: StartSpan;
  /** The stay with its plus or minus, where there is room for it between its moments. */
  readonly text: string | null;
  readonly x: (spot: Spot | undefined) => number | null;
}

export interface LineLayout {
  readonly posts: readonly PostBox[];
  readonly stretches: readonly StretchBox[];
  readonly events: readonly EventBox[];
  readonly crosses: readonly CrossBox[];
  readonly starts: readonly StartBox[];
  readonly boxes: readonly Box[];
}

/** Width of a text in pixels; given by the canvas, or by a table in tests. */
export type Measure = (text: string) => number;

/** The middle of the frame a mark lies on, so that at frame zoom it stands in its cell. */
const middleOf = (s: Span): number => (s.from + s.to) / 2;

/**
 * Lays the content out for a view `width` pixels wide. Only what is in sight is laid out; words are given only
 * where all of them fit, figures only with their plus or minus.
 */
export function layoutLine(content: LineContent, view: Span, width: number, measure: Measure): LineLayout {
  const x = (at: number): number => xAt(view, width, at);
  const seen = (s: Span): boolean => s.to >= view.from && s.from <= view.to;
  const boxes: Box[] = [];
  const posts = postBoxes(content.posts, x, view, measure, boxes);
  return {
    posts,
    stretches: content.stretches.filter(seen).map((s) => {
      const left = Math.max(0, x(s.from));
      const right = Math.min(width, x(s.to));
      const text = figure(s.time);
      return { left, right, text: measure(text) + 12 <= right - left ? text : null };
    }),
    events: eventBoxes(content.events, x, view, width, measure, boxes),
    crosses: crossBoxes(content.crosses, x, view, width, measure, boxes),
    starts: content.starts
      .filter((s) => seen(s.span))
      .map((start) => {
        const at = (spot: Spot | undefined): number | null => (spot ? x(middleOf(spot.cell)) : null);
        for (const m of start.moments)
          pointBox(boxes, at(m) ?? 0, lanes.plate.top, lanes.block.top + lanes.block.height, m, null);
        return { start, x: at, text: stayText(start, at, measure) };
      }),
    boxes,
  };
}

/** The words of a stay, or null where they do not fit between set up and its end. */
function stayText(start: StartSpan, at: StartBox['x'], measure: Measure): string | null {
  const from = at(start.moments.find((m) => m.part === 'setUp'));
  const to = at(start.moments.findLast((m) => m.part === endOfStay(start)));
  if (!start.stay || from === null || to === null) return null;
  const text = figure(start.stay);
  return measure(text) + 12 <= to - from ? text : null;
}

/** The moment that ended a stay. */
export const endOfStay = (start: StartSpan): 'step' | 'release' =>
  start.verdict === 'broken' ? 'step' : 'release';

const reach = 7;

function pointBox(
  boxes: Box[],
  x: number,
  top: number,
  bottom: number,
  spot: Spot,
  place: number | null,
): void {
  boxes.push({
    left: x - reach,
    right: x + reach,
    top,
    bottom,
    to: { target: 'mark', markId: spot.markId, place },
  });
}

/** A plate may stand this far beside its obstacle where posts crowd. Pixels. */
const mostShift = 10;

function postBoxes(
  posts: readonly Post[],
  x: (at: number) => number,
  view: Span,
  measure: Measure,
  boxes: Box[],
): PostBox[] {
  const laid: PostBox[] = [];
  let free = -Infinity;
  for (const post of posts) {
    const first = post.in ?? post.out;
    const last = post.out ?? post.in;
    if (!first || !last) continue;
    const left = x(middleOf(first.cell));
    const right = Math.max(left + 2, x(middleOf(last.cell)));
    if (last.cell.to < view.from || first.cell.from > view.to) continue;
    const plateWidth = Math.max(18, measure(String(post.place)) + 8);
    const centre = post.single ? left : left + Math.min((right - left) / 2, 30);
    // Of an obstacle that reaches out of sight the plate stays in sight as long as any of it does.
    const inSight = Math.min(Math.max(centre, plateWidth / 2 + 1), Math.max(centre, right - plateWidth / 2));
    const shifted = Math.max(inSight, free + plateWidth / 2);
    const fits = shifted - inSight <= mostShift;
    if (fits) free = shifted + plateWidth / 2 + 1;
    laid.push({ post, left, right, plate: fits ? shifted : null, plateWidth });
    const { top } = lanes.plate;
    const bottom = lanes.block.top + lanes.block.height;
    const middle = (left + right) / 2;
    const to = (spot: Spot): Target => ({ target: 'mark', markId: spot.markId, place: post.place });
    boxes.push({ left: Math.min(left, centre - plateWidth / 2), right: middle, top, bottom, to: to(first) });
    boxes.push({
      left: middle,
      right: Math.max(right + 2, centre + plateWidth / 2),
      top,
      bottom,
      to: to(last),
    });
  }
  return laid;
}

function eventBoxes(
  events: readonly EventSpot[],
  x: (at: number) => number,
  view: Span,
  width: number,
  measure: Measure,
  boxes: Box[],
): EventBox[] {
  const seen = events.filter((e) => e.cell.to >= view.from && e.cell.from <= view.to);
  return seen.map((event, i) => {
    const at = x(middleOf(event.cell));
    const next = seen[i + 1];
    const limit = next ? x(middleOf(next.cell)) - 10 : width;
    const word = event.place === null ? event.name : `${event.place} ${event.name}`;
    const text = [word, event.name].find((t) => at + 10 + measure(t) <= limit) ?? null;
    const { top, height } = lanes.event;
    boxes.push({
      left: at - reach,
      right: at + (text ? 10 + measure(text) : reach),
      top,
      bottom: top + height,
      to: { target: 'mark', markId: event.markId, place: event.place },
    });
    return { event, x: at, text };
  });
}

function crossBoxes(
  crosses: readonly CrossSpan[],
  x: (at: number) => number,
  view: Span,
  width: number,
  measure: Measure,
  boxes: Box[],
): CrossBox[] {
  const seen = crosses
    .filter((c) => c.span.to >= view.from && c.span.from <= view.to)
    .sort((a, b) => a.span.from - b.span.from);
  return seen.map((cross, i) => {
    const at = (spot: Spot | undefined): number | null => (spot ? x(middleOf(spot.cell)) : null);
    const dog = lanes.dog;
    const handler = lanes.handler;
    for (const cue of cross.cues)
      pointBox(boxes, at(cue) ?? 0, handler.top, handler.top + handler.height, cue, cross.place);
    for (const [part, spot] of Object.entries(cross.parts)) {
      const lane = part === 'cueEnds' ? handler : dog;
      if (part !== 'cueBegins')
        pointBox(boxes, at(spot) ?? 0, lane.top, lane.top + lane.height, spot, cross.place);
    }
    boxes.push({
      left: x(cross.span.from) - 3,
      right: x(cross.span.to) + 3,
      top: dog.top,
      bottom: handler.top + handler.height,
      to: { target: 'cross', crossId: cross.id },
    });
    const wordsAt = x(cross.span.to) + 8;
    const next = seen[i + 1];
    const limit = next ? x(next.span.from) - 8 : width;
    const word = crossVerdictWords[cross.verdict];
    const full = cross.lead ? `${word} ${signedFigure(cross.lead)}` : word;
    const text = [full, word].find((t) => wordsAt + measure(t) <= limit) ?? null;
    return { cross, x: at, wordsAt, text };
  });
}

/** What lies under a place on the line: the smallest box that holds it, the newest of equals. */
export function targetAt(layout: LineLayout, x: number, y: number): Target | null {
  let best: Box | null = null;
  for (const box of layout.boxes) {
    if (x < box.left || x > box.right || y < box.top || y > box.bottom) continue;
    if (!best || box.right - box.left <= best.right - best.left) best = box;
  }
  return best?.to ?? null;
}
