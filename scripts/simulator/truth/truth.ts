import type { Paw } from '../actors/footfalls.ts';
import { handlerFootfalls, pawContacts, paws } from '../actors/footfalls.ts';
import { dogBodyAt } from '../actors/dogBody.ts';
import { dogAt, handlerAt } from '../actors/trace.ts';
import { lengthOf } from '../base/exact.ts';
import type { Counterfactual } from './counterfactual.ts';
import { lineLengths } from './lineLengths.ts';
import type { Moment, MomentMaker, Seen } from './moments.ts';
import { momentMaker, round } from './moments.ts';
import type { CameraAt } from '../camera/path.ts';
import { frameMatrices, seenInFrame } from '../camera/path.ts';
import type { Exposures } from '../film/order.ts';
import { gateOf } from '../ground/gate.ts';
import type { CrossRecord, RunRecord } from '../run/record.ts';

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

function crossTruth(run: RunRecord, cross: CrossRecord, moment: MomentMaker): object {
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

/** What else a truth may hold. */
export interface TruthExtras {
  /** Positions and body points for every frame; without them a truth is small and quick to make. */
  readonly perFrame: boolean;
  readonly counterfactuals: readonly Counterfactual[];
}

function cameraTruth(path: CameraAt, captured: readonly number[]): object {
  const camera = path.at(captured[0] ?? 0);
  const shared = {
    fixed: path.fixed,
    width: path.width,
    height: path.height,
    distortion: [path.lens.k1, path.lens.k2],
    readout: path.readout,
  };
  if (path.fixed) {
    return {
      ...shared,
      focalPixels: camera.focal,
      position: [camera.at.x, camera.at.y, camera.at.z],
      pan: camera.pan,
      tilt: camera.tilt,
      roll: camera.roll,
      matrix: frameMatrices(path, 0).top,
    };
  }
  const frames = captured.map((t) => frameMatrices(path, t));
  return {
    ...shared,
    focalPixels: frames.map((f) => round(f.camera.focal, 4)),
    top: frames.map((f) => f.top.flat()),
    bottom: frames.map((f) => f.bottom.flat()),
  };
}

/** Seconds after each frame's time at which the dog's rows are read. */
export function readAfter(run: RunRecord, path: CameraAt, captured: readonly number[]): number[] | null {
  if (path.readout === 0) return null;
  return captured.map((t) => {
    const d = dogAt(run, t);
    const seen = seenInFrame(frameMatrices(path, t), { x: d.x, y: d.y, z: d.z });
    return path.readout * (Math.min(1, Math.max(0, seen.v / path.height)) - 0.5);
  });
}

/** Does media time run as the run does? */
function sameClock(exposures: Exposures): boolean {
  const { frames, captured } = exposures;
  const [num, den] = frames.timeBase;
  const origin = captured[0] ?? 0;
  return captured.every((t, i) => Math.abs(t - origin - ((frames.pts[i] ?? 0) * num) / den) < 1e-6);
}

/** All that is known of a run, tied to the frames of one film of it (or to frames that nobody drew: `path` null). */
export function truthOf(
  run: RunRecord,
  exposures: Exposures,
  path: CameraAt | null,
  header: TruthHeader,
  extras: TruthExtras,
): object {
  const { frames, captured } = exposures;
  const origin = captured[0] ?? 0;
  const late = path ? readAfter(run, path, captured) : null;
  const moment = momentMaker(exposures, late);
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
  const column = <T>(of: (t: number) => T): T[] => captured.map((t, i) => of(t + (late?.[i] ?? 0)));
  const point = (p: { x: number; y: number; z: number }): number[] => [
    round(p.x, 3),
    round(p.y, 3),
    round(p.z, 3),
  ];
  const onGround = (paw: Paw, t: number): 0 | 1 =>
    contacts[paw].some((c) => c.begin <= t && t < c.end) ? 1 : 0;
  const positions = (): object => {
    const bodies = column((t) => dogBodyAt(run, contacts, t));
    return {
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
    };
  };
  return {
    schema: 'simulator-truth',
    version: 2,
    note: 'Drawn by a simulator. Times are seconds of media time; the first frame is at 0. Metres; z is up.',
    ...header,
    seed: run.seed,
    traits: run.traits,
    courseName: run.course.name,
    footing: run.course.footing ?? 'dryGrass',
    frames: { timeBase: frames.timeBase, pts: frames.pts },
    camera: path && cameraTruth(path, captured),
    captured: {
      from: round(origin, 6),
      sameAsMedia: sameClock(exposures),
      seconds: sameClock(exposures) ? null : captured,
    },
    readAfter: late?.map((v) => round(v, 6)) ?? null,
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
    counterfactuals: extras.counterfactuals,
    ...(extras.perFrame ? positions() : {}),
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
