import type { Obstacle, Stand } from '../course/course.ts';
import { drawnSizes } from '../course/equipment.ts';
import { reach } from '../course/planShapes.ts';
import { from, type Pose } from '../course/pose.ts';
import { tunnelMouths } from '../course/tunnelLine.ts';
import { banded, varianceAlong, z95 } from './bands.ts';
import type { RealLine } from './realLine.ts';
import type { Quantity } from '../time/quantity.ts';
import { whereAt, type Whereabouts } from './whereAt.ts';

/** An upright plane over the ground that a dog goes through when she takes an obstacle the way the pose looks. */
export interface Gate {
  readonly pose: Pose;
  /** Half of its opening, metres. */
  readonly half: number;
}

/** How far beside the row of poles or the plank the point that is followed may be: half a body, metres (ours). */
const besideRow = 0.4;

/**
 * The planes of an obstacle in the order in which a dog goes through them forward: one for what is jumped, two for what
 * is run through or over; none where the kind is not known or a dog may go on and off anywhere (table).
 */
export function gatesOf(o: Pick<Obstacle, 'kind' | 'sizes'>, stand: Stand): readonly Gate[] {
  const size = drawnSizes(o.kind, o.sizes);
  const here: Pose = { x: stand.x, y: stand.y, headingDegrees: stand.headingDegrees };
  const ends = (half: number): Gate[] =>
    [-reach(o), reach(o)].map((along) => ({
      pose: { ...from(here, along), headingDegrees: here.headingDegrees },
      half,
    }));
  switch (o.kind) {
    case 'barJump':
    case 'panel':
    case 'wall':
    case 'spread':
      return [{ pose: here, half: size.barWidth / 2 }];
    case 'longJump':
      return [{ pose: here, half: size.longJumpWidth / 2 }];
    case 'tyre':
      return [{ pose: here, half: size.tyreAperture / 2 }];
    case 'tunnel':
      return tunnelMouths(stand, size.tunnelLength, 'forward').map((pose) => ({
        pose,
        half: size.tunnelDiameter / 2,
      }));
    case 'weavePoles':
      return ends(besideRow);
    case 'aFrame':
      return ends(size.aFrameWidth / 2);
    case 'dogWalk':
    case 'seeSaw':
      return ends(besideRow);
    case 'table':
    case 'unknown':
      return [];
  }
}

/** The line goes through a plane. */
export interface Through {
  /** Seconds of the run. */
  readonly at: Quantity;
  /** Whether it goes the way the pose looks. */
  readonly forward: boolean;
  /** Metres from the middle of the opening, to the left of the pose where positive. */
  readonly aside: Quantity;
  /** Whether that is inside of the opening for certain, may be, or surely is not. */
  readonly inside: 'surely' | 'maybe' | 'no';
}

/** Every time that a line goes through a gate's plane. @param states those stored of the line (`everywhere`) */
export function throughGate(line: RealLine, states: readonly Whereabouts[], gate: Gate): readonly Through[] {
  const angle = (gate.pose.headingDegrees * Math.PI) / 180;
  const [nx, ny] = [Math.cos(angle), Math.sin(angle)];
  const before = (p: Whereabouts): number => (p.x - gate.pose.x) * nx + (p.y - gate.pose.y) * ny;
  const found: Through[] = [];
  for (let i = 0; i + 1 < states.length; i++) {
    const [a, b] = [states[i], states[i + 1]];
    if (!a || !b || before(a) < 0 === before(b) < 0) continue;
    const [t = 0, u = 0] = [line.times[i], line.times[i + 1]];
    const share = before(a) / (before(a) - before(b));
    const here = whereAt(line, t + share * (u - t));
    if (here) found.push(throughAt(t + share * (u - t), here, gate, nx, ny));
  }
  return found;
}

function throughAt(t: number, here: Whereabouts, gate: Gate, nx: number, ny: number): Through {
  const across = here.vx * nx + here.vy * ny;
  const speed = Math.hypot(here.vx, here.vy);
  // A line that runs along the plane meets it anywhere: it is not let through more obliquely than this.
  const steady = Math.sign(across || 1) * Math.max(Math.abs(across), 0.1 * speed, 1e-6);
  const slide = (here.vy * nx - here.vx * ny) / steady;
  const left = (here.y - gate.pose.y) * nx - (here.x - gate.pose.x) * ny;
  const aside = banded(left, varianceAlong([-ny - slide * nx, nx - slide * ny], here.cov), 'm');
  const [near, far] = [Math.abs(left) - aside.plusMinus, Math.abs(left) + aside.plusMinus];
  return {
    at: {
      value: t,
      plusMinus: (z95 * Math.sqrt(varianceAlong([nx, ny], here.cov))) / Math.abs(steady),
      unit: 's',
    },
    forward: across > 0,
    aside,
    inside: far <= gate.half ? 'surely' : near <= gate.half ? 'maybe' : 'no',
  };
}
