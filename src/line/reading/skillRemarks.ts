import type { DogSkills } from '../skills.ts';
import type { Leg, Place } from './legs.ts';
import type { Remark } from './remark.ts';

/** Equipment on the course that she has never met: one remark a kind. */
export function neverMetRemarks(places: readonly Place[], skills: DogSkills): Remark[] {
  return [...new Set(skills.neverMet)].flatMap((kind): Remark[] => {
    const met = places.filter((p) => p.drawn.obstacle.kind === kind);
    if (met.length === 0) return [];
    return [
      {
        remark: 'neverMet',
        kind,
        numbers: met.map((p) => p.line.number),
        weight: 0.95,
        highlight: { shapes: [], obstacleIds: [...new Set(met.map((p) => p.drawn.obstacle.id))] },
      },
    ];
  });
}

/** Ways longer than she has been sent, in one remark. */
export function sentRemark(legs: readonly Leg[], { sentMetres }: DogSkills): Remark | undefined {
  if (sentMetres === undefined) return undefined;
  const far = legs.filter((l) => l.way.length > sentMetres);
  if (far.length === 0) return undefined;
  return {
    remark: 'sent',
    sentMetres,
    longest: Math.max(...far.map((l) => l.way.length)),
    numbers: far.map((l) => l.here.line.number),
    weight: 0.3,
    highlight: {
      shapes: far.map((l) => ({ shape: 'way', points: l.way.points, as: 'remark' })),
      obstacleIds: [],
    },
  };
}
