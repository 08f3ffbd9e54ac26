import { useMemo } from 'react';
import { obstacleAt } from '../../../../src/course/course.ts';
import { equipmentShapes, type PlanPoint } from '../../../../src/course/planShapes.ts';
import type { CrossAnalysis } from '../../../../src/review/analysis.ts';
import { middle } from '../../../../src/time/bracket.ts';
import { footfallsIn, leastGap, type Footfall } from '../../../../src/track/aroundCross.ts';
import { readingsFrom } from '../../../../src/track/fromMarks.ts';
import { apartAt, pathsCrossed } from '../../../../src/track/pairs.ts';
import { pairOf } from '../../../../src/track/runLines.ts';
import { everywhere, unseenAt } from '../../../../src/track/whereAt.ts';
import { aroundCrossWords as words } from '../../../../src/words/aroundCross.ts';
import { clockReading, figure } from '../../../../src/words/figures.ts';
import { crossedSentence } from '../../../../src/words/realLineSentences.ts';
import { useAnalysis, useReview } from '../../stores/react.ts';
import { useDeskView, useLines, useOpenReview } from '../DeskContext.ts';
import styles from './AroundCross.module.css';
import crossStyles from './CrossesTab.module.css';
import { uprightPoint, uprightTurn } from './turned.ts';

/** Seconds of her way shown before the first and after the last moment of a cross. */
const around = 0.6;

/** What the marked paths say of a cross: steps with the way they face, the gap to the dog's way, where it was crossed. */
export function AroundCross({ cross }: { readonly cross: CrossAnalysis }) {
  const review = useOpenReview();
  const analysis = useAnalysis();
  const lines = useLines((v) => v.lines);
  const ground = useLines((v) => v.ground);
  const footageId = useDeskView((v) => v.footageId);
  const clock = useReview((v) => (footageId === null ? undefined : v.clocks.get(footageId)));
  const pair = useMemo(() => pairOf(lines), [lines]);
  const span = useMemo(() => spanOf(cross), [cross]);
  const feet = useMemo(() => {
    if (!ground || !clock) return [];
    return review.tracks.flatMap((t) => {
      if (t.who !== 'handler' || t.during !== 'run' || t.footageId !== footageId) return [];
      if (t.point !== 'leftFoot' && t.point !== 'rightFoot') return [];
      const foot = t.point === 'leftFoot' ? ('left' as const) : ('right' as const);
      const marks = t.marks.filter((m) => ground.holds(m.pts));
      return readingsFrom({ marks }, clock, ground.view).readings.flatMap((reading) =>
        reading.contact === 'ground' ? [{ foot, reading }] : [],
      );
    });
  }, [review.tracks, footageId, ground, clock]);
  const found = useMemo(() => {
    if (!pair || !span) return null;
    const crossed = pathsCrossed(pair).find(
      ({ handlerAt: { value } }) => value >= span.from - around && value <= span.to + around,
    );
    return {
      pair,
      span,
      crossed,
      steps: footfallsIn(pair, feet, span.from, span.to),
      gap: leastGap(pair, span.from, span.to),
    };
  }, [pair, span, feet]);
  if (!found) return null;
  const start = analysis?.clock ? middle(analysis.clock.start.bracket) : 0;
  const read = (at: number): string => clockReading(at - start);
  const support = review.plan.supports.find((s) => s.place === cross.place);
  const committed = cross.parts.committed ?? cross.parts.takeOff ?? cross.deadline;
  const apart = committed && apartAt(found.pair, middle(committed.bracket));
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h4>{words.title}</h4>
      <Sketch {...found} place={cross.place} />
      <dl className={crossStyles['figures']}>
        <div>
          <dt>{words.steps}</dt>
          <dd data-figure={`steps-${cross.place}`}>{words.stepsTold(found.steps)}</dd>
        </div>
        {found.gap && (
          <div>
            <dt>{words.gap}</dt>
            <dd data-figure={`gap-${cross.place}`}>{words.gapTold(found.gap, read(found.gap.at))}</dd>
          </div>
        )}
        <div>
          <dt>{words.crossed}</dt>
          <dd>{found.crossed ? crossedSentence(found.crossed, read) : words.notCrossed}</dd>
        </div>
        {support && (
          <div>
            <dt>{words.support}</dt>
            <dd>{words.supportTold(support.until, apart ? figure(apart) : null)}</dd>
          </div>
        )}
      </dl>
    </section>
  );
}

/** From the first cue to the landing, or as far as it is marked; null where nothing is. */
function spanOf({
  cues,
  parts,
  deadline,
}: CrossAnalysis): { readonly from: number; readonly to: number } | null {
  const marked = [...cues.map((c) => c.begins), ...Object.values(parts), deadline].flatMap((m) =>
    m ? [middle(m.bracket)] : [],
  );
  return marked.length > 1 ? { from: Math.min(...marked), to: Math.max(...marked) } : null;
}

interface SketchProps {
  readonly pair: NonNullable<ReturnType<typeof pairOf>>;
  readonly span: { readonly from: number; readonly to: number };
  readonly steps: readonly Footfall[];
  readonly place: number;
}

/** Metres left free round what is shown. */
const rim = 1;

/** The course about a cross with both ways and every step, as the map lies. */
function Sketch({ pair, span, steps, place }: SketchProps) {
  const { course } = useOpenReview();
  const up = uprightPoint(course);
  const at = (p: { readonly x: number; readonly y: number }): PlanPoint => {
    const { x, y } = up(p);
    return [x, -y];
  };
  const wayOf = (line: SketchProps['pair']['dog']): PlanPoint[] =>
    everywhere(line).flatMap((p, i) => {
      const t = line.times[i] ?? NaN;
      return t >= span.from - around && t <= span.to + around && !unseenAt(line, t) ? [at(p)] : [];
    });
  const [dog, handler] = [wayOf(pair.dog), wayOf(pair.handler)];
  const obstacle = obstacleAt(course, place);
  const stand = obstacle?.stand;
  const points = [...dog, ...handler, ...steps.map(at), ...(stand ? [at(stand)] : [])];
  if (points.length < 2) return null;
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x, y] = [Math.min(...xs) - rim, Math.min(...ys) - rim];
  const box = `${x} ${y} ${Math.max(...xs) + rim - x} ${Math.max(...ys) + rim - y}`;
  const line = (way: readonly PlanPoint[]): string => way.map((p) => p.join(',')).join(' ');
  const shapes = obstacle && stand ? equipmentShapes(obstacle, stand, (px, py) => at({ x: px, y: py })) : [];
  return (
    <svg className={styles['sketch']} viewBox={box} role="img" aria-label={words.map}>
      {shapes.map((s, i) =>
        s.shape === 'path' ? (
          <polyline key={i} className={styles['piece']} points={line(s.points)} strokeWidth={s.width} />
        ) : (
          <circle key={i} className={styles['piece']} cx={s.x} cy={s.y} r={s.r} />
        ),
      )}
      <polyline className={styles['dog']} points={line(dog)} />
      <polyline className={styles['handler']} points={line(handler)} />
      {steps.map((s) => (
        <Step key={`${s.foot}${s.at}`} step={s} at={at(s)} turn={uprightTurn(course)} />
      ))}
    </svg>
  );
}

/** A step: a wedge that points where she was going, a round mark where she stood; left and right differ by their fill. */
function Step({
  step: { heading, foot },
  at: [x, y],
  turn,
}: {
  readonly step: Footfall;
  readonly at: PlanPoint;
  readonly turn: number;
}) {
  if (heading === null) return <circle className={styles['step']} data-foot={foot} cx={x} cy={y} r={0.12} />;
  return (
    <path
      className={styles['step']}
      data-foot={foot}
      d="M0.28 0L-0.16 0.16L-0.06 0L-0.16 -0.16z"
      transform={`translate(${x} ${y}) rotate(${-(heading + turn)})`}
    />
  );
}
