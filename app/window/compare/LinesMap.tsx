import type { MeasuredLine } from '../../../src/review/compare/measuredLine.ts';
import { everywhere } from '../../../src/track/whereAt.ts';
import { compareWords, letterOf } from '../../../src/words/compare.ts';
import { CourseMap, type MapGround } from '../map/CourseMap.tsx';
import { usePicture } from '../map/usePicture.ts';
import type { DetailsProps } from './Details.tsx';
import styles from './Details.module.css';

const words = compareWords.map;

/** The course with the lines of all dogs whose lines are measured; a number goes there in every picture. */
export function LinesMap({ runs, measured, course }: DetailsProps) {
  const known = runs.find(({ state: { course: c } }) => c.obstacles.some((o) => o.stand)) ?? runs[0];
  const pictureUrl = usePicture(known?.state.course.mapPicture?.pictureId);
  const lines = (measured ?? []).flatMap((m, run) => (m ? [{ run, measured: m }] : []));
  return (
    <section className={styles['map']}>
      <h2>{lines.length > 0 ? words.lines : words.title}</h2>
      {known ? (
        <div className={styles['sheet']}>
          <CourseMap
            course={known.state.course}
            pictureUrl={pictureUrl}
            onSelect={course.goToPlace}
            over={(ground) => (
              <svg className={styles['over']} viewBox={`0 0 ${ground.width} ${ground.height}`} aria-hidden>
                {lines.map((line) => (
                  <Line key={line.run} {...line} ground={ground} />
                ))}
              </svg>
            )}
          />
        </div>
      ) : (
        <p>{words.none}</p>
      )}
    </section>
  );
}

interface LineProps {
  readonly run: number;
  readonly measured: MeasuredLine;
  readonly ground: MapGround;
}

/** A measured line: told apart by weight, dashes and the letter at its end as well as by colour. */
function Line({ run, measured, ground: { at, pixel } }: LineProps) {
  const points = everywhere(measured.line).map(at);
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return null;
  return (
    <g className={styles['line']} data-run={run}>
      <polyline points={points.map((p) => `${p.x},${p.y}`).join(' ')} />
      <circle cx={first.x} cy={first.y} r={4 * pixel} />
      <text x={last.x + 6 * pixel} y={last.y} fontSize={14 * pixel} strokeWidth={3 * pixel}>
        {letterOf(run)}
      </text>
    </g>
  );
}
