import { obstacleAt, type Course, type Obstacle } from '../course/course.ts';
import type { LengthUnit } from '../course/grid.ts';
import type { DoneOf } from '../line/skills.ts';
import { obstacleName } from './review.ts';
import { obstacleWords } from './trade.ts';

/** What sentences about a course are told with. */
export interface ReadingTold {
  readonly course: Course;
  readonly unit: LengthUnit;
  readonly dialect: 'british' | 'american';
}

/** "7 (the poles)", or "7" where nobody has said what stands there. */
export function atNumber(n: number, { course, dialect }: ReadingTold): string {
  const o = obstacleAt(course, n);
  return o && (o.nickname !== '' || o.kind !== 'unknown') ? `${n} (${withThe(o, dialect)})` : String(n);
}

/** "the blue one", or "the tunnel" where it has no name. */
export const withThe = (o: Obstacle, dialect: ReadingTold['dialect']): string =>
  o.nickname === '' ? `the ${obstacleWords[dialect][o.kind]}` : obstacleName(o, dialect);

/** "3 of 10 times". */
export const timesOf = ({ done, tried }: DoneOf): string => `${done} of ${tried} times`;
