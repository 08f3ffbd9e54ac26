import { Dog } from './actors/dog.ts';
import type { DogNotice, DogTraits } from './actors/dogWorld.ts';
import { Doing, drawTraits } from './actors/dogWorld.ts';
import { Handler } from './actors/handler.ts';
import type { CrossAct, CrossKind, Side } from './actors/handling.ts';
import { cosine, lengthOf, sine } from './base/exact.ts';
import type { RandomStream } from './base/random.ts';
import { randomStream } from './base/random.ts';
import type { Course, GroundPoint, Kind, Obstacle } from './ground/equipment.ts';
import { standardSizes } from './ground/equipment.ts';
import { gateOf, turnAfter } from './ground/gate.ts';
import { dogParameters, footings, valueOf } from './parameters.ts';
import { Conduct } from './run/conduct.ts';
import { Perception } from './run/perception.ts';
import type { CueShown, Happened, Said } from './run/record.ts';
import { STEP } from './run/record.ts';

/** One cross, alone: what was shown when, and what the dog did. Seconds; the moment 0 is arbitrary. */
export interface SingleCross {
  readonly seed: number;
  readonly kind: CrossKind;
  readonly obstacle: Kind;
  /** Turn after the obstacle, radians, left positive. */
  readonly turn: number;
  readonly dogSideBefore: Side;
  readonly dogSideAfter: Side;
  readonly cues: readonly CueShown[];
  /** First cue begins. */
  readonly begun: number;
  /** End of the cross; null where she never got across in time to matter. */
  readonly finished: number | null;
  readonly committedToObstacle: number;
  /** Take-off, or entry of a tunnel. */
  readonly in: number;
  /** Landing, or exit of a tunnel. */
  readonly out: number;
  /** From when on the dog knew; null: not before she was through. */
  readonly knownAt: number | null;
  /** in - begun: negative when the first cue came after take-off. */
  readonly lead: number;
  /** One stride of this dog, seconds. */
  readonly stride: number;
  /** Take-off or entry of the next obstacle, and the length of her way to it from `out`. */
  readonly nextIn: number | null;
  readonly wayToNext: number;
}

interface Scene {
  readonly course: Course;
  readonly act: CrossAct;
  readonly handlerAt: GroundPoint;
  readonly turn: number;
}

function stand(id: string, kind: Kind, x: number, y: number, angle: number): Obstacle {
  return { id, kind, nickname: id, x, y, angle, sizes: standardSizes[kind] };
}

function drawScene(random: RandomStream): Scene {
  const kinds: readonly CrossKind[] = ['front', 'blind', 'rear'];
  const kind = kinds[random.whole(3)] ?? 'front';
  const tunnel = random.chance(0.25);
  const sign = random.chance(0.5) ? 1 : -1;
  const turn = sign * random.between(kind === 'rear' ? 0.4 : 0.8, kind === 'rear' ? 2.0 : 2.7);
  const gap = random.between(5, 7);
  const first = stand('first', 'barJump', 10, 10, 0);
  const x = 10 + random.between(5, 7);
  const length = random.between(3, 5);
  const second: Obstacle = tunnel
    ? {
        ...stand('second', 'tunnel', x, 10, 0),
        bends: [
          { x, y: 10 },
          { x: x + length / 2, y: 10 },
          { x: x + length, y: 10 },
        ],
      }
    : stand('second', 'barJump', x, 10, 0);
  const exit = tunnel ? x + length : x;
  const c = cosine(turn);
  const s = sine(turn);
  // The dog's way bows out by about a landing: the next obstacle lies beyond it.
  const from = exit + (tunnel ? 1 : 1.4);
  const third = stand('third', 'barJump', from + gap * c, 10 + gap * s, turn * random.between(0.8, 1.1));
  const course: Course = {
    name: 'one cross',
    ring: { length: 40, depth: 20 },
    start: { x: 10 - random.between(4.5, 5.5), y: 10 + random.between(-0.4, 0.4), heading: 0 },
    obstacles: [first, second, third],
    places: ['first', 'second', 'third'].map((obstacleId, i) => ({
      number: i + 1,
      obstacleId,
      reversed: false,
    })),
  };
  // Left turn: she starts on the left, the inside, with the dog on her right, and ends on the outside.
  const inside: Side = sign > 0 ? 'right' : 'left';
  const outside: Side = sign > 0 ? 'left' : 'right';
  const beside = (share: number, aside: number): GroundPoint => ({
    x: exit + share * gap * c - aside * sign * s,
    y: 10 + share * gap * s + aside * sign * c,
  });
  const cues = {
    feet: random.between(0, 0.2),
    shoulders: random.chance(0.9) ? random.between(0, 0.2) : null,
    slowing: random.chance(0.5) ? random.between(0, 0.1) : null,
    voice: random.chance(0.7) ? random.between(0, 0.3) : null,
  };
  const shared = {
    do: 'cross',
    when: { on: 'expected', place: 2, lead: random.between(-0.55, 1.3) },
    place: 2,
    kind,
    cues,
    turnTime: random.between(0.4, 0.7),
  } as const;
  if (kind === 'rear') {
    // Rear: from the outside, behind the dog, to the side she will turn to.
    const act: CrossAct = {
      ...shared,
      before: outside,
      after: inside,
      through: [
        { x: x - 1.6, y: 10 },
        { x: x - 0.2, y: 10 + sign * 1.5 },
      ],
      speed: random.between(3.5, 5.2),
    };
    return { course, act, handlerAt: { x: x - random.between(3.5, 5), y: 10 - sign * 1.3 }, turn };
  }
  const act: CrossAct = {
    ...shared,
    before: inside,
    after: outside,
    through: [beside(0.42, 0.1), beside(0.55, -1.3)],
    speed: random.between(3, 5),
  };
  return { course, act, handlerAt: beside(0.32, random.between(0.9, 1.5)), turn };
}

/** Plays one cross drawn from `seed`; null where the dog did not take the three obstacles in order. */
export function playCross(seed: number): SingleCross | null {
  const random = randomStream(seed).branch('cross');
  const scene = drawScene(random);
  const { course, act } = scene;
  const traits: DogTraits = drawTraits(seed);
  const gates = course.places.map((place) => gateOf(course, place));
  const turns = gates.map((gate, i) => {
    const next = gates[i + 1];
    return next ? turnAfter(gate, next) : 0;
  });
  const notices: DogNotice[] = [];
  const happened: Happened[] = [];
  const said: Said[] = [];
  const perception = new Perception(gates.length, [2], traits.reaction);
  let time = 0;
  const dog: Dog = new Dog(
    course.start,
    traits,
    { natural: false },
    {
      gates,
      traps: [],
      turns,
      random,
      hold: valueOf(footings.dryGrass),
      knowsNext: (i) => perception.knows(i, time),
      supportLeaves: () => false,
      handler: () => handler,
      notice: (notice) => {
        notices.push(notice);
        perception.hear(notice);
      },
    },
  );
  const handler = new Handler(scene.handlerAt, 0);
  const conduct = new Conduct([act], { gates, dog, handler, perception, notices, happened, said });
  dog.doing = Doing.gallop;
  dog.speed = 4;
  let way = 0;
  const out = (): number | undefined => notices.find((n) => n.kind === 'out' && n.place === 2)?.at;
  for (let n = 0; n * STEP < 9 && dog.index < 3; n++) {
    time = n * STEP;
    conduct.direct(time, 0);
    perception.learn(time, dog, handler);
    const { x, y, index } = dog;
    dog.step(time, STEP);
    if (index === 2) way += lengthOf(dog.x - x, dog.y - y);
    handler.step(time, STEP, dog);
    conduct.watchCrosses(time);
    if (dog.index === 2 && dog.airborne) break;
  }
  const at = (kind: DogNotice['kind'], place: number): number | undefined =>
    notices.find((m) => m.kind === kind && m.place === place)?.at;
  const cross = conduct.crosses[0];
  const committed = at('commit', 2);
  const entered = at('in', 2);
  const left = out();
  if (!cross || committed === undefined || entered === undefined || left === undefined) return null;
  return {
    seed,
    kind: act.kind,
    obstacle: gates[1]?.obstacle.kind ?? 'barJump',
    turn: scene.turn,
    dogSideBefore: act.before,
    dogSideAfter: act.after,
    cues: cross.cues,
    begun: cross.begun,
    finished: cross.finished,
    committedToObstacle: committed,
    in: entered,
    out: left,
    knownAt: cross.knownAt,
    lead: entered - cross.begun,
    stride: valueOf(dogParameters.strideTime),
    nextIn: at('in', 3) ?? null,
    wayToNext: way,
  };
}

/** The first `count` crosses that were played to the end, from `seed` on. */
export function playCrosses(seed: number, count: number): SingleCross[] {
  const out: SingleCross[] = [];
  for (let k = 0; out.length < count && k < 3 * count; k++) {
    const cross = playCross(seed * 1_000_003 + k);
    if (cross) out.push(cross);
  }
  return out;
}
