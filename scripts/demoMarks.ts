import type { Course } from '../src/course/course.ts';
import { Course as CourseSchema } from '../src/course/course.ts';
import type { Cross, Mark } from '../src/review/marks.ts';
import { Mark as MarkSchema } from '../src/review/marks.ts';
import type { CourseTruth, RunTruth, TruthMoment } from './demoTruth.ts';

/** Picks the frame a faultless marker would take for a moment; null where it is outside of the film. */
export type Pick = (moment: TruthMoment) => number | null;

/** The pick of the film's own frames, as the truth states it. */
export const ownFrames: Pick = (moment) => moment.pts;

/** The course of the truth in our own words: centres, headings in degrees, tunnels by their centre line. */
export function courseOfTruth(truth: CourseTruth): Course {
  return CourseSchema.parse({
    name: truth.name,
    ring: { width: truth.ring.length, length: truth.ring.depth },
    obstacles: truth.obstacles.map((o) => {
      // The truth gives the first pole; a stand is the middle of the equipment.
      const half =
        o.kind === 'weavePoles' ? (((o.sizes['poles'] ?? 1) - 1) * (o.sizes['spacing'] ?? 0)) / 2 : 0;
      const middle = o.bends?.[Math.floor(o.bends.length / 2)];
      return {
        id: o.id,
        kind: o.kind,
        nickname: o.nickname,
        stand: {
          x: rounded(middle?.x ?? o.x + half * Math.cos(o.angle)),
          y: rounded(middle?.y ?? o.y + half * Math.sin(o.angle)),
          headingDegrees: rounded((o.angle * 180) / Math.PI),
          ...(o.bends ? { bend: o.bends } : {}),
        },
      };
    }),
    steps: truth.sequence.map((s) => ({
      number: s.number,
      obstacleId: s.obstacleId,
      direction: s.reversed ? 'reverse' : 'forward',
    })),
  });
}

/** Crosses and marks of a run as a faultless marker would set them, with ids made of `name`. */
export function marksOfTruth(
  truth: RunTruth,
  footageId: string,
  name: string,
  pick: Pick = ownFrames,
): { marks: Mark[]; crosses: Cross[] } {
  const marks: Mark[] = [];
  const put = (moment: TruthMoment | null, rest: Record<string, unknown>): void => {
    const pts = moment && pick(moment);
    if (pts === null) return;
    const id = `${name}-${String(marks.length + 1).padStart(3, '0')}`;
    marks.push(MarkSchema.parse({ id, footageId, pts, ...rest }));
  };
  for (const t of truth.start.tries) {
    const at = { kind: 'start', try: t.try };
    put(t.setUp, { ...at, part: 'setUp' });
    for (const fake of t.fakes) put(fake.begin, { ...at, part: 'fake' });
    put(t.shift, { ...at, part: 'shift' });
    put(t.step, { ...at, part: 'step' });
    put(t.release, { ...at, part: 'release' });
  }
  for (const t of truth.taken) {
    const at = { kind: 'taken', place: t.place, try: t.try };
    put(t.in, { ...at, edge: 'in' });
    put(t.out, { ...at, edge: 'out' });
  }
  const crosses = truth.crosses.map((c): Cross => {
    const id = `${name}-cross-${c.place}`;
    const at = { kind: 'cross', crossId: id };
    for (const cue of c.cues) put(cue.begin, { ...at, part: 'cueBegins', cue: cue.kind });
    put(c.committedToObstacle, { ...at, part: 'committed' });
    put(c.takeOff, { ...at, part: 'takeOff' });
    put(c.finished, { ...at, part: 'cueEnds' });
    put(c.landing, { ...at, part: 'landing' });
    return { id, place: c.place, kind: c.kind, plannedId: `planned-${c.place}`, note: '' };
  });
  for (const e of truth.events) {
    const event = eventOf[e.kind];
    if (event) put(e.moment, { kind: 'event', event, ...(e.place === null ? {} : { place: e.place }) });
  }
  return { marks, crosses };
}

/** Events that are not already told by the start line's own marks. */
const eventOf: Record<string, string> = { barDown: 'barDown', wrongEntry: 'missedEntry', wide: 'wide' };

function rounded(n: number): number {
  return Math.round(n * 1000) / 1000;
}
