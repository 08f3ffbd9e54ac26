import type { CourseHead } from '../../../src/course/course.ts';
import { CourseHead as Head } from '../../../src/course/course.ts';
import { usualRing } from '../../../src/course/drawing/pieces.ts';
import { fromUnit, inUnit } from '../../../src/course/grid.ts';
import { templateNames, withTemplate, type TemplateName } from '../../../src/course/templates.ts';
import { drawingWords, lengthWords, plainFigure } from '../../../src/words/drawing.ts';
import { Button } from '../look/Button.tsx';
import { Choice, KeptField } from '../look/Field.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { useBoard } from './BoardContext.ts';
import styles from './FieldsPage.module.css';
import { useCourse } from './useCourse.ts';

const words = drawingWords.course;
const labels = drawingWords.labels;

/** Least and most that a ring measures, metres (as the schema of a course has them). */
const ringLimits = [1, 500] as const;

/** The ring, the head of the course map, and what a drawing can start from. */
export function FieldsPage() {
  const { notices } = useWorkbench();
  const { state, changeCourse } = useCourse();
  const board = useBoard();
  const { course } = state;
  const lengths = usePreferences((p) => p.lengths);
  const unit = course.unit ?? lengths;
  const ring = course.ring ?? usualRing;

  const keepRing =
    (side: 'width' | 'length') =>
    (text: string): void => {
      const metres = fromUnit(Number(text.trim().replace(',', '.')), unit);
      if (!(metres >= ringLimits[0] && metres <= ringLimits[1])) {
        const [least, most] = ringLimits;
        notices.getState().say(words.notASize(lengthWords(least, unit, 0), lengthWords(most, unit, 0)));
        return;
      }
      changeCourse(labels.ring, (c) => ({ ...c, ring: { ...(c.ring ?? usualRing), [side]: metres } }));
      board.fit();
    };
  const headField = (name: keyof CourseHead, type?: string) => (
    <KeptField
      key={name}
      label={words.fields[name]}
      {...(type === undefined ? {} : { type })}
      value={course.head?.[name] ?? ''}
      maxLength={name === 'heightCategory' ? 40 : 80}
      onKeep={(text) => {
        const next = Head.safeParse({ ...course.head, [name]: text.trim() });
        if (next.success) changeCourse(labels.head(words.fields[name]), (c) => ({ ...c, head: next.data }));
      }}
    />
  );

  return (
    <div className={styles['page']}>
      <section className={styles['fields']}>
        <h2 className={styles['wide']}>{words.ring}</h2>
        <KeptField
          label={words.width(unit)}
          inputMode="decimal"
          value={plainFigure(inUnit(ring.width, unit))}
          onKeep={keepRing('width')}
        />
        <KeptField
          label={words.length(unit)}
          inputMode="decimal"
          value={plainFigure(inUnit(ring.length, unit))}
          onKeep={keepRing('length')}
        />
        <div className={styles['wide']}>
          <Choice
            label={words.unit}
            value={unit}
            options={[
              ['metres', words.units.metres],
              ['feet', words.units.feet],
            ]}
            onChange={(next) => {
              changeCourse(labels.unit, (c) => ({ ...c, unit: next }));
            }}
          />
        </div>
      </section>
      <section className={styles['fields']}>
        <h2 className={styles['wide']}>{words.head}</h2>
        {headField('class')}
        {headField('level')}
        {headField('heightCategory')}
        {headField('date', 'date')}
        {headField('judge')}
        {headField('place')}
      </section>
      <Templates />
    </div>
  );
}

function Templates() {
  const { state, changeCourse } = useCourse();
  const board = useBoard();
  const drawn = state.course.obstacles.some((o) => o.stand);
  const start = (name: TemplateName): void => {
    const before = new Set(state.course.obstacles.map((o) => o.id));
    changeCourse(labels.template(name), (c) => withTemplate(c, name, () => crypto.randomUUID()));
    if (!drawn) board.fit();
    const added = board.shown().obstacles.filter((o) => !before.has(o.id));
    board.setState({ chosen: drawn ? added.map((o) => o.id) : [], line: null, place: null });
  };
  const names = drawn ? templateNames.filter((name) => name !== 'emptyRing') : templateNames;
  return (
    <section>
      <h2>{drawn ? words.templatesMore : words.templates}</h2>
      <ul className={styles['templates']}>
        {names.map((name) => (
          <li key={name}>
            <Button
              onClick={() => {
                start(name);
              }}
            >
              {words.template[name][0]}
            </Button>
            <span className={styles['soft']}>{words.template[name][1]}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
