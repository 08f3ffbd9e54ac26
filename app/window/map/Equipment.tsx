import type { MapShape } from '../../../src/report/courseMap.ts';
import styles from './Equipment.module.css';

interface EquipmentProps {
  readonly shape: MapShape;
  /** How many metres one pixel of the screen is: thin things stay visible on a small map. */
  readonly pixel: number;
}

/** Thinnest line on the screen, in pixels. */
const thinnest = 1.5;

/** One shape of the plan, as it stands on the grass. */
export function Equipment({ shape, pixel }: EquipmentProps) {
  if (shape.shape === 'number') return null;
  if (shape.shape === 'dot') {
    return (
      <circle
        className={styles[shape.as]}
        cx={shape.x}
        cy={shape.y}
        r={Math.max(shape.r, thinnest * pixel)}
        strokeWidth={pixel}
      />
    );
  }
  const d = shape.as === 'tube' ? smooth(shape.points) : straight(shape.points, shape.closed === true);
  const width = Math.max(shape.width, thinnest * pixel);
  const edge = 1.5 * pixel;
  if (shape.as === 'tube' || shape.as === 'plank') {
    return (
      <>
        <path className={styles['edge']} d={d} strokeWidth={width + 2 * edge} />
        <path className={styles[shape.as]} d={d} strokeWidth={width} />
      </>
    );
  }
  if (shape.as === 'ring') return <path className={styles['ring']} d={d} strokeWidth={2 * pixel} />;
  if (shape.as === 'order') {
    const dash = `${4 * pixel} ${4 * pixel}`;
    return <path className={styles['order']} d={d} strokeWidth={pixel} strokeDasharray={dash} />;
  }
  return <path className={styles[shape.as]} d={d} strokeWidth={shape.as === 'wing' ? 2 * width : width} />;
}

type Points = readonly (readonly [number, number])[];

function straight(points: Points, closed: boolean): string {
  return `M${points.map(([x, y]) => `${x} ${y}`).join('L')}${closed ? 'Z' : ''}`;
}

/** A curve through all points (Catmull and Rom 1974, uniform, as cubic Bézier pieces). */
export function smooth(points: Points): string {
  const [first] = points;
  if (!first) return '';
  let d = `M${first[0]} ${first[1]}`;
  for (let i = 0; i + 1 < points.length; i++) {
    const b = points[i] ?? first;
    const c = points[i + 1] ?? first;
    const a = points[i - 1] ?? b;
    const e = points[i + 2] ?? c;
    const leave = [b[0] + (c[0] - a[0]) / 6, b[1] + (c[1] - a[1]) / 6] as const;
    const arrive = [c[0] - (e[0] - b[0]) / 6, c[1] - (e[1] - b[1]) / 6] as const;
    d += `C${leave[0]} ${leave[1]} ${arrive[0]} ${arrive[1]} ${c[0]} ${c[1]}`;
  }
  return d;
}
