import {
  clamp,
  cosine,
  direction,
  exponential,
  lengthOf,
  mix,
  sine,
  smoothStep,
  wrapAngle,
} from '../base/exact.ts';
import type { Gate } from '../ground/gate.ts';
import { WEAVE_LEAD } from '../ground/gate.ts';
import { dogParameters, gravity, valueOf } from '../parameters.ts';
import type { DogNoticeKind, DogTraits, DoingNow, Happenings, DogWorld } from './dogWorld.ts';
import { Doing } from './dogWorld.ts';
import type { Passage } from './passage.ts';
import { beginPassage, NOSE, pass, STEP_OFF, STEP_ON, WEAVE_AFTER } from './passage.ts';
import { steer } from './steering.ts';

interface Flight {
  readonly from: number;
  readonly time: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly up: number;
  /** When the bar is struck; Infinity: it is not. */
  readonly strikesAt: number;
  readonly barAt: number;
  /** Taken by mistake: the place she should be heading for stays. */
  readonly byMistake: boolean;
  readonly jump: boolean;
  struck: boolean;
  turnUnknown: boolean;
}

/** A spot to run to. */
export interface Goal {
  readonly x: number;
  readonly y: number;
  readonly speed: number;
  readonly within: number;
  /** Stand still there, or carry on with the course. */
  readonly stand: boolean;
}

const p = dogParameters;

/** The dog as a body that steers, gathers, flies and takes equipment. Advance it with `step`. */
export class Dog {
  x: number;
  y: number;
  z = valueOf(p.standingCentre);
  heading: number;
  speed = 0;
  doing: DoingNow = Doing.stay;
  /** Index of the place she is about to take or is on. */
  index = 0;
  tipped = 0;
  committed = false;
  goals: Goal[] = [];
  private flight: Flight | null = null;
  private passage: Passage | null = null;
  /** How far she has gathered for the jump ahead, fixed once she prepares it; null: not yet. */
  private prepared: { readonly share: number; readonly turn: number } | null = null;
  private readonly doneOnce = new Set<string>();
  private supportAway = 0;
  private toLose = 0;
  private losing = 0;
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
    this.heading = at.heading;
    this.traits = traits;
    this.happenings = happenings;
    this.world = world;
  }

  get finished(): boolean {
    return this.index >= this.world.gates.length && !this.flight && !this.passage;
  }

  get airborne(): boolean {
    return this.flight !== null;
  }

  /** Estimated seconds to the take-off or entry of the place she is heading for; Infinity when on or past it. */
  timeToTake(index: number): number {
    const gate = this.world.gates[index];
    if (!gate) return Infinity;
    if (this.flight && this.index === index - 1) {
      // In the air over the one before: the rest of the flight, then the ground between.
      const { time, x, y } = this.flight;
      const c = cosine(this.heading);
      const s = sine(this.heading);
      const landX = x + this.speed * time * c;
      const landY = y + this.speed * time * s;
      const left = time - lengthOf(this.x - x, this.y - y) / Math.max(this.speed, 0.5);
      const ground = Math.max(0, lengthOf(gate.x - landX, gate.y - landY) - valueOf(p.takeOffExtended));
      return Math.max(0, left) + ground / Math.max(this.speed, 2);
    }
    if (this.index !== index || this.flight || this.passage) return Infinity;
    const far = lengthOf(gate.x - this.x, gate.y - this.y);
    const before = gate.jump ? this.takeOffDistance(gate) : this.ahead(gate);
    return Math.max(0, far - before) / Math.max(this.speed, 2);
  }

  step(from: number, dt: number): void {
    if (this.flight) return this.fly(this.flight, from, dt);
    if (this.passage) return this.goThrough(this.passage, from, dt);
    if (this.doing === Doing.stay || this.doing === Doing.stand) {
      this.speed = Math.max(0, this.speed - valueOf(p.braking) * this.world.hold * dt);
      return;
    }
    this.z += (valueOf(p.standingCentre) - this.z) * Math.min(1, dt / 0.05);
    if (this.toLose > 0) {
      // The landing costs speed over the first contacts, not at once.
      const now = Math.min(this.toLose, this.losing * dt);
      this.toLose -= now;
      this.speed = Math.max(0, this.speed - now);
    }
    const goal = this.goals[0];
    if (goal) return this.runTo(goal, from, dt);
    const gate = this.world.gates[this.index];
    if (gate) return this.approach(gate, from, dt);
    steer(this, { off: 0, bow: 0, speedThere: 1.4, far: 0, top: this.traits.topSpeed }, dt, this.world.hold);
  }

  private tell(kind: DogNoticeKind, place: number, at: number, obstacleId?: string): void {
    this.world.notice({ kind, place, at, ...(obstacleId === undefined ? {} : { obstacleId }) });
  }

  private gathered(index: number): number {
    const turn = Math.abs(this.world.turns[index] ?? 0);
    return this.world.knowsNext(index) ? smoothStep(0.45, 2.3, turn) : 0;
  }

  private takeOffDistance(gate: Gate): number {
    const share = this.prepared?.share ?? this.gathered(this.index);
    const base = mix(valueOf(p.takeOffExtended), valueOf(p.takeOffCollected), share);
    const extra = gate.obstacle.kind === 'spread' ? 0.1 : 0;
    return base * clamp(this.speed / mix(6.3, 4.4, share), 0.7, 1.05) + extra;
  }

  private ahead(gate: Gate): number {
    switch (gate.obstacle.kind) {
      case 'tunnel':
        return NOSE;
      case 'weavePoles':
        return 0.1;
      default:
        return STEP_ON;
    }
  }

  private approach(gate: Gate, from: number, dt: number): void {
    const before = this.index === 0 || this.world.knowsNext(this.index - 1);
    if (!before) {
      // Nobody has told her: straight on, and what stands there is for taking.
      steer(this, { off: 0, bow: 0, speedThere: 9, far: 0, top: this.traits.topSpeed }, dt, this.world.hold);
      this.tryTrap(from + dt);
      return;
    }
    if (gate.jump && !this.prepared && this.timeToTake(this.index) < valueOf(p.preparation)) {
      const knows = this.world.knowsNext(this.index);
      this.prepared = {
        share: this.gathered(this.index),
        turn: knows ? (this.world.turns[this.index] ?? 0) : 0,
      };
    }
    const turn =
      this.prepared?.turn ?? (this.world.knowsNext(this.index) ? (this.world.turns[this.index] ?? 0) : 0);
    const far = lengthOf(gate.x - this.x, gate.y - this.y);
    const offLine = wrapAngle(direction(gate.y - this.y, gate.x - this.x) - gate.axis);
    const lean = gate.jump ? 0.25 * offLine + 0.3 * turn : 0.5 * offLine;
    const through = gate.axis + clamp(lean, -gate.slice, gate.slice);
    // In the air she cannot turn: what she runs to is the spot to take off from.
    const back = gate.jump ? clamp(0.6 * (far - 1), 0, this.takeOffDistance(gate)) : 0;
    const line = direction(gate.y - back * sine(through) - this.y, gate.x - back * cosine(through) - this.x);
    const swing = clamp(wrapAngle(line - through), -1.25, 1.25);
    const off = wrapAngle(line + swing - this.heading);
    this.watchCommitment(gate, far, off, from, dt);
    if (this.goals.length > 0) return;
    const arc = (2 * Math.abs(sine(swing))) / Math.max(far, 0.6);
    const bow = Math.max(arc, Math.abs(off) / Math.max(0.7, 0.6 * far));
    const gateAt = gate.jump ? this.takeOffDistance(gate) + 0.6 : 0.3;
    const wish = {
      off,
      bow,
      speedThere: this.speedAt(gate),
      far: Math.max(0, far - gateAt),
      top: this.traits.topSpeed,
    };
    if (this.wantsToStop(gate, far)) return this.stopBefore(gate, from, dt);
    steer(this, wish, dt, this.world.hold);
    this.tryTake(gate, from + dt);
  }

  private watchCommitment(gate: Gate, far: number, off: number, from: number, dt: number): void {
    const place = gate.place.number;
    if (this.committed) return;
    if (far < this.traits.commitDistance + 2) {
      this.supportAway = this.world.supportLeaves(gate) ? this.supportAway + dt : 0;
    }
    const told = this.happenings.runBy?.includes(place) === true && !this.doneOnce.has(`runBy ${place}`);
    const lost =
      this.happenings.natural &&
      this.supportAway > 0.25 &&
      !this.doneOnce.has(`support ${place}`) &&
      this.draw(`support ${place}`, valueOf(p.runByChance));
    if ((told && far < this.traits.commitDistance) || lost) return this.runBy(gate);
    if (far < this.traits.commitDistance && Math.abs(off) < 0.7) {
      this.committed = true;
      this.tell('commit', place, from);
    }
  }

  /** A chance that is drawn once for each label. */
  private draw(label: string, chance: number): boolean {
    this.doneOnce.add(label);
    return this.world.random.branch(label).chance(chance);
  }

  private once(list: readonly number[] | undefined, kind: string, place: number, chance: number): boolean {
    const label = `${kind} ${place}`;
    if (this.doneOnce.has(label)) return false;
    if (list?.includes(place) === true) {
      this.doneOnce.add(label);
      return true;
    }
    return this.happenings.natural && this.draw(label, chance);
  }

  private speedAt(gate: Gate): number {
    switch (gate.obstacle.kind) {
      case 'weavePoles':
        return valueOf(p.weaveEntrySpeed);
      case 'tunnel':
        return gate.pace;
      case 'aFrame':
        return 4.4;
      case 'dogWalk':
        return 5.0;
      case 'seeSaw':
        return 4.0;
      default: {
        const slow = gate.obstacle.kind === 'spread' ? 5.2 : valueOf(p.collectedSpeed);
        return mix(this.traits.topSpeed, slow, this.prepared?.share ?? this.gathered(this.index));
      }
    }
  }

  private stopping: number | null = null;

  private wantsToStop(gate: Gate, far: number): boolean {
    if (this.stopping === this.index) return true;
    if (far > 3.2 || far < 2) return false;
    const place = gate.place.number;
    if (this.doneOnce.has(`stop ${place}`)) return false;
    if (!this.once(this.happenings.stop, 'stop', place, valueOf(p.stopChance))) return false;
    this.stopping = this.index;
    return true;
  }

  private stopBefore(gate: Gate, from: number, dt: number): void {
    const brake = valueOf(p.braking) * this.world.hold;
    this.speed = Math.max(0, this.speed - brake * dt);
    this.x += this.speed * dt * cosine(this.heading);
    this.y += this.speed * dt * sine(this.heading);
    if (this.speed > 0.05) return;
    this.stopping = null;
    this.tell('stop', gate.place.number, from + dt);
    this.goBack(gate);
  }

  private runBy(gate: Gate): void {
    const place = gate.place.number;
    this.doneOnce.add(`runBy ${place}`);
    this.doneOnce.add(`support ${place}`);
    const c = cosine(gate.axis);
    const s = sine(gate.axis);
    const h = this.world.handler();
    const side = -(h.x - gate.x) * s + (h.y - gate.y) * c > 0 ? 1 : -1;
    this.goals = [
      {
        x: gate.x + 0.3 * c - side * 1.7 * s,
        y: gate.y + 0.3 * s + side * 1.7 * c,
        speed: 5,
        within: 0.5,
        stand: false,
      },
    ];
    this.passingBy = { gate, told: false };
    this.goals.push(...this.wayBack(gate, side));
  }

  private passingBy: { readonly gate: Gate; told: boolean } | null = null;

  private wayBack(gate: Gate, side: number): Goal[] {
    const c = cosine(gate.axis);
    const s = sine(gate.axis);
    const at = (along: number, across: number, speed: number): Goal => ({
      x: gate.x + along * c - across * s,
      y: gate.y + along * s + across * c,
      speed,
      within: 0.5,
      stand: false,
    });
    return [at(-1.6, side * 2.1, 3), at(-3.6, side * 1.0, 3.2)];
  }

  private goBack(gate: Gate): void {
    const across = -(this.x - gate.x) * sine(gate.axis) + (this.y - gate.y) * cosine(gate.axis);
    this.goals = this.wayBack(gate, across >= 0 ? 1 : -1);
    this.committed = false;
    this.prepared = null;
  }

  private runTo(goal: Goal, from: number, dt: number): void {
    const far = lengthOf(goal.x - this.x, goal.y - this.y);
    if (far < goal.within) {
      if (!goal.stand) {
        this.goals.shift();
        this.doing = Doing.gallop;
        return this.step(from, dt);
      }
      this.speed = Math.max(0, this.speed - valueOf(p.braking) * this.world.hold * dt);
      this.x += this.speed * dt * cosine(this.heading);
      this.y += this.speed * dt * sine(this.heading);
      if (this.speed === 0) this.doing = Doing.stand;
      return;
    }
    const off = wrapAngle(direction(goal.y - this.y, goal.x - this.x) - this.heading);
    const turning = Math.abs(off) / Math.max(0.7, 0.6 * far);
    this.doing = goal.speed < 2.3 ? Doing.walk : Doing.gallop;
    const bow = Math.max(turning, 7.2 / (goal.speed * goal.speed));
    const speedThere = goal.stand ? 0.8 : goal.speed;
    steer(
      this,
      { off, bow, speedThere, far: Math.max(0, far - goal.within), top: this.traits.topSpeed },
      dt,
      this.world.hold,
    );
  }

  /** Tells of running by when her centre passes the plane of the obstacle. */
  watchPassing(at: number): void {
    const by = this.passingBy;
    if (!by || by.told) return;
    const along = (this.x - by.gate.x) * cosine(by.gate.axis) + (this.y - by.gate.y) * sine(by.gate.axis);
    if (along < 0) return;
    by.told = true;
    this.passingBy = null;
    this.tell('runBy', by.gate.place.number, at);
  }

  private inReach(gate: Gate, limit: number, wide: number): { toBar: number; crossing: number } | null {
    const c = cosine(gate.axis);
    const s = sine(gate.axis);
    const along = (this.x - gate.x) * c + (this.y - gate.y) * s;
    const across = -(this.x - gate.x) * s + (this.y - gate.y) * c;
    const skew = wrapAngle(this.heading - gate.axis);
    const facing = cosine(skew);
    if (along > 0 || facing < 0.35) return null;
    const toBar = -along / facing;
    const crossing = across + toBar * sine(skew);
    return toBar <= limit && Math.abs(crossing) <= wide ? { toBar, crossing } : null;
  }

  private tryTrap(at: number): void {
    const current = this.world.gates[this.index - 1]?.obstacle.id;
    const limit = valueOf(p.takeOffExtended) * clamp(this.speed / 6.3, 0.7, 1.05);
    for (const trap of this.world.traps) {
      if (trap.obstacle.id === current) continue;
      if (Math.abs(trap.x - this.x) > 2.5 || Math.abs(trap.y - this.y) > 2.5) continue;
      const reach = this.inReach(trap, limit, 0.5);
      if (!reach || reach.toBar < 0.8 * limit) continue;
      this.tell('offCourse', this.index + 1, at, trap.obstacle.id);
      this.takeOff(trap, reach.toBar, at, true);
      return;
    }
  }

  private tryTake(gate: Gate, at: number): void {
    const c = cosine(gate.axis);
    const s = sine(gate.axis);
    const along = (this.x - gate.x) * c + (this.y - gate.y) * s;
    const across = -(this.x - gate.x) * s + (this.y - gate.y) * c;
    if (along > 0.15 && along < 1.5 && Math.abs(across) < 3) {
      // Past its plane without taking it.
      this.tell('runBy', gate.place.number, at);
      this.goBack(gate);
      return;
    }
    if (gate.jump) {
      const reach = this.inReach(gate, this.takeOffDistance(gate), 0.6);
      if (reach) this.takeOff(gate, reach.toBar, at, false);
      return;
    }
    const facing = cosine(wrapAngle(this.heading - gate.axis));
    const wide = gate.obstacle.kind === 'tunnel' ? 0.3 : gate.obstacle.kind === 'weavePoles' ? 0.35 : 0.3;
    if (along < -this.ahead(gate) || facing < 0.55 || Math.abs(across) > wide) return;
    this.enter(gate, along, across, at);
  }

  private takeOff(gate: Gate, toBar: number, at: number, byMistake: boolean): void {
    const number = this.index + 1;
    const random = this.world.random.branch(`jump ${number} ${byMistake ? gate.obstacle.id : ''}`);
    const low = !byMistake && this.happenings.lowOver?.includes(number) === true;
    const unknown =
      !byMistake && Math.abs(this.world.turns[this.index] ?? 0) > 0.5 && !this.world.knowsNext(this.index);
    let clear = valueOf(p.flightClearance);
    if (this.happenings.natural) {
      clear += valueOf(p.clearanceSpread) * random.bell();
      if (unknown) clear -= valueOf(p.clearanceLostLate);
    }
    if (low) clear = 0.1;
    const height = gate.obstacle.sizes['height'] ?? 0.5;
    const launch = valueOf(p.launchCentre);
    const g = valueOf(gravity);
    const up = Math.sqrt(2 * g * Math.max(0.2, height + clear - launch));
    const barAt = at + toBar / this.speed;
    const strikes = clear < valueOf(p.clearanceStruck);
    this.flight = {
      from: at,
      time: (2 * up) / g,
      x: this.x,
      y: this.y,
      z: launch,
      up,
      barAt,
      // Hind legs come over the bar a moment after her middle.
      strikesAt: strikes ? barAt + 0.28 / this.speed : Infinity,
      byMistake,
      jump: true,
      struck: false,
      turnUnknown: unknown,
    };
    this.z = launch;
    this.prepared = null;
    this.doing = Doing.flight;
    if (byMistake) return;
    this.tell('in', number, at);
    this.tell('takeOff', number, at);
  }

  private fly(flight: Flight, from: number, dt: number): void {
    const number = this.index + 1;
    const until = flight.from + flight.time;
    const now = Math.min(from + dt, until);
    const t = now - flight.from;
    this.x = flight.x + this.speed * t * cosine(this.heading);
    this.y = flight.y + this.speed * t * sine(this.heading);
    this.z = flight.z + flight.up * t - 0.5 * valueOf(gravity) * t * t;
    if (!flight.struck && now >= flight.strikesAt) {
      flight.struck = true;
      this.tell('barDown', number, flight.strikesAt);
    }
    if (from + dt < until) return;
    this.flight = null;
    this.doing = Doing.gallop;
    this.toLose = this.speed * (1 - valueOf(p.landingLoss));
    this.losing = this.toLose / 0.1;
    if (flight.jump && !flight.byMistake) {
      this.tell('landing', number, until);
      this.tell('out', number, until);
    }
    if (!flight.byMistake) this.nextPlace();
    this.step(until, from + dt - until);
  }

  private nextPlace(): void {
    this.index++;
    this.committed = false;
    this.prepared = null;
    this.supportAway = 0;
  }

  private enter(gate: Gate, along: number, across: number, at: number): void {
    const { kind } = gate.obstacle;
    const place = gate.place.number;
    const skew = clamp(wrapAngle(this.heading - gate.axis), -0.9, 0.9);
    let wrong = false;
    let leavesAt = Infinity;
    if (kind === 'weavePoles') {
      const half = valueOf(p.wrongEntryAngle);
      const steep = (Math.abs(skew) - half) / 0.14 + (this.speed - valueOf(p.weaveEntrySpeed)) / 0.7;
      wrong = this.once(this.happenings.wrongEntry, 'wrongEntry', place, 1 / (1 + exponential(-steep)));
      if (!wrong && this.once(this.happenings.popOut, 'popOut', place, valueOf(p.popOutChance))) {
        leavesAt = WEAVE_LEAD + 0.6 * (5 + this.world.random.branch(`pop ${place}`).whole(5)) + 0.3;
      }
      if (wrong) leavesAt = 2.7;
    } else if (kind !== 'tunnel') {
      const zone = gate.obstacle.sizes['contact'] ?? 0.9;
      if (this.once(this.happenings.missContact, 'missContact', place, valueOf(p.missedContactChance))) {
        leavesAt = gate.through - zone - 0.05;
      }
    }
    const slope = sine(skew) / Math.max(0.5, cosine(skew));
    this.passage = beginPassage(gate, this, along, across, slope, wrong, leavesAt);
    this.doing = kind === 'tunnel' ? Doing.tunnel : kind === 'weavePoles' ? Doing.weave : Doing.contact;
    this.tipped = 0;
    if (kind !== 'weavePoles') {
      this.passage.entered = true;
      this.tell('in', place, at);
    }
  }

  private goThrough(passage: Passage, from: number, dt: number): void {
    const { gate } = passage;
    const { kind } = gate.obstacle;
    const place = gate.place.number;
    const was = passage.along;
    pass(passage, this, this.traits.weaveSpeed, dt);
    this.tipped = passage.tipped;
    const timeAt = (mark: number): number =>
      from + (passage.along > was ? (dt * (mark - was)) / (passage.along - was) : 0);
    const firstPole = passage.wrong ? WEAVE_LEAD + 0.6 : WEAVE_LEAD;
    if (!passage.entered && passage.along >= firstPole) {
      passage.entered = true;
      this.tell(passage.wrong ? 'wrongEntry' : 'in', place, timeAt(firstPole));
    }
    if (passage.along >= passage.leavesAt) return this.leaveEarly(passage, from + dt);
    const lastMoment =
      kind === 'tunnel'
        ? gate.through - NOSE
        : kind === 'weavePoles'
          ? gate.through - WEAVE_LEAD
          : gate.through + STEP_OFF;
    if (!passage.left && passage.along >= lastMoment) {
      passage.left = true;
      this.tell('out', place, timeAt(lastMoment));
    }
    const after = kind === 'tunnel' ? 0.25 : kind === 'weavePoles' ? WEAVE_AFTER : STEP_OFF;
    const free = gate.through + after;
    if (passage.along < free) return;
    this.passage = null;
    this.doing = Doing.gallop;
    this.nextPlace();
  }

  private leaveEarly(passage: Passage, at: number): void {
    const { gate } = passage;
    const place = gate.place.number;
    this.passage = null;
    if (gate.obstacle.kind === 'weavePoles') {
      if (!passage.wrong) this.tell('popOut', place, at);
      this.doing = Doing.gallop;
      this.committed = false;
      const c = cosine(gate.axis);
      const s = sine(gate.axis);
      const right = (along: number, aside: number): Goal => ({
        x: gate.x + along * c + aside * s,
        y: gate.y + along * s - aside * c,
        speed: 3.2,
        within: 0.5,
        stand: false,
      });
      this.goals = [right(passage.along - 0.6, 1.9), right(-0.4, 2.3), right(-2.6, 1.2)];
      return;
    }
    // Leaps off above the zone: from here on a body in the air.
    this.tell('missedContact', place, at);
    this.tell('out', place, at);
    const g = valueOf(gravity);
    const up = -0.5;
    const drop = Math.max(0, this.z - valueOf(p.launchCentre));
    this.flight = {
      from: at,
      time: (up + Math.sqrt(up * up + 2 * g * drop)) / g,
      x: this.x,
      y: this.y,
      z: this.z,
      up,
      strikesAt: Infinity,
      barAt: Infinity,
      byMistake: false,
      jump: false,
      struck: false,
      turnUnknown: false,
    };
    this.doing = Doing.flight;
  }
}
