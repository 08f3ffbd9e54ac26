import { memo } from 'react';
import { equipmentShapes, type PlanPoint } from '../../../../src/course/planShapes.ts';
import type { Obstacle } from '../../../../src/course/course.ts';
import { drawnSizes } from '../../../../src/course/equipment.ts';
import { from, type Pose } from '../../../../src/course/pose.ts';
import { tunnelMouths } from '../../../../src/course/tunnelLine.ts';
import type { KnownPoint } from '../../../../src/ground/knownPoints.ts';
import type { ErrorMap } from '../../../../src/ground/groundError.ts';
import { groundWords } from '../../../../src/words/groundPage.ts';
import { Equipment } from '../../map/Equipment.tsx';
import { useGround } from '../DeskContext.ts';
import { bandOf } from '../../../../src/ground/seen.ts';
import styles from './GroundPage.module.css';
import { standOf } from './tells.ts';
import { groundOf, type Scene } from './scene.ts';

const words = groundWords.page;

/** Width of the map on the page, pixels: thin things are drawn so thick that they show on it. */
const shown = 220;

/** What is shown of the ring from near, metres. */
const close = { width: 16, height: 9 } as const;
/** Half the length of the arrow along which a piece is taken, metres. */
const arrow = 1.6;

/**
 * The ring from above with what a click is expected to be off, and the point at hand on its piece with an arrow the way
 * it is taken: left and right are those of the dog. A wide ring lies upright.
 */
export const GroundMap = memo(function GroundMap({
  scene,
  map,
  place,
}: {
  readonly scene: Scene;
  /** null while nothing is known of it. */
  readonly map: ErrorMap | null;
  readonly place: number | null;
}) {
  const part = useGround((v) => v.part);
  const { course, known } = scene;
  const { from: low, to } = groundOf(course);
  const [wide, long] = [to.x - low.x, to.y - low.y];
  const turned = map !== null && wide > long;
  const at = (x: number, y: number): PlanPoint => (turned ? [to.y - y, to.x - x] : [x - low.x, to.y - y]);
  const [width, height] = turned ? [long, wide] : [wide, long];
  const point = known.find((k) => k.id === part);
  const middle = point ? at(point.at.x, point.at.y) : null;
  const pixel = (map || !middle ? width : close.width) / shown;
  // Before anything is known the point at hand is what the map is for: it is shown from near.
  const box =
    map || !middle
      ? [-pixel, -pixel, width + 2 * pixel, height + 2 * pixel]
      : [middle[0] - close.width / 2, middle[1] - close.height / 2, close.width, close.height];
  const stand = place === null ? null : standOf(course, place);
  const here = stand ? at(stand.x, stand.y) : null;
  const piece = course.obstacles.find((o) => o.id === point?.part.obstacleId);
  const pose = piece && point && poseOf(piece, point);
  const on = (pose: Pose, along: number, aside: number): PlanPoint => {
    const p = from(pose, along, aside);
    return at(p.x, p.y);
  };
  const way = pose && [
    on(pose, -arrow, 0),
    on(pose, arrow, 0),
    on(pose, arrow - 0.6, 0.5),
    on(pose, arrow, 0),
    on(pose, arrow - 0.6, -0.5),
  ];
  return (
    <svg
      className={styles['map']}
      viewBox={box.join(' ')}
      role="img"
      aria-label={map ? words.map : words.mapBefore}
    >
      <rect className={styles['grass']} width={width} height={height} strokeWidth={pixel} />
      {map?.centimetres.map((centimetres, i) => {
        const [x, y] = [
          map.from.x + (i % map.columns) * map.step,
          map.from.y + Math.floor(i / map.columns) * map.step,
        ];
        const [a, b] = [at(x, y), at(Math.min(to.x, x + map.step), Math.min(to.y, y + map.step))];
        return (
          <rect
            key={i}
            className={styles['cell']}
            data-band={centimetres === null ? 'unseen' : bandOf(centimetres)}
            x={Math.min(a[0], b[0])}
            y={Math.min(a[1], b[1])}
            width={Math.abs(a[0] - b[0])}
            height={Math.abs(a[1] - b[1])}
          />
        );
      })}
      {course.obstacles
        .flatMap((o) => (o.stand ? equipmentShapes(o, o.stand, at) : []))
        .map((shape, i) => (
          <Equipment key={i} shape={shape} pixel={pixel} />
        ))}
      {here && (
        <text
          className={styles['number']}
          x={here[0]}
          y={here[1] - 8 * pixel}
          fontSize={13 * pixel}
          strokeWidth={3 * pixel}
        >
          {place}
        </text>
      )}
      {way && (
        <path
          className={styles['way']}
          d={`M${way.map(([x, y]) => `${x} ${y}`).join('L')}`}
          strokeWidth={2 * pixel}
        />
      )}
      {middle && (
        <circle
          className={styles['here']}
          cx={middle[0]}
          cy={middle[1]}
          r={5 * pixel}
          strokeWidth={2.5 * pixel}
        />
      )}
    </svg>
  );
});

/** Where the arrow of a piece stands: at its middle, or at the mouth of a tunnel that is meant. */
function poseOf({ kind, sizes, stand }: Obstacle, { part }: KnownPoint): Pose | null {
  if (!stand || kind !== 'tunnel') return stand ?? null;
  const [first, second] = tunnelMouths(stand, drawnSizes(kind, sizes).tunnelLength, 'forward');
  return part.part.startsWith('second') ? second : first;
}
