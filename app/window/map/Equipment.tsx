import type { MapShape } from '../../../src/course/courseMap.ts';
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
  const d = straight(shape.points, shape.closed === true);
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
