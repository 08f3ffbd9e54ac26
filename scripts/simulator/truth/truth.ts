import type { Paw } from './actors/footfalls.ts';
import { handlerFootfalls, pawContacts, paws } from './actors/footfalls.ts';
import { dogBodyAt } from './actors/dogBody.ts';
import { dogAt, handlerAt } from './actors/trace.ts';
import { lengthOf } from './base/exact.ts';
import { lineLengths } from './lineLengths.ts';
import type { Camera, CameraMatrix } from './camera/camera.ts';
import { cameraMatrix } from './camera/camera.ts';
import type { FrameTimes } from './frameTimes.ts';
import { secondsOf } from './frameTimes.ts';
import { conesOf } from './ground/cones.ts';
import type { Course } from './ground/equipment.ts';
import { gateOf } from './ground/gate.ts';
import type { CrossRecord, RunRecord } from './run/record.ts';

export type Seen = 'first' | 'last';

/** A moment, how a person marks it, and what the film leaves open about it. Seconds of media time. */
export interface Moment {
  readonly at: number;
  readonly seen: Seen;
  /** PTS of the frame a faultless marker picks; null where no frame can show it. */
  readonly pts: number | null;
  /** Open at the left for `first`, at the right for `last`. */
  readonly bracket: readonly [number | null, number | null];
}

function round(value: number, digits: number): number {
  const k = 10 ** digits;
  return Math.round(value * k) / k;
}

/** Ties moments to frames. */
export function momentMaker(frames: FrameTimes, origin: number): (at: number, seen: Seen) => Moment {
  const times = secondsOf(frames);
  return (runTime, seen) => {
    const at = runTime - origin;
    let low = 0;
    let high = times.length;
    // First index whose time is at or after (`first`), or strictly after (`last`) the moment.
    while (low < high) {
      const middle = (low + high) >> 1;
      const t = times[middle] ?? 0;
      if (seen === 'first' ? t >= at : t > at) high = middle;
      else low = middle + 1;
    }
    const chosen = seen === 'first' ? low : low - 1;
    const before = times[low - 1] ?? null;
    const after = times[low] ?? null;
    return { at: round(at, 6), seen, pts: frames.pts[chosen] ?? null, bracket: [before, after] };
  };
}

function jumpOrNot(run: RunRecord, place: number): { in: Seen; out: Seen } {
  const p = run.course.places[place - 1];
  const kind = run.course.obstacles.find((o) => o.id === p?.obstacleId)?.kind;
  switch (kind) {
    case 'aFrame':
    case 'dogWalk':
    case 'seeSaw':
      return { in: 'first', out: 'last' };
    case 'tunnel':
    case 'weavePoles':
      return { in: 'first', out: 'first' };
    default:
      return { in: 'last', out: 'first' };
  }
}

function crossTruth(run: RunRecord, cross: CrossRecord, moment: (at: number, seen: Seen) => Moment): object {
  const { place } = cross.act;
  const of = (kind: string): number | null =>
    run.notices.find((n) => n.kind === kind && n.place === place)?.at ?? null;
  const opt = (at: number | null, seen: Seen): Moment | null => (at === null ? null : moment(at, seen));
  const sees = jumpOrNot(run, place);
  const deadline = of('in');
  return {
    place,
    kind: cross.act.kind,
    dogSideBefore: cross.act.before,
    dogSideAfter: cross.act.after,
    cues: cross.cues.map((c) => ({
      kind: c.kind,
      begin: moment(c.begin, 'first'),
      end: moment(c.end, 'first'),
    })),
    begun: moment(cross.begun, 'first'),
    finished: opt(cross.finished, 'first'),
    dogKnewAt: cross.knownAt === null ? null : round(cross.knownAt, 6),
    committedToObstacle: opt(of('commit'), 'first'),
    takeOff: opt(of('in'), sees.in),
    landing: opt(of('out'), sees.out),
    /** Seconds from the first cue to take-off (or entry); negative: the cue came after it. */
    lead: deadline === null ? null : round(deadline - cross.begun, 6),
  };
}

export interface TruthHeader {
  readonly name: string;
  readonly dog: string;
  readonly handler: string;
  readonly film: string | null;
}

/** All that is known of a run, tied to the frames of one film of it. `origin`: run time of the first frame. */
export function truthOf(
  run: RunRecord,
  frames: FrameTimes,
  origin: number,
  camera: Camera | null,
  header: TruthHeader,
): object {
  const times = secondsOf(frames);
  const moment = momentMaker(frames, origin);
  const contacts = pawContacts(run);
  const falls = handlerFootfalls(run);
  const trying = (at: number): number => run.tries.filter((t) => t.setUp <= at).length;
  const taken = run.course.places.flatMap((place) => {
    const sees = jumpOrNot(run, place.number);
    const ins = run.notices.filter((n) => n.kind === 'in' && n.place === place.number);
    const outs = run.notices.filter((n) => n.kind === 'out' && n.place === place.number);
    const commit = run.notices.filter((n) => n.kind === 'commit' && n.place === place.number);
    return ins.map((n, i) => ({
      place: place.number,
      obstacleId: place.obstacleId,
      direction: place.reversed ? 'reversed' : 'forward',
      try: trying(n.at),
      committed: commit[0] ? moment(commit[0].at, 'first') : null,
      in: moment(n.at, sees.in),
      out: outs[i] ? moment(outs[i].at, sees.out) : null,
    }));
  });
  const obstacleAt = (place: number | null): string | null =>
    place === null ? null : (run.course.places[place - 1]?.obstacleId ?? null);
  const first = taken[0];
  const last = taken[taken.length - 1];
  const matrix: CameraMatrix | null = camera ? cameraMatrix(camera) : null;
  const column = <T>(of: (t: number) => T): T[] => times.map((t) => of(t + origin));
  const bodies = column((t) => dogBodyAt(run, contacts, t));
  const point = (p: { x: number; y: number; z: number }): number[] => [
    round(p.x, 3),
    round(p.y, 3),
    round(p.z, 3),
  ];
  const onGround = (paw: Paw, t: number): 0 | 1 =>
    contacts[paw].some((c) => c.begin <= t && t < c.end) ? 1 : 0;
  return {
    schema: 'simulator-truth',
    version: 1,
    note: 'Drawn by a simulator. Times are seconds of media time; the first frame is at 0. Metres; z is up.',
    ...header,
    seed: run.seed,
    traits: run.traits,
    courseName: run.course.name,
    frames: { timeBase: frames.timeBase, pts: frames.pts },
    camera: camera && {
      fixed: true,
      width: camera.width,
      height: camera.height,
      focalPixels: camera.focal,
      position: [camera.at.x, camera.at.y, camera.at.z],
      pan: camera.pan,
      tilt: camera.tilt,
      roll: camera.roll,
      distortion: [0, 0],
      matrix,
    },
    runClock: { from: first?.in ?? null, to: last?.out ?? null, rule: 'first take-off to last landing' },
    start: {
      tries: run.tries.map((t) => ({
        try: t.number,
        setUp: moment(t.setUp, 'first'),
        handlerLeft: moment(t.left, 'first'),
        fakes: t.fakes.map((f) => ({ begin: moment(f.begin, 'first'), end: moment(f.end, 'first') })),
        shift: t.shift === null ? null : moment(t.shift, 'first'),
        step: t.step === null ? null : moment(t.step, 'first'),
        release: t.release === null ? null : moment(t.release, 'first'),
        brokeStay: t.broken === null ? null : moment(t.broken, 'first'),
      })),
      weightShifts: run.weightShift.map((s) => ({
        begin: moment(s.begin, 'first'),
        end: moment(s.end, 'first'),
      })),
    },
    taken,
    events: [
      ...run.happened.map((h) => ({
        kind: h.kind,
        place: h.place,
        obstacleId: obstacleAt(h.place),
        try: h.try,
        moment: moment(h.at, 'first'),
      })),
      ...wideAfterLateCues(run).map((w) => ({
        kind: 'wide',
        place: w.place,
        obstacleId: obstacleAt(w.place),
        try: trying(w.at),
        widest: w.far,
        moment: moment(w.at, 'first'),
      })),
    ].sort((a, b) => a.moment.at - b.moment.at),
    crosses: run.crosses.map((c) => crossTruth(run, c, moment)),
    voice: run.said.map((s) => ({
      word: s.word,
      begin: moment(s.begin, 'first'),
      end: moment(s.end, 'first'),
    })),
    lineLengths: lineLengths(run),
    dog: {
      x: column((t) => round(dogAt(run, t).x, 4)),
      y: column((t) => round(dogAt(run, t).y, 4)),
      z: column((t) => round(dogAt(run, t).z, 4)),
      heading: column((t) => round(dogAt(run, t).heading, 4)),
      speed: column((t) => round(dogAt(run, t).speed, 3)),
      doing: column((t) => dogAt(run, t).doing),
      pawsDown: column((t) => paws.map((p) => onGround(p, t)).join('')),
      points: {
        nose: bodies.map((b) => point(b.nose)),
        withers: bodies.map((b) => point(b.withers)),
        croup: bodies.map((b) => point(b.croup)),
        leftFrontPaw: bodies.map((b) => point(b.limbs.leftFront.paw)),
        rightFrontPaw: bodies.map((b) => point(b.limbs.rightFront.paw)),
        leftHindPaw: bodies.map((b) => point(b.limbs.leftHind.paw)),
        rightHindPaw: bodies.map((b) => point(b.limbs.rightHind.paw)),
      },
    },
    handler: {
      x: column((t) => round(handlerAt(run, t).x, 4)),
      y: column((t) => round(handlerAt(run, t).y, 4)),
      feet: column((t) => round(handlerAt(run, t).feet, 4)),
      shoulders: column((t) => round(handlerAt(run, t).shoulders, 4)),
      speed: column((t) => round(handlerAt(run, t).speed, 3)),
    },
    contacts: Object.fromEntries(
      paws.map((p) => [
        p,
        contacts[p].map((c) => [c.begin - origin, c.end - origin, c.x, c.y, c.z].map((v) => round(v, 4))),
      ]),
    ),
    footfalls: Object.fromEntries(
      (['left', 'right'] as const).map((f) => [
        f,
        falls[f].map((c) => [c.begin - origin, c.end - origin, c.x, c.y, c.facing].map((v) => round(v, 4))),
      ]),
    ),
  };
}

function wideAfterLateCues(run: RunRecord): { place: number; at: number; far: number }[] {
  return run.crosses.flatMap((c) => {
    const { place } = c.act;
    const takeOff = run.notices.find((n) => n.kind === 'takeOff' && n.place === place);
    const landing = run.notices.find((n) => n.kind === 'landing' && n.place === place);
    const next = run.notices.find((n) => n.kind === 'in' && n.place === place + 1);
    const to = run.course.places[place];
    if (!takeOff || !landing || !next || !to || (c.knownAt ?? Infinity) <= takeOff.at) return [];
    const gate = gateOf(run.course, to);
    const from = dogAt(run, landing.at);
    const long = lengthOf(gate.x - from.x, gate.y - from.y);
    let far = 0;
    let at = landing.at;
    for (let t = landing.at; t < next.at; t += 0.004) {
      const d = dogAt(run, t);
      const off = Math.abs((gate.x - from.x) * (d.y - from.y) - (gate.y - from.y) * (d.x - from.x)) / long;
      if (off > far) {
        far = off;
        at = t;
      }
    }
    return far > 1.2 ? [{ place, at, far: round(far, 3) }] : [];
  });
}

/** The course as a document of its own. */
export function courseTruth(course: Course): object {
  const cones = conesOf(course);
  return {
    schema: 'simulator-course',
    version: 1,
    note: 'Metres. x along the ring, y away from the camera side, angles in radians anticlockwise from +x.',
    name: course.name,
    ring: course.ring,
    start: course.start,
    obstacles: course.obstacles.map((o) => ({
      id: o.id,
      kind: o.kind,
      nickname: o.nickname,
      x: o.x,
      y: o.y,
      angle: o.angle,
      sizes: o.sizes,
      bends: o.bends ?? null,
      numbers: course.places
        .filter((p) => p.obstacleId === o.id)
        .map((p) => ({ number: p.number, reversed: p.reversed, approach: gateOf(course, p).axis })),
    })),
    sequence: course.places.map((p) => {
      const gate = gateOf(course, p);
      const cone = cones.find((c) => c.number === p.number);
      return {
        number: p.number,
        obstacleId: p.obstacleId,
        reversed: p.reversed,
        approach: gate.axis,
        entry: [gate.x, gate.y],
        exit: [gate.exitX, gate.exitY],
        exitHeading: gate.exitHeading,
        cone: cone ? [cone.x, cone.y] : null,
      };
    }),
  };
}
