import { useMemo } from 'react';
import { obstacleAt } from '../../../../src/course/course.ts';
import { mannerOf } from '../../../../src/course/kinds.ts';
import { lengthBetween } from '../../../../src/track/figures.ts';
import { gatesOf } from '../../../../src/track/gates.ts';
import {
  jumpFigures,
  stretchFigures,
  type JumpFigures,
  type StretchFigures,
} from '../../../../src/track/stretches.ts';
import { wantedParts } from '../../../../src/track/wantedParts.ts';
import { figure } from '../../../../src/words/figures.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { bendSentence, offSentence } from '../../../../src/words/realLineSentences.ts';
import { obstacleName } from '../../../../src/words/review.ts';
import { useAnalysis, usePreferences } from '../../stores/react.ts';
import { useLines, useOpenReview } from '../DeskContext.ts';
import { GoToTime } from '../GoToTime.tsx';
import styles from './LinePage.module.css';
import { useWantedLine } from './useExpectedLines.ts';
import { useWays } from './useWays.ts';

const words = realLineWords.stretches;

/** Length, speed, bends, distance from the wanted line and the two ends of each jump, stretch by stretch. */
export function StretchPart() {
  const line = useLines((v) => v.lines.dog?.line ?? null);
  const course = useLines((v) => v.course);
  const analysis = useAnalysis();
  const wanted = useWantedLine();
  const ways = useWays(line);
  const counted = analysis?.countedTry;
  const taken = useMemo(
    () => (analysis?.taken ?? []).filter((t) => t.try === counted).toSorted((a, b) => a.place - b.place),
    [analysis, counted],
  );
  const parts = useMemo(
    () => (wanted && course ? wantedParts(wanted, course) : new Map<number, never>()),
    [wanted, course],
  );
  const stretches = useMemo(() => (ways ? stretchFigures(ways, taken, parts) : []), [ways, taken, parts]);
  const jumps = useMemo(() => {
    if (!line || !course) return [];
    const gates = new Map(
      course.steps.flatMap(({ number }) => {
        const o = obstacleAt(course, number);
        const gate = o?.stand && mannerOf(o.kind) === 'jumped' ? gatesOf(o, o.stand)[0] : undefined;
        return gate ? [[number, gate] as const] : [];
      }),
    );
    return jumpFigures(line, taken, gates);
  }, [line, course, taken]);
  const whole = useMemo(() => (ways ? lengthBetween(ways, ways.line.from, ways.line.to) : null), [ways]);
  if (!line) return null;
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      <p>
        {words.whole} <span data-figure="length">{whole ? figure(whole) : words.working}</span>
      </p>
      {stretches.length === 0 && ways && <p className={styles['soft']}>{words.none}</p>}
      <ul className={styles['cards']}>
        {stretches.map((s) => (
          <Stretch key={s.to} stretch={s} jump={jumps.find((j) => j.place === s.to)} />
        ))}
      </ul>
      {jumps.length > 0 && stretches.length === 0 && (
        <ul className={styles['cards']}>
          {jumps.map((j) => (
            <li key={j.place} className={styles['card']}>
              <h4>{j.place}</h4>
              <Jump jump={j} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Stretch({
  stretch: s,
  jump,
}: {
  readonly stretch: StretchFigures;
  readonly jump: JumpFigures | undefined;
}) {
  const { course } = useOpenReview();
  const dialect = usePreferences((p) => p.dialect);
  return (
    <li className={styles['card']}>
      <GoToTime at={s.begins}>
        {words.stretch(s.from, s.to)} {obstacleName(obstacleAt(course, s.to), dialect)}
      </GoToTime>
      <dl className={styles['figures']} data-stretch={`${s.from}-${s.to}`}>
        {s.length && (
          <div>
            <dt>{words.length}</dt>
            <dd data-figure={`length-${s.to}`}>{figure(s.length)}</dd>
          </div>
        )}
        {s.speed && (
          <div>
            <dt>{words.speed}</dt>
            <dd>{figure(s.speed)}</dd>
          </div>
        )}
        {s.bend && (
          <div>
            <dt>{words.bend}</dt>
            <dd>{bendSentence(s.bend)}</dd>
          </div>
        )}
        {s.off && (
          <div>
            <dt>{words.off}</dt>
            <dd>{offSentence(s.off)}</dd>
          </div>
        )}
        {s.over && (
          <div>
            <dt>{words.over}</dt>
            <dd data-figure={`over-${s.to}`}>{`${figure(s.over.metres)}, ${figure(s.over.seconds)}`}</dd>
          </div>
        )}
        {jump && <Jump jump={jump} />}
      </dl>
      {s.gap && <p className={styles['soft']}>{words.gap}</p>}
      {s.weave && <p className={styles['soft']}>{words.weave}</p>}
    </li>
  );
}

function Jump({ jump: { takeOff, landing } }: { readonly jump: JumpFigures }) {
  return (
    <>
      {takeOff && (
        <div>
          <dt>{words.takeOff}</dt>
          <dd>{figure(takeOff)}</dd>
        </div>
      )}
      {landing && (
        <div>
          <dt>{words.landing}</dt>
          <dd>{figure(landing)}</dd>
        </div>
      )}
    </>
  );
}
