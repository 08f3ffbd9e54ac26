import { useState } from 'react';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import {
  thresholdOrder,
  thresholdWords as words,
  typedThreshold,
  type ThresholdName,
} from '../../../src/words/thresholds.ts';
import { Button } from '../look/Button.tsx';
import { KeptField } from '../look/Field.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import styles from './ReadingSettings.module.css';

const usual = ReadingThresholds.parse({});

/** What a course is read by: each figure with its meaning and its usual value, and the way back to it. */
export function ReadingSettings() {
  const { preferences } = useWorkbench();
  const reading = usePreferences((p) => p.reading);
  const lengths = usePreferences((p) => p.lengths);
  const [refused, setRefused] = useState<ThresholdName | null>(null);
  const set = (name: ThresholdName, value: number): void => {
    setRefused(null);
    // Two figures may be changed before the library has kept the first.
    void preferences.change({ reading: { ...preferences.getState().reading, [name]: value } });
  };
  return (
    <section className={styles['section']}>
      <div className={styles['head']}>
        <h2>{words.title}</h2>
        <Button
          disabled={thresholdOrder.every((name) => reading[name] === usual[name])}
          onClick={() => {
            setRefused(null);
            void preferences.change({ reading: usual });
          }}
        >
          {words.allBack}
        </Button>
      </div>
      <p className={styles['soft']}>{words.intro}</p>
      <ul>
        {thresholdOrder.map((name) => {
          const own = reading[name] !== usual[name];
          return (
            <li key={name} className={own ? styles['own'] : styles['figure']}>
              <KeptField
                label={words.label(name, lengths)}
                hint={words.hint(name, lengths)}
                inputMode="decimal"
                value={words.shown(name, reading[name], lengths)}
                aria-invalid={refused === name}
                onKeep={(text) => {
                  const typed = typedThreshold(name, text, lengths);
                  if (typed === null) setRefused(name);
                  else set(name, typed ?? usual[name]);
                }}
              />
              {own && (
                <Button
                  kind="quiet"
                  aria-label={words.backNamed(name)}
                  onClick={() => {
                    set(name, usual[name]);
                  }}
                >
                  {words.back}
                </Button>
              )}
              {refused === name && (
                <p className={styles['refused']} role="alert">
                  {words.refused(name, reading[name], lengths)}
                </p>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
