import { randomStream } from '../../../../scripts/simulator/base/random.ts';
import { drawTraits, type DogTraits } from '../../../../scripts/simulator/actors/dogWorld.ts';
import type { Act, Trigger } from '../../../../scripts/simulator/actors/handling.ts';
import type { CrossRecord, RunRecord } from '../../../../scripts/simulator/run/record.ts';
import { simulateRun } from '../../../../scripts/simulator/run/run.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { otherSide } from '../../../../src/plan/sides.ts';
import { simulatorCourseOf, type Layout } from './layouts.ts';

/** A dog and a handler of the simulator, drawn from a seed. What is in here is hidden from the planner. */
export interface Team {
  readonly seed: number;
  readonly dog: DogTraits;
  readonly speed: number;
  readonly turnTime: number;
  /** Seconds from the release until she runs, and from what she waited for until she leaves. */
  readonly startsAfter: number;
  readonly leavesAfter: number;
}

export function teamOf(seed: number): Team {
  const random = randomStream(seed).branch('handler of the bench');
  return {
    seed,
    dog: drawTraits(seed),
    speed: random.between(3.8, 5.7),
    turnTime: random.between(0.4, 0.7),
    startsAfter: random.between(0.2, 0.32),
    leavesAfter: random.between(0, 0.1),
  };
}

/** What she waits for at the lead-out spot before she runs to the cross; null: for nothing but the release. */
export interface Hold {
  readonly place: number;
  readonly until: 'committed' | 'in' | 'out';
}

/** What can be seen of one run on film. Seconds from the dog's first movement. */
export interface Played {
  readonly run: RunRecord;
  readonly firstStep: number;
  readonly cross: CrossRecord;
  at(kind: 'commit' | 'in' | 'out', place: number): number | null;
}

/** Plays one run; null where the dog did not take the numbers up to the cross, each at the first go. */
export function play(
  team: Team,
  layout: Layout,
  leadOut: GroundPoint,
  way: readonly GroundPoint[],
  hold: Hold | null,
  chance: number,
): Played | null {
  const run = simulateRun({
    seed: chance,
    course: simulatorCourseOf(layout),
    handling: {
      tries: [{ leadOut: [leadOut], leadSpeed: 4, breakAfter: null, fakes: [], releaseAfter: 0.6 }],
      acts: actsOf(team, layout, way, hold),
      meet: layout.onTo,
      after: 0,
    },
    happenings: { natural: true },
    traits: team.dog,
    longest: 30,
  });
  const [start] = run.tries;
  const [cross] = run.crosses;
  const { place } = layout.cross;
  const wrong = run.happened.some(
    (h) => h.kind !== 'release' && h.kind !== 'barDown' && (h.place ?? 0) <= place,
  );
  const firstStep = start?.step ?? null;
  if (run.tries.length !== 1 || firstStep === null || !cross || wrong) return null;
  return {
    ...{ run, firstStep, cross },
    at(kind, number) {
      const notice = run.notices.find((n) => n.kind === kind && n.place === number);
      return notice ? notice.at - firstStep : null;
    },
  };
}

function actsOf(
  team: Team,
  { cross, before, spot, onTo }: Layout,
  way: readonly GroundPoint[],
  hold: Hold | null,
): Act[] {
  const { speed, turnTime } = team;
  const moments = { committed: 'commit', in: 'in', out: 'out' } as const;
  const when: Trigger = hold
    ? { on: 'dog', place: hold.place, moment: moments[hold.until], delay: team.leavesAfter }
    : { on: 'release', delay: team.startsAfter };
  // Behind the dog she is held until the dog has decided; where that is over when she comes, she does not stop.
  const decided: Act[] =
    cross.kind === 'rear'
      ? [
          {
            do: 'go',
            when: { on: 'dog', place: cross.place, moment: 'commit', delay: 0 },
            to: [spot, onTo],
            speed,
          },
        ]
      : [];
  return [
    { do: 'go', when, to: cross.kind === 'blind' ? [...way, onTo] : way, speed },
    ...decided,
    {
      ...{ do: 'cross', when: { on: 'near', at: spot, within: 0.5 }, place: cross.place, kind: cross.kind },
      ...{ before, after: otherSide(before) },
      cues: { feet: 0, shoulders: 0, slowing: null, voice: null },
      turnTime,
      through: cross.kind === 'front' ? [spot] : [onTo],
      speed,
    },
  ];
}
