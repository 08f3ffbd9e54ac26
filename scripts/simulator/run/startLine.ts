import type { Dog } from '../actors/dog.ts';
import { Doing } from '../actors/dogWorld.ts';
import type { Handler } from '../actors/handler.ts';
import type { StartTry } from '../actors/handling.ts';
import { clamp, lengthOf, wrapAngle } from '../base/exact.ts';
import type { RandomStream } from '../base/random.ts';
import type { Course } from '../ground/equipment.ts';
import { dogParameters, valueOf } from '../parameters.ts';
import type { Happened, Said, Span, TryRecord } from './record.ts';
import { STEP } from './record.ts';

export interface StartStage {
  readonly course: Course;
  readonly dog: Dog;
  readonly handler: Handler;
  readonly said: Said[];
  readonly happened: Happened[];
  readonly weightShift: Span[];
  readonly random: RandomStream;
  readonly natural: boolean;
  readonly reaction: number;
}

type Phase = 'set' | 'lead' | 'atPoint' | 'broken' | 'fetch' | 'walkBack' | 'released';

/** From set-up to the first step of the run: stays, fakes, a broken stay and the way back to another try. */
export class StartLine {
  readonly tries: TryRecord[] = [];
  releasedAt = Infinity;
  private phase: Phase = 'set';
  private phaseAt = 0;
  private fakeCount = 0;
  private breaksAt = Infinity;
  private readonly plan: readonly StartTry[];
  private readonly stage: StartStage;

  constructor(plan: readonly StartTry[], stage: StartStage) {
    this.plan = plan;
    this.stage = stage;
    this.beginTry(0);
  }

  get tryNumber(): number {
    return this.tries.length;
  }

  /** True from the dog's first step of the run on. */
  get running(): boolean {
    return this.phase === 'released' && this.current().step !== null;
  }

  get isReleased(): boolean {
    return this.phase === 'released';
  }

  private current(): TryRecord {
    const last = this.tries[this.tries.length - 1];
    if (!last) throw new Error('A run has at least one try.');
    return last;
  }

  private planned(): StartTry {
    // More tries than planned happen when stays break by chance: the last plan is repeated.
    const plan = this.plan[Math.min(this.tries.length, this.plan.length) - 1];
    if (!plan) throw new Error('A handling needs at least one try at the start.');
    return plan;
  }

  private enter(phase: Phase, time: number): void {
    this.phase = phase;
    this.phaseAt = time;
  }

  private event(kind: string, at: number): void {
    this.stage.happened.push({ kind, at, place: null, try: this.tries.length });
  }

  private beginTry(time: number): void {
    const number = this.tries.length + 1;
    this.tries.push({
      number,
      setUp: time,
      left: time,
      fakes: [],
      shift: null,
      step: null,
      release: null,
      broken: null,
    });
    this.fakeCount = 0;
    this.breaksAt = Infinity;
    this.stage.dog.doing = Doing.stay;
    this.stage.dog.speed = 0;
    this.stage.dog.goals = [];
    this.enter('set', time);
  }

  direct(time: number): void {
    const since = time - this.phaseAt;
    const { handler, said } = this.stage;
    switch (this.phase) {
      case 'set':
        if (since < 1.1) return;
        this.current().left = time;
        said.push({ word: 'wait', begin: time - 0.25, end: time });
        handler.go(this.planned().leadOut, this.planned().leadSpeed);
        this.drawBreak(time);
        this.enter('lead', time);
        return;
      case 'lead':
        if (time >= this.breaksAt) return this.breakStay(time);
        if (handler.arrived) this.enter('atPoint', time);
        return;
      case 'atPoint':
        return this.atPoint(time, since);
      case 'broken':
        if (since < 0.45) return;
        said.push({ word: 'oops', begin: time, end: time + 0.3 });
        handler.go([{ x: this.stage.course.start.x + 2.9, y: this.stage.course.start.y + 0.75 }], 4.2);
        this.enter('fetch', time);
        return;
      case 'fetch':
        return this.fetch(time);
      case 'walkBack':
        return this.walkBack(time);
      case 'released':
        return this.afterRelease(time);
    }
  }

  private drawBreak(time: number): void {
    const planned = this.planned().breakAfter;
    if (planned !== null) this.breaksAt = time + planned;
    if (!this.stage.natural || this.tries.length > 2) return;
    const hazard = valueOf(dogParameters.breakHazard);
    // Exponential waiting time, in steps of a tenth of a second.
    const random = this.stage.random.branch(`stay ${this.tries.length}`);
    for (let t = 0.6; t < 8; t += 0.1) {
      if (random.chance(hazard * 0.1)) {
        this.breaksAt = Math.min(this.breaksAt, time + t);
        return;
      }
    }
  }

  private breakStay(time: number): void {
    const record = this.current();
    record.shift = time - 0.14;
    record.step = time;
    record.broken = time;
    this.stage.weightShift.push({ begin: time - 0.14, end: time });
    this.event('brokeStay', time);
    const s = this.stage.course.start;
    this.stage.dog.goals = [{ x: s.x + 2.2, y: s.y + 0.15, speed: 2.6, within: 0.5, stand: true }];
    this.stage.dog.doing = Doing.gallop;
    this.stage.handler.arm = 0;
    this.enter('broken', time);
  }

  private fetch(time: number): void {
    const { dog, handler, course } = this.stage;
    const near = lengthOf(handler.x - dog.x, handler.y - dog.y) < 1.7;
    if (!near || dog.doing !== Doing.stand) return;
    const s = course.start;
    handler.go([{ x: s.x - 0.35, y: s.y + 0.75 }], 2.4);
    dog.goals = [{ x: s.x - 0.55, y: s.y + 0.02, speed: 2, within: 0.28, stand: true }];
    dog.doing = Doing.walk;
    this.enter('walkBack', time);
  }

  private walkBack(time: number): void {
    const { dog, handler, course } = this.stage;
    if (dog.doing !== Doing.stand) return;
    const off = wrapAngle(course.start.heading - dog.heading);
    dog.heading = wrapAngle(dog.heading + clamp(off, -4.5 * STEP, 4.5 * STEP));
    if (Math.abs(off) > 0.02 || !handler.arrived) return;
    handler.go([{ x: dog.x + 0.15, y: course.start.y + 0.75 }], 1.2);
    this.beginTry(time);
  }

  private atPoint(time: number, since: number): void {
    const plan = this.planned();
    const record = this.current();
    const { handler, weightShift } = this.stage;
    if (time >= this.breaksAt) return this.breakStay(time);
    const due = plan.fakes[this.fakeCount];
    if (due !== undefined && since >= due) {
      this.fakeCount++;
      record.fakes.push({ begin: time, end: time + 0.55 });
      this.event('fake', time);
      const chance = valueOf(dogParameters.breakAtFake);
      const label = `fake ${this.tries.length} ${this.fakeCount}`;
      if (this.stage.natural && this.stage.random.branch(label).chance(chance)) {
        this.breaksAt = Math.min(this.breaksAt, time + this.stage.reaction);
      } else {
        weightShift.push({ begin: time + 0.2, end: time + 0.75 });
      }
    }
    const fake = record.fakes[record.fakes.length - 1];
    const raised = fake && time < fake.end ? 1 : 0;
    handler.arm += clamp(raised - handler.arm, -4 * STEP, 4 * STEP);
    if (since < plan.releaseAfter) return;
    record.release = time;
    this.releasedAt = time;
    this.event('release', time);
    this.stage.said.push({ word: 'release', begin: time, end: time + 0.26 });
    this.enter('released', time);
  }

  private afterRelease(time: number): void {
    const { handler, dog, weightShift } = this.stage;
    const record = this.current();
    const want = time < this.releasedAt + 0.5 ? 1 : 0.55;
    handler.arm += clamp(want - handler.arm, -4 * STEP, 4 * STEP);
    if (record.step !== null || time < this.releasedAt + this.stage.reaction) return;
    record.shift = time - 0.09;
    record.step = time;
    weightShift.push({ begin: time - 0.09, end: time });
    dog.doing = Doing.gallop;
    dog.goals = [];
  }
}
