import { memo, useMemo } from 'react';
import type { GroundPoint } from '../../../../src/course/points.ts';
import type { LineSample } from '../../../../src/track/samples.ts';
import { usePreferences } from '../../stores/react.ts';
import { useLines } from '../DeskContext.ts';
import type { Span } from '../line/scale.ts';
import { bandPieces, drawnPieces, pathOf, speedRange, type Placing } from '../../../../src/track/drawn.ts';
import styles from './GroundLines.module.css';
import type { ExpectedLines } from './useExpectedLines.ts';

/**
 * The lines on the ground, wherever the ground lies on the screen: over the footage in its perspective, or on the map.
 * The real line is solid, those that were expected are dashed, the handler's is a row of short steps.
 */
export const GroundLines = memo(function GroundLines({
  place,
  unit,
  expected,
  about = null,
}: {
  readonly place: Placing;
  /** Units of the drawing a pixel of the screen. */
  readonly unit: number;
  readonly expected: ExpectedLines;
  /** Seconds of the run between which the real lines are shown; all of them where absent. */
  readonly about?: Span | null;
}) {
  const look = usePreferences((p) => p.realLine);
  const all = useLines((v) => v.samples);
  const shown = useLines((v) => v.lines);
  const range = useMemo(() => speedRange(all.dog), [all.dog]);
  const dog = useMemo(() => within(all.dog, about), [all.dog, about]);
  const handler = useMemo(() => within(all.handler, about), [all.handler, about]);
  const way = (points: readonly GroundPoint[]): string => pathOf(points, place);
  return (
    <g className={styles['lines']} fill="none" strokeLinecap="round" strokeLinejoin="round">
      {look.band && look.dog && <Band samples={dog} place={place} />}
      {look.likely &&
        expected.likely.map((points, i) => (
          <Way key={i} d={way(points)} name="likely" width={2.5 * unit} dashes={`${8 * unit} ${6 * unit}`} />
        ))}
      {look.wanted && expected.wanted && (
        <Way d={way(expected.wanted)} name="wanted" width={2.5 * unit} dashes={`${10 * unit} ${5 * unit}`} />
      )}
      {look.handler && handler.length > 0 && (
        <>
          <Way d={way(handler)} name="handler" width={3 * unit} dashes={`${2 * unit} ${6 * unit}`} />
          {within(shown.handler?.readings ?? [], about).map((r, i) => {
            const at = r.contact === 'ground' ? place(r) : null;
            return (
              at && (
                <circle
                  key={i}
                  className={styles['foot']}
                  cx={at.x}
                  cy={at.y}
                  r={3 * unit}
                  strokeWidth={unit}
                />
              )
            );
          })}
        </>
      )}
      {look.dog && <DogLine samples={dog} range={range} place={place} unit={unit} />}
    </g>
  );
});

const within = <T extends { readonly at: number }>(list: readonly T[], about: Span | null): readonly T[] =>
  about ? list.filter((s) => s.at >= about.from && s.at <= about.to) : list;

function Band({ samples, place }: { readonly samples: readonly LineSample[]; readonly place: Placing }) {
  const d = useMemo(
    () =>
      bandPieces(samples)
        .map((piece) => pathOf(piece, place, true))
        .join(''),
    [samples, place],
  );
  return <path className={styles['band']} d={d} />;
}

function DogLine({
  samples,
  range,
  place,
  unit,
}: {
  readonly samples: readonly LineSample[];
  readonly range: ReturnType<typeof speedRange>;
  readonly place: Placing;
  readonly unit: number;
}) {
  const speed = usePreferences((p) => p.realLine.speed);
  const pieces = useMemo(
    () => drawnPieces(samples, speed, range).map((piece) => ({ ...piece, d: pathOf(piece.points, place) })),
    [samples, speed, range, place],
  );
  return (
    <g data-line="dog">
      {pieces.map((p, i) => (
        <path key={`c${i}`} className={styles['casing']} d={p.d} strokeWidth={(p.pixels + 2.5) * unit} />
      ))}
      {pieces.map((p, i) => (
        <path
          key={i}
          className={styles['dog']}
          data-shade={p.shade ?? undefined}
          style={p.shade === null ? undefined : { stroke: `var(--speed-${p.shade})` }}
          d={p.d}
          strokeWidth={p.pixels * unit}
          strokeDasharray={p.dashed ? `${3 * unit} ${7 * unit}` : undefined}
        />
      ))}
    </g>
  );
}

function Way({
  d,
  name,
  width,
  dashes,
}: {
  readonly d: string;
  readonly name: 'likely' | 'wanted' | 'handler';
  readonly width: number;
  readonly dashes: string;
}) {
  return (
    <g data-line={name}>
      <path className={styles['casing']} d={d} strokeWidth={width * 1.8} strokeDasharray={dashes} />
      <path className={styles[name]} d={d} strokeWidth={width} strokeDasharray={dashes} />
    </g>
  );
}
