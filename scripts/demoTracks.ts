import type { Course } from '../src/course/course.ts';
import { knownPoints } from '../src/ground/knownPoints.ts';
import { CourseFit } from '../src/ground/courseFit.ts';
import { Track, type TrackMark } from '../src/track/track.ts';
import type { RunTruth } from './demoTruth.ts';
import { Doing } from './simulator/actors/dogWorld.ts';
import { randomStream, type RandomStream } from './simulator/base/random.ts';

/** How far a coach's clicks lie off, pixels along either axis, one standard deviation. */
const clickNoise = 2;
/** Points of the course that a coach clicks. */
const fitPoints = 20;
/** A foot that stands longer is clicked when it comes to rest and before it leaves, seconds. */
const standsFrom = 1;
const margin = 0.15;

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Hands that click where the film shows a place of the ground, a little beside it as hands do. */
interface Clicker {
  at(spot: Spot): TrackMark['at'] | null;
  /** A mark on the frame next to a time. */
  mark(time: number, spot: Spot): TrackMark[];
}

function clicker({ camera, frames }: RunTruth, random: RandomStream): Clicker {
  const [num, den] = frames.timeBase;
  const at = ({ x, y }: Spot): TrackMark['at'] | null => {
    const [u = 0, v = 0, w = 1] = camera.matrix.map(([a = 0, b = 0, , d = 0]) => a * x + b * y + d);
    const share = (value: number, size: number): number =>
      Math.round(((value + clickNoise * random.bell()) / size) * 1e5) / 1e5;
    const there = { x: share(u / w, camera.width), y: share(v / w, camera.height) };
    return w > 0 && [there.x, there.y].every((s) => s > 0 && s < 1) ? there : null;
  };
  return {
    at,
    mark(time, spot) {
      const tick = (time * den) / num;
      const pts = frames.pts.reduce((a, b) => (Math.abs(b - tick) < Math.abs(a - tick) ? b : a));
      const there = at(spot);
      return there ? [{ pts, at: there, contact: 'ground' }] : [];
    },
  };
}

/** The course fitted by clicks on the first frame, spread over the picture. */
export function fitOfTruth(truth: RunTruth, course: Course, footageId: string, name: string): CourseFit {
  const hands = clicker(truth, randomStream(1).branch(`${name} fit`));
  const seen = knownPoints(course).flatMap(({ part, at: spot }) => {
    const at = hands.at(spot);
    return at ? [{ part, at, pts: 0 }] : [];
  });
  const chosen = seen.slice(0, 1);
  const far = ({ at }: (typeof seen)[number]): number =>
    Math.min(...chosen.map((c) => Math.hypot(c.at.x - at.x, c.at.y - at.y)));
  while (chosen.length < Math.min(fitPoints, seen.length))
    chosen.push(seen.reduce((a, b) => (far(b) > far(a) ? b : a)));
  return CourseFit.parse({ id: `${name}-fit`, footageId, points: chosen });
}

const paws = ['leftFrontPaw', 'rightFrontPaw', 'leftHindPaw', 'rightHindPaw'] as const;

/** One front paw of the dog and one foot of the handler over the run, and all paws while she waits. */
export function tracksOfTruth(truth: RunTruth, footageId: string, name: string): Track[] {
  const hands = clicker(truth, randomStream(1).branch(`${name} tracks`));
  const made = (who: Track['who'], point: string, during: Track['during'], marks: TrackMark[]): Track =>
    Track.parse({ id: `${name}-${point}-${during}`, footageId, who, point, during, marks: alone(marks) });
  const counted = truth.start.tries.at(-1);
  const from = (counted?.release ?? truth.runClock.from).at;
  const to = truth.runClock.to.at;
  const [num, den] = truth.frames.timeBase;
  const doing = (time: number): number | undefined =>
    truth.dog.doing[truth.frames.pts.findIndex((p) => (p * num) / den >= time)];
  const touches = truth.contacts.leftFront.flatMap(([touch, lift, x, y, z]) => {
    const middle = (touch + lift) / 2;
    const hidden = [Doing.tunnel, Doing.contact, Doing.stay].includes(doing(middle) as never);
    return middle < from || middle > to || z > 0.005 || hidden ? [] : hands.mark(middle, { x, y });
  });
  const steps = truth.footfalls.left.flatMap(([touch, lift, x, y]) => {
    const [begin, end] = [Math.max(touch, from - 2), Math.min(lift, to + 0.5)];
    if (end - begin < 0.05) return [];
    const times = end - begin > standsFrom ? [begin + margin, end - margin] : [(begin + end) / 2];
    return times.flatMap((t) => hands.mark(t, { x, y }));
  });
  const waits = paws.map((point) => {
    const stands = truth.contacts[point.replace('Paw', '') as keyof RunTruth['contacts']];
    const marks = truth.start.tries.flatMap(({ setUp, step, release }) => {
      const end = release?.at ?? (step ? step.at + 1.5 : setUp.at + 3);
      return [setUp.at + 0.3, (setUp.at + end) / 2, end - 0.1].flatMap((time) => {
        const stood = stands.find(([touch, lift]) => touch <= time && time <= lift);
        return stood ? hands.mark(time, { x: stood[2], y: stood[3] }) : [];
      });
    });
    return made('dog', point, 'wait', marks);
  });
  return [
    made('dog', 'leftFrontPaw', 'run', touches),
    made('handler', 'leftFoot', 'run', steps),
    ...waits.filter((t) => t.marks.length > 0),
  ];
}

const alone = (marks: readonly TrackMark[]): TrackMark[] =>
  marks.filter((m, i) => marks.findIndex((o) => o.pts === m.pts) === i);
