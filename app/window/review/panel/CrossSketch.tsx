import { useMemo, useRef } from 'react';
import { courseMap } from '../../../../src/course/courseMap.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { around, type Footfall, type Span } from '../../../../src/track/aroundCross.ts';
import type { Pair } from '../../../../src/track/pairs.ts';
import type { RealLine } from '../../../../src/track/realLine.ts';
import { everywhere, unseenAt } from '../../../../src/track/whereAt.ts';
import { aroundCrossWords as words } from '../../../../src/words/aroundCross.ts';
import { Equipment } from '../../map/Equipment.tsx';
import { useWidth } from '../../map/useWidth.ts';
import { useOpenReview } from '../DeskContext.ts';
import styles from './CrossSketch.module.css';
import { upright, uprightPoint, uprightTurn } from './turned.ts';

interface SketchProps {
  readonly pair: Pair;
  readonly span: Span;
  readonly steps: readonly Footfall[];
  readonly place: number;
}

/** Metres left free round the two ways. */
const rim = 1;
/** The sketch shows at least so many metres, so that a short cross is not blown up. */
const least = 6;

/** The map about a cross, as the other maps of the panel lie, with both ways and every step. */
export function CrossSketch({ pair, span, steps, place }: SketchProps) {
  const { course } = useOpenReview();
  const box = useRef<HTMLDivElement>(null);
  const across = useWidth(box);
  const map = useMemo(() => courseMap(upright(course)), [course]);
  const ways = useMemo(() => {
    const up = uprightPoint(course);
    const { x: x0, y: y1 } = map?.corner ?? { x: 0, y: 0 };
    const at = (p: GroundPoint): GroundPoint => {
      const { x, y } = up(p);
      return { x: x - x0, y: y1 - y };
    };
    return {
      dog: pieces(pair.dog, span).map((piece) => piece.map(at)),
      handler: pieces(pair.handler, span).map((piece) => piece.map(at)),
      steps: steps.map((step) => ({ ...step, ...at(step) })),
    };
  }, [pair, span, steps, course, map]);
  const points = [...ways.dog.flat(), ...ways.handler.flat(), ...ways.steps];
  if (points.length < 2) return null;
  const { x, y, width, height } = frameOf(points);
  const pixel = across > 0 ? width / across : width / 230;
  const inside = (p: GroundPoint): boolean => p.x > x && p.x < x + width && p.y > y && p.y < y + height;
  return (
    <div ref={box} className={styles['sketch']}>
      <svg
        viewBox={`${x} ${y} ${width} ${height}`}
        role="img"
        aria-label={words.map}
        style={{ '--pixel': pixel } as React.CSSProperties}
      >
        {map?.toScale &&
          map.shapes.map((shape, i) =>
            shape.shape === 'path' && shape.as === 'order' ? null : (
              <Equipment key={i} shape={shape} pixel={pixel} />
            ),
          )}
        {ways.dog.map((piece, i) => (
          <Way key={i} of={piece} who="dog" pixel={pixel} />
        ))}
        {ways.handler.map((piece, i) => (
          <Way key={i} of={piece} who="handler" pixel={pixel} />
        ))}
        {ways.steps.map((s) => (
          <Step key={`${s.foot}${s.at}`} step={s} turn={uprightTurn(course)} pixel={pixel} />
        ))}
        {map?.shapes.map((shape, i) =>
          shape.shape === 'number' && inside(shape) ? (
            <text
              key={i}
              className={styles['number']}
              data-here={shape.text === String(place)}
              x={shape.x}
              y={shape.y}
              fontSize={13 * pixel}
            >
              {shape.text}
            </text>
          ) : null,
        )}
      </svg>
      <ul className={styles['legend']}>
        {(['dog', 'handler'] as const).map((who) => (
          <li key={who}>
            <svg className={styles['key']} viewBox="0 0 24 8" aria-hidden>
              <path className={styles[who]} d="M1 4H23" />
            </svg>
            {words.legend[who]}
          </li>
        ))}
        {(['left', 'right'] as const)
          .filter((foot) => steps.some((s) => s.foot === foot))
          .map((foot) => (
            <li key={foot}>
              <svg className={styles['key']} viewBox="-12 -8 24 16" aria-hidden>
                <path className={styles['step']} data-foot={foot} d={wedge} />
              </svg>
              {words.legend[foot]}
            </li>
          ))}
      </ul>
    </div>
  );
}

/** The marked pieces of a way about a cross: a time without marks is left out, not bridged. */
function pieces(line: RealLine, { from, to }: Span): GroundPoint[][] {
  const found: GroundPoint[][] = [];
  let before: number | null = null;
  for (const [i, p] of everywhere(line).entries()) {
    const t = line.times[i] ?? NaN;
    if (!(t >= from - around && t <= to + around) || unseenAt(line, t)) continue;
    if (before === null || i !== before + 1) found.push([]);
    found.at(-1)?.push(p);
    before = i;
  }
  return found.filter((piece) => piece.length > 1);
}

/** A frame about points, at least as wide as high: a narrow panel shows what lies beside a long way too. */
function frameOf(points: readonly GroundPoint[]) {
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const height = Math.max(least, bottom - top + 2 * rim);
  const width = Math.max(height, right - left + 2 * rim);
  return { x: (left + right - width) / 2, y: (top + bottom - height) / 2, width, height };
}

/** A way with a head that says which way it was run. */
function Way({
  of,
  who,
  pixel,
}: {
  readonly of: readonly GroundPoint[];
  readonly who: 'dog' | 'handler';
  readonly pixel: number;
}) {
  const [end, before] = [of.at(-1), of.at(-2)];
  return (
    <>
      <path className={styles[who]} d={`M${of.map((p) => `${p.x} ${p.y}`).join('L')}`} />
      {end && before && (
        <path
          className={styles['head']}
          data-who={who}
          d="M7 0L-4 5L-4 -5z"
          transform={placed(end, (Math.atan2(end.y - before.y, end.x - before.x) * 180) / Math.PI, pixel)}
        />
      )}
    </>
  );
}

const placed = ({ x, y }: GroundPoint, degrees: number, pixel: number): string =>
  `translate(${x} ${y}) rotate(${degrees}) scale(${pixel})`;

/** Points to the right, in pixels. */
const wedge = 'M9 0L-6 6L-2 0L-6 -6z';

/** A step: a wedge that points where she was going, a round mark where she stood; left and right differ by their fill. */
function Step({
  step,
  turn,
  pixel,
}: {
  readonly step: Footfall;
  readonly turn: number;
  readonly pixel: number;
}) {
  const { heading, foot } = step;
  return (
    <path
      className={styles['step']}
      data-foot={foot}
      d={heading === null ? 'M-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z' : wedge}
      // The map's y goes down, headings go counter-clockwise.
      transform={placed(step, heading === null ? 0 : -(heading + turn), pixel)}
    />
  );
}
