import type { Course } from '../../../../src/course/course.ts';
import type { PictureSize } from '../../../../src/course/pictureLay.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { clipFit, fitHolding, type ClipFit } from '../../../../src/ground/clipFit.ts';
import type { CourseFit, FitPoint } from '../../../../src/ground/courseFit.ts';
import type { Fit, JudgedPoint } from '../../../../src/ground/fit.ts';
import { knownPoints, type KnownPoint } from '../../../../src/ground/knownPoints.ts';
import { partKey } from '../../../../src/ground/parts.ts';
import { predictions, type Predicted } from '../../../../src/ground/predict.ts';
import type { Place } from '../look/magnifier.ts';
import { piecesOf, pointsFor, type Stretch } from './suggest.ts';

/** What a scene is made of. */
interface SceneParts {
  /** Built by its rule book. */
  readonly course: Course;
  readonly dialect: 'british' | 'american';
  readonly fits: readonly CourseFit[];
  readonly footageId: string;
  readonly pts: number;
  /** The clip's upright picture, pixels. */
  readonly picture: PictureSize;
  readonly stretch: Stretch | null;
}

/** A part of the course on the picture as far as anybody knows where. */
export interface PointShown {
  readonly known: KnownPoint;
  readonly state: 'clicked' | 'aside' | 'agreed' | 'proposed' | 'outside' | 'open';
  /** Where it is drawn, fractions of the picture. */
  readonly at: Place | null;
  /** The click that counts in the fit, judged by the others. */
  readonly judged: JudgedPoint | null;
}

/** The course and the picture at a frame: what is clicked, what follows from it, what is still asked for. */
export interface Scene extends Pick<SceneParts, 'course' | 'footageId' | 'picture' | 'stretch'> {
  readonly known: readonly KnownPoint[];
  /** The stored fit that holds here. */
  readonly held: CourseFit | null;
  readonly clip: ClipFit;
  /** The camera, where it is known and still stands. */
  readonly fit: Fit | null;
  /** The camera has been moved by this frame. */
  readonly movedHere: boolean;
  /** The points asked for, as they lie on the picture. */
  readonly points: readonly PointShown[];
  /** Points that are not asked for now, but were clicked: they count all the same. */
  readonly others: readonly PointShown[];
  /** Places of the ground that are to be measured. */
  readonly places: readonly GroundPoint[];
}

/** What of a scene does not change from frame to frame. */
interface Solved {
  readonly from: Omit<SceneParts, 'fits' | 'pts'> & {
    readonly held: CourseFit | null;
  };
  readonly known: readonly KnownPoint[];
  readonly asked: readonly KnownPoint[];
  readonly clip: ClipFit;
  readonly places: readonly GroundPoint[];
  readonly predicted: ReadonlyMap<string, Predicted>;
}

/**
 * Works scenes out. As long as one fit holds, the camera is worked out once; and the scene stays the same one from
 * frame to frame until it shows something else, so that nothing is drawn anew while the run plays.
 */
export function sceneMaker(): (parts: SceneParts) => Scene {
  let solved: Solved | null = null;
  let last: { readonly solved: Solved; readonly passed: number; readonly scene: Scene } | null = null;
  return ({ course, dialect, picture, stretch, fits, footageId, pts }) => {
    const from = {
      course,
      dialect,
      picture,
      stretch,
      footageId,
      held: fitHolding(fits, footageId, pts) ?? null,
    };
    const keys = Object.keys(from) as (keyof typeof from)[];
    const before = solved?.from;
    const same = solved && before && keys.every((k) => before[k] === from[k]);
    const now = same && solved ? solved : solvedOf(from);
    solved = now;
    // Frames on which something was clicked, and which of them lie behind: nothing else of a scene goes by the frame.
    const passed = new Set(from.held?.points.flatMap((p) => (p.pts <= pts ? [p.pts] : []))).size;
    if (last?.solved === now && last.passed === passed) return last.scene;
    const scene = sceneAt(now, pts);
    last = { solved: now, passed, scene };
    return scene;
  };
}

function sceneAt({ from, known, asked, clip, places, predicted }: Solved, pts: number): Scene {
  const movedHere = clip.off?.bump.verdict === 'moved' && pts >= clip.off.pts;
  const fit = clip.result.fitted && !movedHere ? clip.result : null;
  const show = (k: KnownPoint): PointShown => pointShown(k, pts, from, fit, predicted.get(k.id));
  const points = asked.map(show);
  const others = known.filter((k) => clip.counted.has(k.id) && !asked.includes(k)).map(show);
  const { course, footageId, picture, stretch, held } = from;
  return { course, footageId, picture, stretch, known, held, clip, fit, movedHere, points, others, places };
}

function solvedOf(from: Solved['from']): Solved {
  const { course, dialect, picture, stretch, held } = from;
  const known = knownPoints(course, dialect);
  const area = areaOf(course, stretch, known);
  const clip = clipFit(held ?? { points: [] }, known, picture, { area });
  const candidates = known.map((k) => ({ id: k.id, ground: k.at }));
  const seen = clip.result.fitted ? predictions(clip.result, candidates) : [];
  return {
    from,
    known,
    asked: pointsFor(known, course, stretch),
    clip,
    places: placesOf(course, stretch),
    predicted: new Map(seen.map((p) => [p.id, p])),
  };
}

function pointShown(
  known: KnownPoint,
  pts: number,
  { picture, held }: Solved['from'],
  fit: Fit | null,
  predicted: Predicted | undefined,
): PointShown {
  const judged = fit?.points.find((p) => p.id === known.id) ?? null;
  const mine = held?.points.filter((p) => partKey(p.part) === known.id) ?? [];
  const click = pointOf(mine, pts);
  if (click) {
    const aside = judged?.used === false;
    return {
      known,
      judged,
      at: click.at,
      state: click.agreed ? 'agreed' : aside ? 'aside' : 'clicked',
    };
  }
  if (!fit) return { known, judged, at: null, state: 'open' };
  if (!predicted) return { known, judged, at: null, state: 'outside' };
  const at = { x: predicted.pixel.x / picture.width, y: predicted.pixel.y / picture.height };
  return predicted.inPicture
    ? { known, judged, at, state: 'proposed' }
    : { known, judged, at: null, state: 'outside' };
}

/** Of the clicks on a part the one of this frame, else the last before it, else the first. */
function pointOf(points: readonly FitPoint[], pts: number): FitPoint | undefined {
  const sorted = points.toSorted((a, b) => a.pts - b.pts);
  return sorted.findLast((p) => p.pts <= pts) ?? sorted[0];
}

/** Rows and columns of places over the ground that is to be measured. */
const grid = 6;

/** Places of the ground that matter: along the stretch, or all over the ring. */
function placesOf(course: Course, stretch: Stretch | null): readonly GroundPoint[] {
  const stands = standsOf(course, stretch);
  if (stretch) return along(stands);
  const { from, to } = groundOf(course);
  return Array.from({ length: grid * grid }, (_, i) => ({
    x: from.x + ((i % grid) + 0.5) * ((to.x - from.x) / grid),
    y: from.y + (Math.floor(i / grid) + 0.5) * ((to.y - from.y) / grid),
  }));
}

/** Points on the way from each obstacle of a stretch to the next. */
function along(stands: readonly GroundPoint[]): readonly GroundPoint[] {
  return stands.flatMap((a, i) => {
    const b = stands[i + 1];
    return b
      ? [0, 0.25, 0.5, 0.75].map((t) => ({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) }))
      : [a];
  });
}

function standsOf(course: Course, stretch: Stretch | null): readonly GroundPoint[] {
  return piecesOf(course, stretch).flatMap((id) => {
    const stand = course.obstacles.find((o) => o.id === id)?.stand;
    return stand ? [{ x: stand.x, y: stand.y }] : [];
  });
}

/** Points around the ground that the warning of bunched points goes by. */
function areaOf(
  course: Course,
  stretch: Stretch | null,
  known: readonly KnownPoint[],
): readonly GroundPoint[] {
  return stretch ? pointsFor(known, course, stretch).map((k) => k.at) : standsOf(course, null);
}

/** The rectangle of the ground that a course takes up: its ring, else what stands on it and two metres around. */
export function groundOf(course: Course): { readonly from: GroundPoint; readonly to: GroundPoint } {
  const { ring } = course;
  if (ring) return { from: { x: 0, y: 0 }, to: { x: ring.width, y: ring.length } };
  const stands = course.obstacles.flatMap((o) => (o.stand ? [o.stand] : []));
  const [xs, ys] = [stands.map((s) => s.x), stands.map((s) => s.y)];
  return {
    from: { x: Math.min(...xs) - 2, y: Math.min(...ys) - 2 },
    to: { x: Math.max(...xs) + 2, y: Math.max(...ys) + 2 },
  };
}
