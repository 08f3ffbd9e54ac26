import { distance } from '../../course/pose.ts';
import type { LikelyLine } from '../line.ts';
import type { DogSkills } from '../skills.ts';
import type { Leg, Place } from './legs.ts';
import type { Remark, SliceFacts, StartFacts, WayFacts } from './remark.ts';
import type { ReadingThresholds } from './thresholds.ts';

/** From where she waits to the first obstacle; undefined where the line has no beginning. */
export function startRemark(
  places: readonly Place[],
  line: LikelyLine,
  skills: DogSkills | undefined,
): Remark | undefined {
  const [way] = line.stretches;
  const [place] = places;
  if (!place || way?.from !== null || way.to !== place.line.number) return undefined;
  const stay = skills?.stay;
  const facts: StartFacts = {
    ...{ remark: 'start', to: place.line.number, metres: way.length },
    ...(stay ? { stay } : {}),
  };
  const broken = stay && stay.tried > 0 ? 1 - stay.done / stay.tried : 0;
  return {
    ...facts,
    numbers: [place.line.number],
    weight: 0.1 + 0.6 * broken,
    highlight: { shapes: [{ shape: 'way', points: way.points, as: 'remark' }], obstacleIds: [] },
  };
}

/** The way from one number to the next. */
export function wayRemark({ here, next, way }: Leg, t: ReadingThresholds, skills?: DogSkills): Remark {
  const word = skills?.verbalTurns[way.turnDegrees > 0 ? 'left' : 'right'];
  const sharp = Math.abs(way.turnDegrees) >= t.turnFrom;
  const facts: WayFacts = {
    remark: 'way',
    from: here.line.number,
    to: next.line.number,
    straight: distance(here.line.exit, next.line.entry),
    along: way.length,
    turnDegrees: way.turnDegrees,
    seconds: way.seconds,
    ...(sharp && word !== undefined ? { turnsOnWord: word } : {}),
    blocked: way.blocked,
  };
  const turn = Math.min(1, Math.max(0, Math.abs(way.turnDegrees) - t.turnFrom) / 150);
  return {
    ...facts,
    numbers: [facts.from, facts.to],
    weight: way.blocked ? 0.9 : 0.08 + 0.35 * turn,
    highlight: {
      shapes: [{ shape: 'way', points: way.points, as: way.blocked ? 'trap' : 'remark' }],
      obstacleIds: [],
    },
  };
}

/** A bar that she takes at a slant; undefined where she takes it squarely. */
export function sliceRemark({ line, drawn }: Place, t: ReadingThresholds): Remark | undefined {
  if (Math.abs(line.sliceDegrees) < t.sliceFrom) return undefined;
  const facts: SliceFacts = {
    remark: 'slice',
    number: line.number,
    sliceDegrees: line.sliceDegrees,
    offset: line.offset,
  };
  return {
    ...facts,
    numbers: [line.number],
    weight: 0.1 + 0.3 * Math.min(1, (Math.abs(line.sliceDegrees) - t.sliceFrom) / 45),
    highlight: {
      shapes: [{ shape: 'way', points: line.through, as: 'remark' }],
      obstacleIds: [drawn.obstacle.id],
    },
  };
}
