import { useRef, type PointerEvent } from 'react';
import type { GapAt, SideBySide } from '../../../src/review/compare/sideBySide.ts';
import { compareWords, gapTold, letterOf } from '../../../src/words/compare.ts';
import { clockReading } from '../../../src/words/figures.ts';
import { useWidth } from '../map/useWidth.ts';
import { useWorkbench } from '../stores/react.ts';
import { useLock, type CourseTime } from './courseTime.ts';
import styles from './GapLine.module.css';
import type { Lockstep } from './lockstep.ts';
import type { ComparedRun } from './useRuns.ts';
import { sliderKeys } from '../keys/sliderKeys.ts';

const words = compareWords.line;

/** Height of the curve and of the row of numbers under it, pixels; air before the first number and after the last. */
const high = 84;
const foot = 22;
const air = 26;
const airAfter = 84;
/** A gap of less than this fills the height, seconds: noise is not blown up. */
const leastSpan = 0.2;
/** Pixels that a number needs to itself. */
const numberRoom = 20;

interface GapLineProps {
  readonly runs: readonly ComparedRun[];
  readonly side: SideBySide;
  readonly course: CourseTime;
  readonly lockstep: Lockstep;
}

/** How far every other run is behind the first, number by number, with its band; the playhead of all of them. */
export function GapLine(props: GapLineProps) {
  const told = props.side.gaps.some((g) => g.length > 1) && props.course.outs.length > 1;
  return told ? <Band {...props} /> : <p className={styles['none']}>{words.none}</p>;
}

function Band({ runs, side, course, lockstep }: GapLineProps) {
  const box = useRef<HTMLDivElement>(null);
  const dragging = useRef(false);
  const width = useWidth(box);
  const at = useLock(lockstep, (v) => v.at);
  const now = course.now(at);
  const { outs } = course;
  const [first, last] = [outs[0], outs.at(-1)];
  const gaps = side.gaps.slice(1);
  const slider = useSlider(course, now);

  const [from, to] = [(first?.at ?? 0) - 1, (last?.at ?? 0) + 1];
  const long = Math.max(1, width - air - airAfter);
  const x = (t: number): number => air + ((t - from) / (to - from)) * long;
  const timeOf = (event: PointerEvent<HTMLElement>): number => {
    const px = event.clientX - event.currentTarget.getBoundingClientRect().left;
    return from + ((px - air) / long) * (to - from);
  };
  const all = gaps.flat().flatMap(({ gap }) => [gap.value - gap.plusMinus, gap.value + gap.plusMinus]);
  const low = Math.min(0, ...all);
  const top = Math.max(low + leastSpan, ...all, 0);
  // Behind lies below: a run that loses time falls.
  const y = (gap: number): number => 8 + ((gap - low) / (top - low)) * (high - 16);
  const atOf = new Map(outs.map((o) => [o.place, x(o.at)]));
  const numbered = outs.reduce<{ place: number; x: number }[]>((list, o) => {
    const here = { place: o.place, x: x(o.at) };
    return here.x - (list.at(-1)?.x ?? -Infinity) < numberRoom ? list : [...list, here];
  }, []);

  return (
    <div
      ref={box}
      className={styles['band']}
      style={{ height: high + foot }}
      {...slider}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        dragging.current = true;
        course.goTo(timeOf(event));
      }}
      onPointerMove={(event) => {
        if (dragging.current) course.goTo(timeOf(event));
      }}
      onPointerUp={() => {
        dragging.current = false;
      }}
      onPointerCancel={() => {
        dragging.current = false;
      }}
    >
      <svg className={styles['drawing']} width={width} height={high + foot} aria-hidden>
        {outs.map((o) => (
          <line key={o.place} className={styles['post']} x1={x(o.at)} x2={x(o.at)} y1={0} y2={high} />
        ))}
        <line className={styles['level']} x1={0} x2={width} y1={y(0)} y2={y(0)} />
        <text className={styles['end']} x={4} y={y(0) - 4}>
          {letterOf(0)}
        </text>
        {gaps.map((list, i) => (
          <Curve key={runs[i + 1]?.id} run={i + 1} list={list} x={(place) => atOf.get(place) ?? 0} y={y} />
        ))}
        {numbered.map((o) => (
          <text key={o.place} className={styles['number']} x={o.x} y={high + foot - 7}>
            {o.place}
          </text>
        ))}
        {now !== null && <line className={styles['now']} x1={x(now)} x2={x(now)} y1={0} y2={high + foot} />}
      </svg>
      <p className={styles['edges']} aria-hidden>
        {low < -leastSpan / 2 && <span>{words.ahead}</span>}
        <span className={styles['behind']}>{words.behind}</span>
      </p>
    </div>
  );
}

interface CurveProps {
  readonly run: number;
  readonly list: readonly GapAt[];
  readonly x: (place: number) => number;
  readonly y: (gap: number) => number;
}

function Curve({ run, list, x, y }: CurveProps) {
  const last = list.at(-1);
  if (!last) return null;
  const edge = (sign: 1 | -1): string[] =>
    list.map(({ place, gap }) => `${x(place)},${y(gap.value + sign * gap.plusMinus)}`);
  return (
    <g className={styles['curve']} data-run={run}>
      <polygon points={[...edge(1), ...edge(-1).reverse()].join(' ')} />
      <polyline points={list.map(({ place, gap }) => `${x(place)},${y(gap.value)}`).join(' ')} />
      {list.map(({ place, gap }) => (
        <circle key={place} cx={x(place)} cy={y(gap.value)} r={3}>
          <title>{words.told(letterOf(run), gapTold(gap))}</title>
        </circle>
      ))}
      <text className={styles['end']} x={x(last.place) + 8} y={y(last.gap.value) + 4}>
        {letterOf(run)}
      </text>
    </g>
  );
}

/** The line as a slider for screen readers; its keys are those of the screen, which work everywhere. */
function useSlider(course: CourseTime, now: number | null): React.HTMLAttributes<HTMLDivElement> {
  const { keyboard } = useWorkbench();
  const [first, last] = [course.outs[0], course.outs.at(-1)];
  const since = (now ?? 0) - (first?.at ?? 0);
  const place = now === null ? null : course.placeAt(now);
  return {
    role: 'slider',
    tabIndex: 0,
    'aria-label': words.label,
    'aria-description': words.hint,
    'aria-valuemin': 0,
    'aria-valuemax': Math.round(((last?.at ?? 0) - (first?.at ?? 0)) * 100) / 100,
    'aria-valuenow': Math.round(since * 100) / 100,
    'aria-valuetext': words.value(clockReading(since), place === null ? '' : String(place)),
    onKeyDown: sliderKeys(keyboard),
  };
}
