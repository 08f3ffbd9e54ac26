import { clamp, cosine, direction, lengthOf, mix, sine, smoothStep, wrapAngle } from '../base/exact.ts';
import type { Gate } from '../ground/gate.ts';
import { surfaceHeight } from '../ground/gate.ts';
import type { TunnelLine } from '../ground/tunnelLine.ts';
import { tunnelLine } from '../ground/tunnelLine.ts';
import { dogParameters, gravity, valueOf } from '../parameters.ts';

/** What the dog is doing; recorded with every sample. */
export const Doing = {
  stay: 0,
  gallop: 1,
  flight: 2,
  tunnel: 3,
  weave: 4,
  contact: 5,
  walk: 6,
  stand: 7,
} as const;
export type DoingNow = (typeof Doing)[keyof typeof Doing];

/** One dog's own numbers. */
export interface DogTraits {
  readonly topSpeed: number;
  readonly reaction: number;
  readonly commitDistance: number;
  readonly weaveSpeed: number;
}

/** Things a story prescribes, so that a film can tell them; the rest follows from the models. */
export interface Happenings {
  /** Places at which she rises too little and the bar falls. */
  readonly lowOver: readonly number[];
  /** Places (weave poles) entered at the second gap first. */
  readonly wrongEntry: readonly number[];
}

export type DogNotice =
  | {
      readonly kind: 'commit' | 'in' | 'out' | 'takeOff' | 'landing';
      readonly place: number;
      readonly at: number;
    }
  | { readonly kind: 'wrongEntry' | 'barDown'; readonly place: number; readonly at: number };

export interface DogWorld {
  readonly gates: readonly Gate[];
  /** Turn after each gate, radians, signed. */
  readonly turns: readonly number[];
  /** Does she know where to go after the place with this index? */
  knowsNext(index: number): boolean;
  notice(notice: DogNotice): void;
}

interface Flight {
  readonly from: number;
  readonly time: number;
  readonly x: number;
  readonly y: number;
  readonly rise: number;
  readonly low: boolean;
  readonly barAt: number;
  struck: boolean;
}

interface Passage {
  along: number;
  readonly lateral: number;
  readonly slope: number;
  readonly end: number;
  readonly wrong: boolean;
  readonly line: TunnelLine | null;
  entered: boolean;
}

const NOSE = 0.72;
const STEP_ON = 0.4;
const STEP_OFF = 0.46;

/** The dog as a body that steers, gathers, flies and takes equipment. Advance it with `step`. */
export class Dog {
  x: number;
  y: number;
  z: number;
  heading: number;
  speed = 0;
  doing: DoingNow = Doing.stay;
  /** Index of the place she is about to take or is on. */
  index = 0;
  tipped = 0;
  committed = false;
  goal: { x: number; y: number; speed: number; stopWithin: number } | null = null;
  private flight: Flight | null = null;
  private passage: Passage | null = null;
  private retake = false;
  private readonly traits: DogTraits;
  private readonly happenings: Happenings;
  private readonly world: DogWorld;

  constructor(
    at: { x: number; y: number; heading: number },
    traits: DogTraits,
    happenings: Happenings,
    world: DogWorld,
  ) {
    this.x = at.x;
    this.y = at.y;
    this.z = valueOf(dogParameters.standingCentre);
    this.heading = at.heading;
    this.traits = traits;
    this.happenings = happenings;
    this.world = world;
  }

  get finished(): boolean {
    return this.index >= this.world.gates.length;
  }

  /** Estimated seconds to the take-off or entry of the place she is heading for; Infinity when on or past it. */
  timeToTake(index: number): number {
    const gate = this.world.gates[index];
    if (!gate || this.index !== index || this.flight || this.passage) return Infinity;
    const far = lengthOf(gate.x - this.x, gate.y - this.y);
    const before = gate.jump ? this.takeOffDistance(gate, this.index) : 0;
    return Math.max(0, far - before) / Math.max(this.speed, 2);
  }

  step(from: number, dt: number): void {
    if (this.flight) return this.fly(from, dt);
    if (this.passage) return this.pass(from, dt);
    if (this.doing === Doing.stay || this.doing === Doing.stand) {
      this.speed = Math.max(0, this.speed - valueOf(dogParameters.braking) * dt);
      return;
    }
    const gate = this.world.gates[this.index];
    if (this.goal || !gate) return this.goTo(dt);
    this.approach(gate, from, dt);
  }

  private collectedShare(index: number): number {
    const turn = Math.abs(this.world.turns[index] ?? 0);
    return this.world.knowsNext(index) ? smoothStep(0.45, 2.3, turn) : 0;
  }

  private takeOffDistance(gate: Gate, index: number): number {
    const share = this.collectedShare(index);
    const base = mix(valueOf(dogParameters.takeOffExtended), valueOf(dogParameters.takeOffCollected), share);
    const extra = gate.obstacle.kind === 'spread' ? 0.1 : 0;
    return base * clamp(this.speed / mix(6.3, 4.4, share), 0.7, 1.05) + extra;
  }

  private approach(gate: Gate, from: number, dt: number): void {
    const knows = this.world.knowsNext(this.index);
    const turn = this.world.turns[this.index] ?? 0;
    const before = this.index === 0 || this.world.knowsNext(this.index - 1);
    const line = direction(gate.y - this.y, gate.x - this.x);
    const far = lengthOf(gate.x - this.x, gate.y - this.y);
    const offLine = wrapAngle(line - gate.axis);
    let through = gate.axis;
    if (gate.jump) {
      const lean = knows ? 0.3 * turn : 0;
      through = gate.axis + clamp(0.22 * offLine + lean, -gate.slice, gate.slice);
    } else {
      through = gate.axis + clamp(0.6 * offLine, -gate.slice, gate.slice);
    }
    const swing = clamp(wrapAngle(line - through), -1.25, 1.25);
    const wanted = before ? line + swing : this.heading;
    const off = before ? wrapAngle(wanted - this.heading) : 0;
    if (!this.committed && before && far < this.traits.commitDistance && Math.abs(off) < 0.7) {
      this.committed = true;
      this.world.notice({ kind: 'commit', place: gate.place.number, at: from });
    }
    const bow = before
      ? Math.max((2 * Math.abs(sine(swing))) / Math.max(far, 0.6), Math.abs(off) / Math.max(0.7, 0.6 * far))
      : 0;
    const gateSpeed = this.speedAt(gate, this.index);
    const gateAt = gate.jump ? this.takeOffDistance(gate, this.index) + 0.6 : 0.3;
    this.move(off, bow, gateSpeed, Math.max(0, far - gateAt), dt);
    this.tryTake(gate, from, dt);
  }

  private speedAt(gate: Gate, index: number): number {
    const p = dogParameters;
    switch (gate.obstacle.kind) {
      case 'weavePoles':
        return 3.4;
      case 'tunnel':
        return valueOf(p.tunnelSpeed);
      case 'aFrame':
        return 5.2;
      case 'dogWalk':
        return 5.0;
      case 'seeSaw':
        return 4.2;
      case 'spread':
        return mix(this.traits.topSpeed, 5.2, this.collectedShare(index));
      default:
        return mix(this.traits.topSpeed, valueOf(p.collectedSpeed), this.collectedShare(index));
    }
  }

  /** Turns by `off` at most, at a speed the bend `bow` (1/m) and the gate ahead allow. */
  private move(off: number, bow: number, gateSpeed: number, toGate: number, dt: number): void {
    const p = dogParameters;
    const grip = valueOf(p.lateralAcceleration);
    const brake = valueOf(p.braking);
    const bend = bow > 1e-6 ? Math.sqrt((0.8 * grip) / bow) : Infinity;
    const late = Math.sqrt(gateSpeed * gateSpeed + 2 * 0.85 * brake * toGate);
    const wanted = Math.max(1.4, Math.min(this.traits.topSpeed, bend, late));
    const most = Math.min(grip / Math.max(this.speed, 0.5), this.speed / valueOf(p.smallestTurn));
    const rate = clamp(off / valueOf(p.steeringTime), -most, most);
    const sideways = Math.abs(rate * this.speed) / grip;
    const share = Math.sqrt(Math.max(0.12, 1 - 0.85 * sideways * sideways));
    const push = valueOf(p.startAcceleration) * Math.max(0, 1 - this.speed / (1.04 * this.traits.topSpeed));
    const change = clamp((wanted - this.speed) / 0.09, -brake * share, push * share);
    const middle = this.heading + 0.5 * rate * dt;
    const go = (this.speed + 0.5 * change * dt) * dt;
    this.x += go * cosine(middle);
    this.y += go * sine(middle);
    this.heading = wrapAngle(this.heading + rate * dt);
    this.speed = Math.max(0, this.speed + change * dt);
    this.z += (valueOf(p.standingCentre) - this.z) * Math.min(1, dt / 0.05);
  }

  private goTo(dt: number): void {
    const goal = this.goal;
    if (!goal) return this.move(0, 0, 1.4, 0, dt);
    const far = lengthOf(goal.x - this.x, goal.y - this.y);
    if (far < goal.stopWithin) {
      this.speed = Math.max(0, this.speed - valueOf(dogParameters.braking) * dt);
      this.x += this.speed * dt * cosine(this.heading);
      this.y += this.speed * dt * sine(this.heading);
      if (this.speed === 0) this.doing = Doing.stand;
      return;
    }
    const off = wrapAngle(direction(goal.y - this.y, goal.x - this.x) - this.heading);
    const bow = Math.abs(off) / Math.max(0.7, 0.6 * far);
    this.doing = goal.speed < 2.2 ? Doing.walk : Doing.gallop;
    const keep = this.traits.topSpeed;
    const slow = Math.max(0, far - goal.stopWithin);
    this.move(off, Math.max(bow, 5.8 / (goal.speed * goal.speed)), Math.min(0.8, keep), slow, dt);
    if (this.retake && far < goal.stopWithin + 0.6) {
      this.goal = null;
      this.retake = false;
      this.doing = Doing.gallop;
    }
  }

  private tryTake(gate: Gate, from: number, dt: number): void {
    const c = cosine(gate.axis);
    const s = sine(gate.axis);
    const along = (this.x - gate.x) * c + (this.y - gate.y) * s;
    const across = -(this.x - gate.x) * s + (this.y - gate.y) * c;
    const facing = cosine(wrapAngle(this.heading - gate.axis));
    if (along > 0.6 || facing < 0.3) return;
    if (gate.jump) {
      const toBar = -along / facing;
      const crossing = across + toBar * sine(wrapAngle(this.heading - gate.axis));
      if (toBar > this.takeOffDistance(gate, this.index) || Math.abs(crossing) > 0.6) return;
      this.takeOff(gate, toBar, from + dt);
      return;
    }
    const ahead =
      gate.obstacle.kind === 'tunnel' ? NOSE : gate.obstacle.kind === 'weavePoles' ? 0.1 : STEP_ON;
    if (along < -ahead || Math.abs(across) > 0.8) return;
    this.enter(gate, along, across, from + dt);
  }

  private takeOff(gate: Gate, toBar: number, at: number): void {
    const p = dogParameters;
    const number = gate.place.number;
    const low = this.happenings.lowOver.includes(number);
    const clear = low ? 0.1 : valueOf(p.flightClearance);
    const height = gate.obstacle.sizes['height'] ?? 0.5;
    const rise = Math.max(0.2, height + clear - valueOf(p.launchCentre));
    const g = valueOf(gravity);
    const upward = Math.sqrt(2 * g * rise);
    const time = (2 * upward) / g;
    const barAt = at + toBar / this.speed;
    this.flight = { from: at, time, x: this.x, y: this.y, rise: upward, low, barAt, struck: false };
    this.doing = Doing.flight;
    this.world.notice({ kind: 'in', place: number, at });
    this.world.notice({ kind: 'takeOff', place: number, at });
  }

  private fly(from: number, dt: number): void {
    const flight = this.flight;
    if (!flight) return;
    const number = this.index + 1;
    const until = flight.from + flight.time;
    const now = Math.min(from + dt, until);
    const t = now - flight.from;
    const launch = valueOf(dogParameters.launchCentre);
    this.x = flight.x + this.speed * t * cosine(this.heading);
    this.y = flight.y + this.speed * t * sine(this.heading);
    this.z = launch + flight.rise * t - 0.5 * valueOf(gravity) * t * t;
    if (flight.low && !flight.struck && now >= flight.barAt + 0.05) {
      flight.struck = true;
      this.world.notice({ kind: 'barDown', place: number, at: flight.barAt + 0.05 });
    }
    if (from + dt < until) return;
    this.flight = null;
    this.doing = Doing.gallop;
    this.speed *= valueOf(dogParameters.landingLoss);
    this.world.notice({ kind: 'landing', place: number, at: until });
    this.leave(until);
    this.step(until, from + dt - until);
  }

  private leave(at: number): void {
    this.world.notice({ kind: 'out', place: this.index + 1, at });
    this.index++;
    this.committed = false;
  }

  private enter(gate: Gate, along: number, across: number, at: number): void {
    const kind = gate.obstacle.kind;
    const number = gate.place.number;
    const line =
      kind === 'tunnel' && gate.obstacle.bends ? tunnelLine(gate.obstacle.bends, gate.place.reversed) : null;
    const poles = (gate.obstacle.sizes['poles'] ?? 12) - 1;
    const rest = { tunnel: line?.length ?? 0, weavePoles: poles * 0.6 + 0.5 };
    const end =
      kind === 'tunnel'
        ? rest.tunnel
        : kind === 'weavePoles'
          ? rest.weavePoles
          : (gate.obstacle.sizes['footprint'] ?? 0);
    const wrong = kind === 'weavePoles' && this.happenings.wrongEntry.includes(number) && !this.wrongDone;
    const slope = Math.min(0.8, Math.max(-0.8, wrapAngle(this.heading - gate.axis)));
    this.passage = { along, lateral: across, slope, end, wrong, line, entered: false };
    this.doing = kind === 'tunnel' ? Doing.tunnel : kind === 'weavePoles' ? Doing.weave : Doing.contact;
    this.tipped = 0;
    if (kind !== 'weavePoles') {
      this.passage.entered = true;
      this.world.notice({ kind: 'in', place: number, at });
    }
  }

  private wrongDone = false;

  private pass(from: number, dt: number): void {
    const passage = this.passage;
    const gate = this.world.gates[this.index];
    if (!passage || !gate) return;
    const kind = gate.obstacle.kind;
    const speed = this.passageSpeed(gate, passage);
    const push = clamp((speed - this.speed) / 0.08, -valueOf(dogParameters.braking), 6);
    this.speed = Math.max(0, this.speed + push * dt);
    const was = passage.along;
    passage.along += this.speed * dt;
    const timeAt = (mark: number): number => from + (this.speed > 0 ? (mark - was) / this.speed : 0);
    if (kind === 'seeSaw' && passage.along > passage.end / 2 + 0.2) {
      this.tipped = Math.min(1, this.tipped + dt / 0.5);
    }
    const start = passage.wrong ? 0.85 : 0.25;
    if (!passage.entered && passage.along >= start) {
      passage.entered = true;
      if (passage.wrong) {
        this.world.notice({ kind: 'wrongEntry', place: gate.place.number, at: timeAt(start) });
      } else {
        this.world.notice({ kind: 'in', place: gate.place.number, at: timeAt(start) });
      }
    }
    this.placeOnPassage(gate, passage);
    if (passage.wrong && passage.along > 2.6) {
      // Called off: back around to the first pole.
      this.passage = null;
      this.wrongDone = true;
      this.retake = true;
      this.committed = false;
      this.doing = Doing.gallop;
      const c = cosine(gate.axis);
      const s = sine(gate.axis);
      this.goal = {
        x: gate.x - 2.3 * c + 1.3 * s,
        y: gate.y - 2.3 * s - 1.3 * c,
        speed: 3.2,
        stopWithin: 0.3,
      };
      return;
    }
    const leaveAt =
      kind === 'tunnel'
        ? passage.end - NOSE
        : kind === 'weavePoles'
          ? passage.end - 0.25
          : passage.end + STEP_OFF;
    if (was < leaveAt && passage.along >= leaveAt) {
      this.world.notice({ kind: 'out', place: gate.place.number, at: timeAt(leaveAt) });
    }
    const freeAt =
      kind === 'tunnel' ? passage.end + 0.25 : kind === 'weavePoles' ? passage.end : passage.end + STEP_OFF;
    if (passage.along >= freeAt) {
      this.passage = null;
      this.doing = Doing.gallop;
      this.index++;
      this.committed = false;
    }
  }

  private passageSpeed(gate: Gate, passage: Passage): number {
    const p = dogParameters;
    switch (gate.obstacle.kind) {
      case 'tunnel':
        return valueOf(p.tunnelSpeed);
      case 'weavePoles':
        return this.traits.weaveSpeed;
      case 'aFrame':
        return mix(
          valueOf(p.frameSpeed) - 0.7,
          valueOf(p.frameSpeed) + 0.6,
          smoothStep(0.8, 3.2, passage.along),
        );
      case 'dogWalk':
        return valueOf(p.walkSpeed);
      default: {
        const hold = passage.end / 2 + 0.75;
        if (this.tipped < 1 && passage.along > passage.end / 2 - 0.2) {
          return Math.max(0, 3.2 * (hold - passage.along));
        }
        return valueOf(p.sawSpeed) + 0.6 * this.tipped;
      }
    }
  }

  private placeOnPassage(gate: Gate, passage: Passage): void {
    const wasX = this.x;
    const wasY = this.y;
    const kind = gate.obstacle.kind;
    const stand = valueOf(dogParameters.standingCentre);
    const settle = 1 - smoothStep(0, 1.1, passage.along);
    let lateral = (passage.lateral + passage.slope * Math.max(0, passage.along) * 0.5) * settle;
    let x = gate.x;
    let y = gate.y;
    let axis = gate.axis;
    if (passage.line) {
      const on = passage.line.at(passage.along);
      const over = Math.max(0, passage.along - passage.end) + Math.min(0, passage.along);
      axis = on.heading;
      x = on.x + over * cosine(axis);
      y = on.y + over * sine(axis);
      this.z = mix(
        stand,
        0.36,
        smoothStep(-0.6, 0.3, passage.along) * (1 - smoothStep(-0.3, 0.5, passage.along - passage.end)),
      );
    } else {
      x += passage.along * cosine(axis);
      y += passage.along * sine(axis);
      if (kind === 'weavePoles') {
        const phase = ((passage.along - 0.25) / 0.6) * Math.PI + (passage.wrong ? Math.PI : 0);
        const swing = valueOf(dogParameters.weaveSwing) * smoothStep(0, 0.5, passage.along);
        const drift =
          0.22 * (passage.wrong ? smoothStep(0.8, 1.4, passage.along) : smoothStep(0, 0.9, passage.along));
        lateral += drift - swing * cosine(phase);
        this.z = stand - 0.03;
      } else {
        const on = surfaceHeight(gate.obstacle, passage.along, this.tipped);
        this.z += (stand + on - this.z) * 0.35;
      }
    }
    this.x = x - lateral * sine(axis);
    this.y = y + lateral * cosine(axis);
    if (lengthOf(this.x - wasX, this.y - wasY) > 1e-5) {
      const going = direction(this.y - wasY, this.x - wasX);
      this.heading = wrapAngle(this.heading + 0.5 * clamp(wrapAngle(going - this.heading), -0.12, 0.12));
    }
  }
}
