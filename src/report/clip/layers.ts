import { middle, runTimeAt } from '../../time/bracket.ts';
import { ptsOf } from '../../time/frameTable.ts';
import { frameIndex } from '../../time/units.ts';
import { shapesOn, type Shape } from '../../review/penStrokes.ts';
import { clipWords } from '../../words/clip.ts';
import { maskFor } from '../names.ts';
import { groundLayer, type GroundMark } from './groundLayer.ts';
import type { Box } from './layout.ts';
import type { RunAtHand } from './run.ts';
import type { Timeline } from './timeline.ts';
import type { ClipWish } from './wish.ts';

/** What is laid over the picture of one run. */
export interface LaneLayer {
  readonly box: Box;
  readonly ground: readonly GroundMark[];
  /** The coach's pen, in fractions of the lane's picture. */
  readonly strokes: readonly Shape[];
  /** Whose run it is and its latest split, in the upper left corner. */
  readonly tags: readonly string[];
}

/** What is laid over the pictures from one of them on. */
export interface Layer {
  readonly at: number;
  readonly lanes: readonly LaneLayer[];
  /** How slow it is shown, in the upper right corner. */
  readonly speed: string | null;
  /** Words under the picture. */
  readonly caption: string | null;
}

/** A run of a clip: which of its frames begins with which picture. */
export interface LaneShots {
  readonly run: RunAtHand;
  readonly footageId: string;
  readonly box: Box;
  readonly shots: readonly { readonly frame: number; readonly at: number }[];
}

/** Seconds of the run for which a split is told after its end. */
const splitFor = 1.6;

/** What is laid over, one entry where anything of it changes; none where nothing is ever to be seen. */
export function layersOf(
  lanes: readonly LaneShots[],
  timeline: Timeline,
  { overlays, freezes }: Pick<ClipWish, 'overlays' | 'freezes'>,
): readonly Layer[] {
  const at = [...new Set(lanes.flatMap((lane) => lane.shots.map((s) => s.at)))].sort((a, b) => a - b);
  const laneAt = lanes.map((lane) => laneLayers(lane, overlays, lanes.length > 1));
  const lead = lanes[0];
  const mask = lead ? maskFor(lead.run.review.header) : (text: string) => text;
  const layers: Layer[] = [];
  let last = '';
  for (const tick of at) {
    const shot = timeline.shots.findLast((s) => s.at <= tick);
    const pts = shot && lead ? ptsIn(lead, shot.frame) : null;
    const held = shot && shot.held > 0 ? freezes.filter((f) => f.pts === pts) : [];
    const words = held.map((f) => mask(f.caption.trim())).filter((text) => text !== '');
    const layer: Layer = {
      at: tick,
      lanes: laneAt.map((of) => of(tick)),
      speed: overlays.captions && shot && shot.speed < 1 ? clipWords.onScreen.speed(shot.speed) : null,
      caption: overlays.captions && words.length > 0 ? words.join('\n') : null,
    };
    const key = keyOf(layer);
    if (key !== last) layers.push(layer);
    last = key;
  }
  return layers.some(isSeen) ? layers : [];
}

const ids = new WeakMap<readonly GroundMark[], number>();
let next = 1;
/** The same list of marks is the same thing: it need not be looked through. */
function idOf(marks: readonly GroundMark[]): number {
  const id = ids.get(marks) ?? next++;
  ids.set(marks, id);
  return id;
}

const keyOf = ({ lanes, speed, caption }: Layer): string =>
  JSON.stringify([lanes.map((l) => [idOf(l.ground), l.strokes, l.tags]), speed, caption]);

const isSeen = ({ lanes, speed, caption }: Layer): boolean =>
  speed !== null ||
  caption !== null ||
  lanes.some((l) => l.ground.length > 0 || l.strokes.length > 0 || l.tags.length > 0);

function ptsIn({ run, footageId }: LaneShots, frame: number): number | null {
  const table = run.clocks.get(footageId)?.table;
  return table ? ptsOf(table, frameIndex(frame)) : null;
}

function laneLayers(
  lane: LaneShots,
  show: ClipWish['overlays'],
  named: boolean,
): (tick: number) => LaneLayer {
  const { run, footageId, box, shots } = lane;
  const clock = run.clocks.get(footageId);
  const bare: LaneLayer = { box, ground: [], strokes: [], tags: [] };
  const [first, last] = [shots[0], shots.at(-1)];
  if (!clock || !first || !last) return () => bare;
  const timeOf = (frame: number): number => runTimeAt(clock, ptsOf(clock.table, frameIndex(frame)));
  const ground = groundLayer(run, footageId, box, show, {
    from: timeOf(first.frame),
    to: timeOf(last.frame),
  });
  const { header } = run.review;
  const mask = maskFor(header);
  const whose =
    header.dog.trim() === '' ? header.title : [header.dog, header.day].filter((t) => t !== '').join(', ');
  const name = named && show.captions ? [mask(whose)] : [];
  const splits = show.captions ? splitsTold(run) : [];
  return (tick) => {
    const shot = shots.findLast((s) => s.at <= tick) ?? first;
    const pts = ptsOf(clock.table, frameIndex(shot.frame));
    const now = timeOf(shot.frame);
    const split = splits.findLast((s) => s.at <= now && now < s.at + splitFor);
    return {
      box,
      ground: ground(pts),
      strokes: show.drawings ? shapesOn(run.review.drawings, footageId, pts) : [],
      tags: [...name, ...(split ? [split.text] : [])],
    };
  };
}

/** The splits of the run, each with the run time of its end. */
function splitsTold({ analysis }: RunAtHand): { at: number; text: string }[] {
  return analysis.splits
    .flatMap((split) => {
      const out = analysis.taken.find((t) => t.place === split.to && t.try === split.try)?.out;
      return out ? [{ at: middle(out.bracket), text: clipWords.onScreen.split(split) }] : [];
    })
    .sort((a, b) => a.at - b.at);
}
