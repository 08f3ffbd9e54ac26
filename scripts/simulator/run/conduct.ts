import type { Dog } from '../actors/dog.ts';
import type { DogNotice } from '../actors/dogWorld.ts';
import type { Handler } from '../actors/handler.ts';
import type { Act, CrossAct, CueKind, Side, Trigger } from '../actors/handling.ts';
import { cosine, direction, lengthOf, sine, wrapAngle } from '../base/exact.ts';
import type { Gate } from '../ground/gate.ts';
import type { Perception } from './perception.ts';
import type { CrossRecord, CueShown, Happened, Said } from './record.ts';
import { STEP } from './record.ts';

/** What the conduct of a run reads and writes. */
export interface Stage {
  readonly gates: readonly Gate[];
  readonly dog: Dog;
  readonly handler: Handler;
  readonly perception: Perception;
  readonly notices: readonly DogNotice[];
  readonly happened: readonly Happened[];
  readonly said: Said[];
}

const turnSign = (from: Side, kind: CrossAct['kind']): number => {
  // Front: she turns toward the dog; blind and rear: away from it.
  const toDog = from === 'left' ? 1 : -1;
  return kind === 'front' ? toDog : -toDog;
};

/** Places whose way on is told by a cross, in a plan with all its second choices. */
export function governedPlaces(acts: readonly Act[]): number[] {
  return acts.flatMap((act) => {
    if (act.do === 'cross') return [act.place];
    if (act.do === 'choose') return governedPlaces([...act.first, ...act.second]);
    return [];
  });
}

/** The handler's plan, act by act. */
export class Conduct {
  readonly crosses: CrossRecord[] = [];
  private queue: Act[];
  private readonly stage: Stage;
  private heard = 0;

  constructor(acts: readonly Act[], stage: Stage) {
    this.queue = [...acts];
    this.stage = stage;
  }

  /** Begins every act that is due. */
  direct(time: number, releasedAt: number): void {
    this.answerMistakes(time);
    for (;;) {
      const act = this.queue[0];
      if (!act || !this.due(act.when, time, releasedAt)) return;
      this.queue.shift();
      this.begin(act, time);
    }
  }

  /** Is she leaving an obstacle that the dog has not yet made her own? */
  leaves(gate: Gate): boolean {
    const h = this.stage.handler;
    const dx = gate.x - h.x;
    const dy = gate.y - h.y;
    const far = lengthOf(dx, dy);
    const cross = this.crosses[this.crosses.length - 1];
    if (cross?.act.kind === 'rear' && cross.act.place === gate.place.number) return true;
    if (far < 3) return false;
    const toward = (h.vx * dx + h.vy * dy) / far;
    const turned = Math.abs(wrapAngle(direction(dy, dx) - h.feet));
    // Running on the way the dog will go is driving, not leaving.
    const driving = h.vx * cosine(gate.axis) + h.vy * sine(gate.axis);
    return toward < -1.5 && turned > 1.75 && driving < 0.4 * h.speed;
  }

  private due(when: Trigger, time: number, releasedAt: number): boolean {
    const { notices, happened, dog, handler } = this.stage;
    switch (when.on) {
      case 'release':
        return time >= releasedAt + when.delay;
      case 'arrived':
        return handler.arrived;
      case 'near':
        return lengthOf(when.at.x - handler.x, when.at.y - handler.y) <= when.within;
      case 'event':
        return happened.some((h) => h.kind === when.kind && time >= h.at + when.delay);
      case 'dog': {
        // What follows the moment has passed as well when the dog is farther on.
        if (dog.index > when.place) return true;
        for (let i = notices.length - 1; i >= 0; i--) {
          const n = notices[i];
          if (n && n.place < when.place - 1) return false;
          if (n && n.kind === when.moment && n.place === when.place) return time >= n.at + when.delay;
        }
        return false;
      }
      case 'expected': {
        const taken = notices.find((n) => n.kind === 'in' && n.place === when.place);
        if (taken) return time >= taken.at - when.lead;
        return dog.timeToTake(when.place - 1) <= when.lead;
      }
    }
  }

  private begin(act: Act, time: number): void {
    const { handler, said } = this.stage;
    switch (act.do) {
      case 'go':
        handler.go(act.to, act.speed);
        return;
      case 'say':
        said.push({ word: act.word, begin: time, end: time + 0.24 });
        return;
      case 'choose':
        this.queue.unshift(...(this.isAhead(act.place, act.ahead) ? act.first : act.second));
        return;
      case 'cross':
        this.beginCross(act, time);
    }
  }

  private isAhead(place: number, by: number): boolean {
    const gate = this.stage.gates[place - 1];
    if (!gate) return true;
    const { dog, handler } = this.stage;
    const dogFar = lengthOf(gate.x - dog.x, gate.y - dog.y);
    const ownFar = lengthOf(gate.x - handler.x, gate.y - handler.y);
    return dogFar - ownFar >= by;
  }

  private beginCross(act: CrossAct, time: number): void {
    const { handler, said, perception } = this.stage;
    const cues: CueShown[] = [];
    const show = (kind: CueKind, long: number): CueShown | null => {
      const offset = act.cues[kind];
      if (offset === null) return null;
      const cue = { kind, begin: time + offset, end: time + offset + long };
      cues.push(cue);
      return cue;
    };
    const by = this.turnBy(act);
    const slowing = show('slowing', 0.4);
    if (slowing) handler.slowDown(slowing.begin, slowing.end);
    const feet = show('feet', act.turnTime);
    if (feet) handler.turnFeet(feet.begin, feet.end, by);
    const shoulders = show('shoulders', act.turnTime);
    if (shoulders) handler.turnShoulders(shoulders.begin, shoulders.end, by);
    const voice = show('voice', 0.28);
    if (voice) said.push({ word: 'turn', begin: voice.begin, end: voice.end });
    handler.go(act.through, act.speed);
    cues.sort((a, b) => a.begin - b.begin);
    const cross: CrossRecord = {
      act,
      cues,
      begun: cues[0]?.begin ?? time,
      perceivedAt: null,
      knownAt: null,
      finished: null,
    };
    this.crosses.push(cross);
    perception.watch(cross);
  }

  private turnBy(act: CrossAct): number {
    const from = this.stage.gates[act.place - 1];
    const to = this.stage.gates[act.place];
    if (!from || !to) return 0;
    const wanted = direction(to.y - from.exitY, to.x - from.exitX);
    const short = wrapAngle(wanted - this.stage.handler.feet);
    if (act.kind === 'rear') return short;
    const sign = turnSign(act.before, act.kind);
    return Math.sign(short) === sign || Math.abs(short) < 0.3 ? short : short + sign * 2 * Math.PI;
  }

  /** A cross is finished when she is off the dog's line on the new side and facing along it. */
  watchCrosses(time: number): void {
    const cross = this.crosses[this.crosses.length - 1];
    if (!cross || cross.finished !== null || time < cross.begun) return;
    const rear = cross.act.kind === 'rear';
    const from = this.stage.gates[cross.act.place - (rear ? 2 : 1)];
    const to = this.stage.gates[cross.act.place - (rear ? 1 : 0)];
    if (!from || !to) return;
    const { handler } = this.stage;
    const dx = to.x - from.exitX;
    const dy = to.y - from.exitY;
    const long = lengthOf(dx, dy);
    const left = (dx * (handler.y - from.exitY) - dy * (handler.x - from.exitX)) / long;
    // Dog on her left means that she is to the right of the dog's line.
    const clear = cross.act.after === 'left' ? -left : left;
    const ahead = Math.abs(wrapAngle(handler.feet - direction(dy, dx)));
    if (clear > 0.4 && ahead < 1.2) cross.finished = time + STEP;
  }

  /** When the dog goes wrong she stops beside the obstacle and calls. */
  private answerMistakes(time: number): void {
    const { happened, gates, handler, said } = this.stage;
    const last = happened[this.heard];
    if (!last || time < last.at + 0.35) return;
    this.heard++;
    if (!['wrongEntry', 'popOut', 'stop', 'runBy', 'offCourse'].includes(last.kind) || last.place === null)
      return;
    const gate = gates[last.place - 1];
    if (!gate) return;
    said.push({ word: last.kind === 'wrongEntry' ? 'oops' : 'here', begin: time, end: time + 0.28 });
    const c = cosine(gate.axis);
    const s = sine(gate.axis);
    const across = -(handler.x - gate.x) * s + (handler.y - gate.y) * c;
    const side = (across >= 0 ? 1 : -1) * (gate.obstacle.kind === 'weavePoles' ? 1.2 : 2.6);
    const along = gate.obstacle.kind === 'weavePoles' ? 2.2 : 0.2;
    handler.go([{ x: gate.x + along * c - side * s, y: gate.y + along * s + side * c }], 2.6);
  }
}
