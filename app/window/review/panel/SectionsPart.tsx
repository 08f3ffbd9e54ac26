import type { Analysis } from '../../../../src/review/analysis.ts';
import { mostSections, type Section } from '../../../../src/review/coachSays.ts';
import { sectionTimes } from '../../../../src/review/sections.ts';
import { figure } from '../../../../src/words/figures.ts';
import { splitPartWords } from '../../../../src/words/splitParts.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField, SelectField } from '../../look/Field.tsx';
import { useHeader } from '../../stores/header.ts';
import { useReview } from '../../stores/react.ts';
import styles from './SplitParts.module.css';

const words = splitPartWords.sections;

/** Parts of the course that the coach names, with their times. */
export function SectionsPart({ analysis }: { readonly analysis: Analysis }) {
  const { header, change } = useHeader();
  const last = useReview((v) => Math.max(0, ...(v.state?.course.steps ?? []).map((s) => s.number)));
  const sections = header.sections ?? [];
  const keep = (next: readonly Section[]): void => {
    change(words.act, { sections: next.length === 0 ? undefined : [...next] });
  };
  const set = (id: string, part: Partial<Section>): void => {
    keep(sections.map((s) => (s.id === id ? { ...s, ...part } : s)));
  };
  const begins = sections.at(-1)?.to ?? 0;
  const next = begins < last ? begins : 0;
  const numbers = (low: number, high: number): (readonly [string, string])[] =>
    Array.from({ length: Math.max(0, high - low + 1) }, (_, i) => low + i).map((n) => [
      String(n),
      n === 0 ? words.fromStart : words.number(n),
    ]);
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      {sections.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <ul className={styles['sections']}>
        {sectionTimes(analysis, sections).map(({ section: s, time, missing }, i) => (
          <li key={s.id} className={styles['section']}>
            <KeptField
              bare
              label={words.name(i + 1)}
              maxLength={60}
              value={s.name}
              onKeep={(text) => {
                if (text.trim() !== '') set(s.id, { name: text.trim() });
              }}
            />
            <div className={styles['row']}>
              <SelectField
                bare
                label={words.from(s.name)}
                value={String(s.from)}
                options={numbers(0, s.to - 1)}
                onChange={(n) => {
                  set(s.id, { from: Number(n) });
                }}
              />
              <span aria-hidden>–</span>
              <SelectField
                bare
                label={words.to(s.name)}
                value={String(s.to)}
                options={numbers(s.from + 1, Math.max(last, s.to))}
                onChange={(n) => {
                  set(s.id, { to: Number(n) });
                }}
              />
              <Button
                kind="quiet"
                aria-label={words.remove(s.name)}
                onClick={() => {
                  keep(sections.filter((other) => other.id !== s.id));
                }}
              >
                {words.removeShort}
              </Button>
            </div>
            <p className={time ? styles['figure'] : styles['soft']} data-figure={`section-${i + 1}`}>
              {time ? figure(time) : missing.length > 0 ? words.missing(missing) : words.outOfOrder}
            </p>
          </li>
        ))}
      </ul>
      {last > 0 && sections.length < mostSections && (
        <div>
          <Button
            onClick={() => {
              const name = words.newName(sections.length + 1);
              keep([...sections, { id: crypto.randomUUID(), name, from: next, to: last }]);
            }}
          >
            {words.add}
          </Button>
        </div>
      )}
    </section>
  );
}
