import { useMemo, useRef, type ReactNode } from 'react';
import { obstacleAt, type Course } from '../../../src/course/course.ts';
import { courseMap, type CourseMap as DrawnMap } from '../../../src/course/courseMap.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { courseWords } from '../../../src/words/course.ts';
import { obstacleName } from '../../../src/words/review.ts';
import { useBuilt } from '../stores/bookOf.ts';
import { usePreferences } from '../stores/react.ts';
import styles from './CourseMap.module.css';
import { apart } from './apart.ts';
import { Equipment } from './Equipment.tsx';
import { NumberBoard } from './NumberBoard.tsx';
import { useWidth } from './useWidth.ts';

/** How the ground lies on a map. */
export interface MapGround {
  /** Size of the map in its own units, metres. */
  readonly width: number;
  readonly height: number;
  /** Map units a pixel of the screen. */
  readonly pixel: number;
  readonly at: (p: GroundPoint) => GroundPoint;
}

interface CourseMapProps {
  readonly course: Course;
  /** The number that is in hand, drawn in the accent. */
  readonly selectedPlace?: number | null;
  /** Called with a number that was touched. Without it the numbers are only looked at. */
  readonly onSelect?: (place: number) => void;
  /** Address of the picture of the judge's map, where there is one. */
  readonly pictureUrl?: string | null;
  /** What is laid over a map that is drawn to scale, under its numbers. */
  readonly over?: (ground: MapGround) => ReactNode;
  /** Shows the picture even where the course is drawn. */
  readonly preferPicture?: boolean;
}

/**
 * The course as it is known: drawn to scale where the equipment has its places, else the picture of the judge's
 * map with the numbers on it, else the bare numbers. Fills its container and keeps its shape.
 */
export function CourseMap(props: CourseMapProps) {
  const { course, pictureUrl = null, preferPicture = false } = props;
  const built = useBuilt(course);
  const map = useMemo(() => courseMap(built), [built]);
  const picture = course.mapPicture;
  if (map?.toScale && !(preferPicture && picture && pictureUrl)) return <Plan {...props} map={map} />;
  if (picture && pictureUrl) return <Picture {...props} url={pictureUrl} size={picture} />;
  return <Numbers {...props} />;
}

/** What a number is read out as: "4, the gate". */
function nameOf(course: Course, place: number, dialect: 'british' | 'american'): string {
  const name = obstacleName(obstacleAt(course, place), dialect);
  return name === '' ? String(place) : `${place}, ${name}`;
}

function Plan({ course, selectedPlace, onSelect, over, map }: CourseMapProps & { readonly map: DrawnMap }) {
  const dialect = usePreferences((p) => p.dialect);
  const lengths = usePreferences((p) => p.lengths);
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const scale = width > 0 ? width / map.width : 10;
  const boards = map.shapes.filter((shape) => shape.shape === 'number');
  const sheet = { width: map.width * scale, height: map.height * scale };
  const spots = apart(
    boards.map((board) => ({ x: board.x * scale, y: board.y * scale })),
    sheet.width,
    sheet.height,
  );
  const rule = scaleRule(map.width, lengths);
  return (
    <div className={styles['frame']}>
      <div
        ref={box}
        className={styles['sheet']}
        style={{ '--shape': map.width / map.height } as React.CSSProperties}
        role="group"
        aria-label={courseWords.map.drawn(course.steps.length)}
      >
        <svg className={styles['drawing']} viewBox={`0 0 ${map.width} ${map.height}`} aria-hidden>
          {map.shapes.map((shape, i) => (
            <Equipment key={i} shape={shape} pixel={1 / scale} />
          ))}
        </svg>
        {over?.({ width: map.width, height: map.height, pixel: 1 / scale, at: placeOn(map) })}
        {boards.map((board, i) => (
          <NumberBoard
            key={i}
            place={Number(board.text)}
            x={(spots[i]?.x ?? 0) / sheet.width}
            y={(spots[i]?.y ?? 0) / sheet.height}
            name={nameOf(course, Number(board.text), dialect)}
            selected={Number(board.text) === selectedPlace}
            {...(onSelect ? { onSelect } : {})}
          />
        ))}
        <div className={styles['rule']} style={{ width: `${(rule.metres / map.width) * 100}%` }} aria-hidden>
          {rule.words}
        </div>
      </div>
    </div>
  );
}

/** Where a point of the ground lies on a drawn map, in the map's units. */
const placeOn =
  ({ corner = { x: 0, y: 0 } }: DrawnMap) =>
  ({ x, y }: GroundPoint): GroundPoint => ({ x: x - corner.x, y: corner.y - y });

/** A round length about a fifth of the map's width, for the rule in its corner. */
function scaleRule(width: number, lengths: 'metres' | 'feet'): { metres: number; words: string } {
  const foot = 0.3048;
  const unit = lengths === 'metres' ? 1 : foot;
  const round = [1, 2, 5, 10, 20, 50, 100, 200].filter((n) => n * unit <= width / 4).at(-1) ?? 1;
  return { metres: round * unit, words: courseWords.map.rule(round, lengths) };
}

interface PictureProps extends CourseMapProps {
  readonly url: string;
  readonly size: { readonly width: number; readonly height: number };
}

function Picture({ course, selectedPlace, onSelect, url, size }: PictureProps) {
  const dialect = usePreferences((p) => p.dialect);
  return (
    <div className={styles['frame']}>
      <div
        className={styles['sheet']}
        style={{ '--shape': size.width / size.height } as React.CSSProperties}
        role="group"
        aria-label={courseWords.map.picture}
      >
        <img className={styles['drawing']} src={url} alt={courseWords.map.pictureAlt} draggable={false} />
        {course.steps.map(
          ({ number, onPicture }) =>
            onPicture && (
              <NumberBoard
                key={number}
                place={number}
                x={onPicture.x}
                y={onPicture.y}
                name={nameOf(course, number, dialect)}
                selected={number === selectedPlace}
                {...(onSelect ? { onSelect } : {})}
              />
            ),
        )}
      </div>
    </div>
  );
}

function Numbers({ course, selectedPlace, onSelect }: CourseMapProps) {
  const dialect = usePreferences((p) => p.dialect);
  if (course.steps.length === 0) return <p className={styles['none']}>{courseWords.map.noNumbers}</p>;
  return (
    <ol className={styles['numbers']} aria-label={courseWords.map.bare}>
      {course.steps.map(({ number }) => (
        <li key={number}>
          <NumberBoard
            place={number}
            name={nameOf(course, number, dialect)}
            selected={number === selectedPlace}
            {...(onSelect ? { onSelect } : {})}
          />
        </li>
      ))}
    </ol>
  );
}
