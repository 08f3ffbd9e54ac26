import { clamp, direction, lengthOf, wrapAngle } from './base/exact.ts';
import { randomStream } from './base/random.ts';
import type { DogNotice, DogTraits, Happenings } from './actors/dog.ts';
import { Doing, Dog } from './actors/dog.ts';
import { Handler } from './actors/handler.ts';
import type { Act, CrossAct, CueKind, Handling, Side, Trigger } from './actors/handling.ts';
import type { Course } from './ground/equipment.ts';
import { gateOf, turnAfter } from './ground/gate.ts';
import { dogParameters, valueOf } from './parameters.ts';

/** Seconds between stored samples of a run. */
export const STEP = 1 / 250;

/** One body's way, sampled every STEP seconds. */
export interface Trace {
  readonly x: number[];
  readonly y: number[];
  readonly z: number[];
  readonly heading: number[];
  readonly speed: number[];
}

export interface Span {
  readonly begin: number;
  readonly end: number;
}

export interface CrossRecord {
  readonly act: CrossAct;
  readonly cues: { readonly kind: CueKind; readonly begin: number; readonly end: number }[];
  readonly begun: number;
  readonly knownAt: number;
  finished: number | null;
}

export interface TryRecord {
  readonly number: number;
  readonly setUp: number;
  left: number;
  readonly fakes: Span[];
  shift: number | null;
  step: number | null;
  release: number | null;
  broken: number | null;
}

export interface Happened {
  readonly kind: string;
  readonly at: number;
  readonly place: number | null;
  readonly try: number;
}

export interface RunRecord {
  readonly seed: number;
  readonly course: Course;
  readonly traits: DogTraits;
  readonly duration: number;
  readonly dog: Trace & { readonly doing: number[]; readonly tipped: number[]; readonly index: number[] };
  readonly handler: Trace & {
    readonly shoulders: number[];
    readonly arm: number[];
    readonly armSide: number[];
  };
  readonly notices: readonly (DogNotice & { readonly try: number })[];
  readonly crosses: readonly CrossRecord[];
  readonly tries: readonly TryRecord[];
  readonly happened: readonly Happened[];
  readonly said: readonly (Span & { readonly word: string })[];
  readonly weightShift: readonly Span[];
}

export interface RunOrder {
  readonly seed: number;
  readonly course: Course;
  readonly handling: Handling;
  readonly happenings: Happenings;
  readonly traits?: Partial<DogTraits>;
  readonly longest?: number;
}

/** Draws a dog's own numbers. */
export function drawTraits(seed: number, given: Partial<DogTraits> = {}): DogTraits {
  const random = randomStream(seed).branch('dog');
  const p = dogParameters;
  return {
    topSpeed: given.topSpeed ?? valueOf(p.topSpeed) * (1 + 0.05 * random.bell()),
    reaction:
      given.reaction ?? Math.max(0.16, valueOf(p.reactionMean) + valueOf(p.reactionSpread) * random.bell()),
    commitDistance: given.commitDistance ?? valueOf(p.commitDistance) * (1 + 0.1 * random.bell()),
    weaveSpeed: given.weaveSpeed ?? valueOf(p.weaveSpeed) * (1 + 0.05 * random.bell()),
  };
}

/** Runs one run from set-up to reward. Times are seconds from its beginning. */
export function simulateRun(order: RunOrder): RunRecord {
  const traits = drawTraits(order.seed, order.traits);
  return new RunInProgress(order, traits).play();
}

type Phase = 'set' | 'lead' | 'atPoint' | 'broken' | 'fetch' | 'run' | 'meet';

const turnSign = (from: Side, kind: CrossAct['kind']): number => {
  // Front: she turns toward the dog; blind and rear: away from it.
  const toDog = from === 'left' ? 1 : -1;
  return kind === 'front' ? toDog : -toDog;
};

class RunInProgress {
  private time = 0;
  private phase: Phase = 'set';
  private phaseAt = 0;
  private tryIndex = 0;
  private actIndex = 0;
  private releasedAt = Infinity;
  private ending = Infinity;
  private readonly dog: Dog;
  private readonly handler: Handler;
  private readonly gates;
  private readonly turns: number[];
  private readonly knownAt: number[];
  private readonly governed: boolean[];
  private readonly notices: (DogNotice & { try: number })[] = [];
  private readonly crosses: CrossRecord[] = [];
  private readonly tries: TryRecord[] = [];
  private readonly happened: Happened[] = [];
  private readonly said: (Span & { word: string })[] = [];
  private readonly weightShift: Span[] = [];
  private readonly order: RunOrder;
  private readonly traits: DogTraits;

  constructor(order: RunOrder, traits: DogTraits) {
    this.order = order;
    this.traits = traits;
    const { course } = order;
    this.gates = course.places.map((place) => gateOf(course, place));
    this.turns = this.gates.map((gate, i) => {
      const next = this.gates[i + 1];
      return next ? turnAfter(gate, next) : 0;
    });
    this.knownAt = this.gates.map(() => Infinity);
    this.governed = this.gates.map(() => false);
    for (const act of order.handling.acts) if (act.do === 'cross') this.governed[act.place - 1] = true;
    this.dog = new Dog(course.start, traits, order.happenings, {
      gates: this.gates,
      turns: this.turns,
      knowsNext: (i) => this.time >= (this.knownAt[i] ?? Infinity) || i < 0,
      notice: (notice) => this.hear(notice),
    });
    const beside = { x: course.start.x + 0.1, y: course.start.y + 0.75 };
    this.handler = new Handler(beside, course.start.heading);
    this.beginTry();
  }

  private hear(notice: DogNotice): void {
    this.notices.push({ ...notice, try: this.tryIndex + 1 });
    if (notice.kind === 'barDown' || notice.kind === 'wrongEntry')
      this.event(notice.kind, notice.at, notice.place);
    const i = notice.place - 1;
    if (notice.kind === 'commit' && !this.governed[i])
      this.knownAt[i] = Math.min(this.knownAt[i] ?? Infinity, notice.at);
  }

  private event(kind: string, at: number, place: number | null): void {
    this.happened.push({ kind, at, place, try: this.tryIndex + 1 });
  }

  private beginTry(): void {
    this.phase = 'set';
    this.phaseAt = this.time;
    this.tries.push({
      number: this.tryIndex + 1,
      setUp: this.time,
      left: this.time,
      fakes: [],
      shift: null,
      step: null,
      release: null,
      broken: null,
    });
    this.dog.doing = Doing.stay;
    this.dog.speed = 0;
  }

  play(): RunRecord {
    const trace = (): { x: number[]; y: number[]; z: number[]; heading: number[]; speed: number[] } => ({
      x: [],
      y: [],
      z: [],
      heading: [],
      speed: [],
    });
    const dog = { ...trace(), doing: [] as number[], tipped: [] as number[], index: [] as number[] };
    const handler = { ...trace(), shoulders: [] as number[], arm: [] as number[], armSide: [] as number[] };
    const longest = this.order.longest ?? 120;
    for (let n = 0; n * STEP < longest && this.time < this.ending; n++) {
      this.time = n * STEP;
      const d = this.dog;
      dog.x.push(d.x);
      dog.y.push(d.y);
      dog.z.push(d.z);
      dog.heading.push(d.heading);
      dog.speed.push(d.speed);
      dog.doing.push(d.doing);
      dog.tipped.push(d.tipped);
      dog.index.push(d.index);
      const h = this.handler;
      handler.x.push(h.x);
      handler.y.push(h.y);
      handler.z.push(0);
      handler.heading.push(h.feet);
      handler.speed.push(h.speed);
      handler.shoulders.push(h.shoulders);
      handler.arm.push(h.arm);
      handler.armSide.push(h.armSide);
      this.direct();
      this.dog.step(this.time, STEP);
      this.handler.step(this.time, STEP, this.dog);
      this.watchCrosses();
    }
    return {
      seed: this.order.seed,
      course: this.order.course,
      traits: this.traits,
      duration: (dog.x.length - 1) * STEP,
      dog,
      handler,
      notices: this.notices,
      crosses: this.crosses,
      tries: this.tries,
      happened: this.happened,
      said: this.said,
      weightShift: this.weightShift,
    };
  }

  private say(word: string, at: number, long: number): void {
    this.said.push({ word, begin: at, end: at + long });
  }

  private direct(): void {
    const plan = this.order.handling.tries[this.tryIndex];
    const record = this.tries[this.tryIndex];
    const since = this.time - this.phaseAt;
    if (!plan || !record) return;
    switch (this.phase) {
      case 'set':
        if (since < 1.1) return;
        record.left = this.time;
        this.say('wait', this.time - 0.25, 0.25);
        this.handler.go(plan.leadOut, plan.leadSpeed);
        this.enter('lead');
        return;
      case 'lead':
        if (plan.breakAfter !== null && since >= plan.breakAfter) return this.breakStay(record);
        if (this.handler.arrived) this.enter('atPoint');
        return;
      case 'atPoint':
        return this.atPoint(plan, record, since);
      case 'broken':
        if (since > 0.45 && this.handler.arrived === false && since < 0.45 + STEP * 1.5) this.fetch();
        if (since > 0.45 + STEP * 2) this.enter('fetch');
        return;
      case 'fetch':
        return this.fetching(since);
      case 'run':
        return this.running(record);
      case 'meet':
        return;
    }
  }

  private enter(phase: Phase): void {
    this.phase = phase;
    this.phaseAt = this.time;
  }

  private breakStay(record: TryRecord): void {
    record.shift = this.time - 0.14;
    record.step = this.time;
    record.broken = this.time;
    this.weightShift.push({ begin: this.time - 0.14, end: this.time });
    this.event('brokeStay', this.time, null);
    const s = this.order.course.start;
    this.dog.goal = { x: s.x + 2.2, y: s.y + 0.15, speed: 2.6, stopWithin: 0.5 };
    this.dog.doing = Doing.gallop;
    this.enter('broken');
  }

  private fetch(): void {
    const s = this.order.course.start;
    this.say('oops', this.time, 0.3);
    this.handler.go([{ x: s.x + 2.9, y: s.y + 0.75 }], 4.2);
  }

  private fetching(since: number): void {
    const s = this.order.course.start;
    const near = lengthOf(this.handler.x - this.dog.x, this.handler.y - this.dog.y) < 1.7;
    const home = lengthOf(this.dog.x - s.x, this.dog.y - s.y);
    if (near && this.dog.doing === Doing.stand && home > 0.6) {
      this.handler.go([{ x: s.x - 0.35, y: s.y + 0.75 }], 2.4);
      this.dog.goal = { x: s.x - 0.55, y: s.y + 0.02, speed: 2.0, stopWithin: 0.28 };
      this.dog.doing = Doing.walk;
      return;
    }
    if (this.dog.doing === Doing.stand && home <= 0.75 && since > 1) {
      const off = wrapAngle(s.heading - this.dog.heading);
      this.dog.heading = wrapAngle(this.dog.heading + clamp(off, -4.5 * STEP, 4.5 * STEP));
      this.handler.turnFeet(this.time, this.time + 0.01, 0);
      if (Math.abs(off) < 0.02 && this.handler.arrived) {
        this.dog.goal = null;
        this.tryIndex++;
        this.handler.go([{ x: this.dog.x + 0.15, y: s.y + 0.75 }], 1.2);
        this.beginTry();
      }
    }
  }

  private fakeCount = 0;

  private atPoint(plan: Handling['tries'][number], record: TryRecord, since: number): void {
    const due = plan.fakes[this.fakeCount];
    if (due !== undefined && since >= due) {
      this.fakeCount++;
      const span = { begin: this.time, end: this.time + 0.55 };
      record.fakes.push(span);
      this.event('fake', this.time, null);
      this.weightShift.push({ begin: this.time + 0.2, end: this.time + 0.75 });
    }
    const fake = record.fakes[record.fakes.length - 1];
    const raised = fake && this.time < fake.end ? 1 : 0;
    this.handler.arm += clamp(raised - this.handler.arm, -4 * STEP, 4 * STEP);
    if (since < plan.releaseAfter) return;
    record.release = this.time;
    this.releasedAt = this.time;
    this.event('release', this.time, null);
    this.say('release', this.time, 0.26);
    this.enter('run');
  }

  private running(record: TryRecord): void {
    const goes = this.releasedAt + this.traits.reaction;
    const want = this.time < this.releasedAt + 0.5 ? 1 : 0.55;
    this.handler.arm += clamp(want - this.handler.arm, -4 * STEP, 4 * STEP);
    if (record.step === null && this.time >= goes) {
      record.shift = goes - 0.09;
      record.step = this.time;
      this.weightShift.push({ begin: goes - 0.09, end: goes });
      this.dog.doing = Doing.gallop;
      this.dog.goal = null;
    }
    for (;;) {
      const act = this.order.handling.acts[this.actIndex];
      if (!act || !this.due(act.when)) break;
      this.actIndex++;
      this.begin(act);
    }
    if (this.dog.finished) {
      const meet = this.order.handling.meet;
      this.handler.go([meet], 4.2);
      this.dog.goal = { x: meet.x + 0.5, y: meet.y - 0.3, speed: 4, stopWithin: 0.9 };
      this.say('good', this.time + 0.5, 0.5);
      this.ending = this.time + 3.4;
      this.enter('meet');
    }
  }

  private due(when: Trigger): boolean {
    switch (when.on) {
      case 'release':
        return this.time >= this.releasedAt + when.delay;
      case 'arrived':
        return this.handler.arrived;
      case 'event':
        return this.happened.some((h) => h.kind === when.kind && this.time >= h.at + when.delay);
      case 'dog':
        return this.notices.some(
          (n) => n.kind === when.moment && n.place === when.place && this.time >= n.at + when.delay,
        );
      case 'expected': {
        const taken = this.notices.find((n) => n.kind === 'in' && n.place === when.place);
        if (taken) return this.time >= taken.at - when.lead;
        return this.dog.timeToTake(when.place - 1) <= when.lead;
      }
    }
  }

  private begin(act: Act): void {
    if (act.do === 'go') return this.handler.go(act.to, act.speed);
    if (act.do === 'say') return this.say(act.word, this.time, 0.24);
    const cues: CrossRecord['cues'][number][] = [];
    const at = (kind: CueKind): number | null => {
      const offset = act.cues[kind];
      return offset === null ? null : this.time + offset;
    };
    const feet = at('feet');
    const shoulders = at('shoulders');
    const slowing = at('slowing');
    const voice = at('voice');
    const by = this.turnBy(act);
    if (slowing !== null) {
      this.handler.slowDown(slowing, slowing + 0.4);
      cues.push({ kind: 'slowing', begin: slowing, end: slowing + 0.4 });
    }
    if (feet !== null) {
      this.handler.turnFeet(feet, feet + act.turnTime, by);
      cues.push({ kind: 'feet', begin: feet, end: feet + act.turnTime });
    }
    if (shoulders !== null) {
      this.handler.turnShoulders(shoulders, shoulders + act.turnTime, by);
      cues.push({ kind: 'shoulders', begin: shoulders, end: shoulders + act.turnTime });
    }
    if (voice !== null) {
      this.say('turn', voice, 0.28);
      cues.push({ kind: 'voice', begin: voice, end: voice + 0.28 });
    }
    this.handler.go(act.through, act.speed);
    cues.sort((a, b) => a.begin - b.begin);
    const shown = cues[0]?.begin ?? this.time;
    const known = shown + this.traits.reaction;
    this.knownAt[act.place - 1] = known;
    this.crosses.push({ act, cues, begun: shown, knownAt: known, finished: null });
  }

  private turnBy(act: CrossAct): number {
    const from = this.gates[act.place - 1];
    const to = this.gates[act.place];
    if (!from || !to) return 0;
    const wanted = direction(to.y - from.exitY, to.x - from.exitX);
    const short = wrapAngle(wanted - this.handler.feet);
    if (act.kind === 'rear') return short;
    const sign = turnSign(act.before, act.kind);
    return Math.sign(short) === sign || Math.abs(short) < 0.3 ? short : short + sign * 2 * Math.PI;
  }

  /** A cross is finished when she is off the dog's line on the new side and facing along it. */
  private watchCrosses(): void {
    const cross = this.crosses[this.crosses.length - 1];
    if (!cross || cross.finished !== null) return;
    const from = this.gates[cross.act.place - (cross.act.kind === 'rear' ? 2 : 1)];
    const to = this.gates[cross.act.place + (cross.act.kind === 'rear' ? -1 : 0)];
    if (!from || !to) return;
    const dx = to.x - from.exitX;
    const dy = to.y - from.exitY;
    const long = lengthOf(dx, dy);
    const left = (dx * (this.handler.y - from.exitY) - dy * (this.handler.x - from.exitX)) / long;
    // Dog on her left means that she is to the right of the dog's line.
    const clear = cross.act.after === 'left' ? -left : left;
    const ahead = Math.abs(wrapAngle(this.handler.feet - direction(dy, dx)));
    if (clear > 0.4 && ahead < 1.2) cross.finished = this.time + STEP;
  }
}
