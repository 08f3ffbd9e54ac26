import { lastFrame, frameAt, type FrameTable } from '../../time/frameTable.ts';
import { pts } from '../../time/units.ts';
import { shotsBeside } from './beside.ts';
import type { LaneShots } from './layers.ts';
import { layoutOf, type Layout } from './layout.ts';
import type { RunAtHand } from './run.ts';
import { soundtrackOf, type SoundPart } from './soundtrack.ts';
import { secondsOf, timelineOf, type FramePart, type Shown, type Timeline } from './timeline.ts';
import type { ClipWish } from './wish.ts';

/** A run of a clip, and which frames of its footage are read for it. */
export interface PlannedLane extends LaneShots {
  readonly parts: readonly FramePart[];
}

/** A clip to the last picture, before anything is decoded. */
export interface ClipPlan extends Timeline, Layout {
  readonly lanes: readonly PlannedLane[];
  readonly sound: readonly SoundPart[];
}

/** Why a clip cannot be made as it was asked for. */
export type PlanRefusal = 'noFootage' | 'badRange' | 'tooLong' | 'nothingShared';

/** Longest clip, seconds: more is no clip to hand over but a film to sit through. */
export const longestClip = 600;

/**
 * Works a clip out: which frame each picture shows and what is heard; `layersOf` tells what is laid over. Pure.
 * @param beside the run that is shown at its side
 */
export function planClip(
  wish: ClipWish,
  run: RunAtHand,
  beside: RunAtHand | null = null,
): ClipPlan | PlanRefusal {
  const clock = run.clocks.get(wish.footageId);
  const picture = run.pictures.get(wish.footageId);
  if (!clock || !picture) return 'noFootage';
  const shown = shownOf(wish, clock.table);
  if (!shown) return 'badRange';
  const timeline = timelineOf(clock.table, shown);
  if (secondsOf(timeline) > longestClip) return 'tooLong';

  const other = wish.beside;
  if (!other || !beside) {
    const layout = layoutOf([picture]);
    const lanes = layout.boxes.map((box): PlannedLane => ({
      run,
      footageId: wish.footageId,
      box,
      shots: timeline.shots,
      parts: shown.parts,
    }));
    const sound = wish.sound ? soundtrackOf(timeline) : [];
    return { ...timeline, ...layout, lanes, sound };
  }

  const otherClock = beside.clocks.get(other.footageId);
  const otherPicture = beside.pictures.get(other.footageId);
  if (!otherClock || !otherPicture) return 'noFootage';
  const layout = layoutOf([picture, otherPicture]);
  const shots = shotsBeside(
    timeline.shots,
    { clock, run: { analysis: run.analysis, lengths: new Map() } },
    {
      clock: otherClock,
      run: { analysis: beside.analysis, lengths: new Map() },
      cut: beside.review.footage.find((f) => f.id === other.footageId)?.cut,
    },
    other.lock,
  );
  const [left, right] = layout.boxes;
  const [begin, end] = [shots?.[0], shots?.at(-1)];
  if (!shots || !left || !right || !begin || !end) return 'nothingShared';
  const lanes: PlannedLane[] = [
    { run, footageId: wish.footageId, box: left, shots: timeline.shots, parts: shown.parts },
    {
      run: beside,
      footageId: other.footageId,
      box: right,
      shots,
      parts: [{ from: begin.frame, to: end.frame }],
    },
  ];
  // Whose sound it would be, nobody could tell.
  return { ...timeline, ...layout, lanes, sound: [] };
}

/** Seconds that a clip of this footage will last; null where its frames are not there. */
export function secondsAsked(
  wish: Pick<ClipWish, 'parts' | 'slow' | 'freezes'>,
  table: FrameTable,
): number | null {
  const shown = shownOf(wish, table);
  return shown && secondsOf(timelineOf(table, shown));
}

/** The wish in frames of the table; null where it asks for none, or for parts that do not follow each other. */
function shownOf(
  { parts, slow, freezes }: Pick<ClipWish, 'parts' | 'slow' | 'freezes'>,
  table: FrameTable,
): Shown | null {
  const at = (ticks: number): number => frameAt(table, pts(ticks));
  const [start, end] = [table.pts[0] ?? 0, table.pts[lastFrame(table)] ?? 0];
  const inOrder = parts.every(
    ({ from, to }, i) => from <= to && to >= start && from <= end && from > (parts[i - 1]?.to ?? -Infinity),
  );
  if (!inOrder || parts.length === 0) return null;
  const framed = parts.map(({ from, to }) => ({ from: at(from), to: at(to) }));
  if (framed.some(({ from }, i) => from <= (framed[i - 1]?.to ?? -1))) return null;
  return {
    parts: framed,
    slow: slow.map(({ from, to, speed }) => ({ from: at(from), to: at(to), speed })),
    freezes: freezes.map(({ pts: when, seconds }) => ({ frame: at(when), seconds })),
  };
}
