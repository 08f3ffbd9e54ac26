import { equipmentShapes, type PlanPoint } from '../../../../src/course/planShapes.ts';
import type { ErrorMap } from '../../../../src/ground/groundError.ts';
import { groundWords } from '../../../../src/words/groundPage.ts';
import { Equipment } from '../../map/Equipment.tsx';
import { useGround } from '../DeskContext.ts';
import { bandOf } from './drawn.ts';
import styles from './GroundPage.module.css';
import { standOf } from './tells.ts';
import { groundOf, type Scene } from './scene.ts';

const words = groundWords.page;

/** Width of the map on the page, pixels: thin things are drawn so thick that they show on it. */
const shown = 220;

/** The ring from above with what a click is expected to be off, the point at hand marked; a wide ring lies upright. */
export function GroundMap({
  scene,
  map,
  place,
}: {
  readonly scene: Scene;
  readonly map: ErrorMap;
  readonly place: number | null;
}) {
  const part = useGround((v) => v.part);
  const { course, known } = scene;
  const { from, to } = groundOf(course);
  const [wide, long] = [to.x - from.x, to.y - from.y];
  const turned = wide > long;
  const at = (x: number, y: number): PlanPoint => (turned ? [to.y - y, to.x - x] : [x - from.x, to.y - y]);
  const [width, height] = turned ? [long, wide] : [wide, long];
  const pixel = width / shown;
  const point = known.find((k) => k.id === part);
  const stand = place === null ? null : standOf(course, place);
  const mark = point ? at(point.at.x, point.at.y) : null;
  const here = stand ? at(stand.x, stand.y) : null;
  return (
    <svg
      className={styles['map']}
      viewBox={`${-pixel} ${-pixel} ${width + 2 * pixel} ${height + 2 * pixel}`}
      role="img"
      aria-label={words.map}
    >
      <rect className={styles['grass']} width={width} height={height} strokeWidth={pixel} />
      {map.centimetres.map((centimetres, i) => {
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
      {mark && (
        <circle
          className={styles['here']}
          cx={mark[0]}
          cy={mark[1]}
          r={5 * pixel}
          strokeWidth={2.5 * pixel}
        />
      )}
    </svg>
  );
}
