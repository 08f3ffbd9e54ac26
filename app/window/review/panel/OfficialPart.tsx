import type { Analysis } from '../../../../src/review/analysis.ts';
import { Official } from '../../../../src/review/coachSays.ts';
import { scorePartWords } from '../../../../src/words/scorePart.ts';
import { besideOfficial } from '../../../../src/words/scorePart.ts';
import { typedWithin } from '../../../../src/words/typed.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField, Tick } from '../../look/Field.tsx';
import { useHeader } from '../../stores/header.ts';
import { useWorkbench } from '../../stores/react.ts';
import { useDesk } from '../DeskContext.ts';
import styles from './ScorePart.module.css';

const words = scorePartWords.official;
const clockWords = scorePartWords.clock;

/** Where the clock starts and stops, and what the ring said, beside what we measured. */
export function OfficialPart({ analysis }: { readonly analysis: Analysis }) {
  const { desk, hands } = useDesk();
  const { notices } = useWorkbench();
  const { header, change } = useHeader();
  const official = header.official ?? {};
  const keep = (part: { readonly [K in keyof Official]?: Official[K] | undefined }): void => {
    const said = Object.entries({ ...official, ...part }).filter(([, v]) => v !== undefined && v !== false);
    change(words.act, { official: said.length === 0 ? undefined : Official.parse(Object.fromEntries(said)) });
  };
  const typed = (text: string, least: number, bad: string, then: (n: number | undefined) => void): void => {
    const n = typedWithin(text, least, 10_000, (x) => Math.round(x * 100) / 100);
    if (n === null) notices.getState().say(bad);
    else then(n);
  };
  const { clock } = analysis;
  return (
    <>
      <section className={styles['part']} aria-label={clockWords.title}>
        <h3>{clockWords.title}</h3>
        <p className={styles['soft']}>{clockWords.hint}</p>
        <div className={styles['row']}>
          <Button
            onClick={() => {
              hands.note('clockStart');
            }}
          >
            {clockWords.startMark}
          </Button>
          <Button
            onClick={() => {
              hands.note('clockStop');
            }}
          >
            {clockWords.stopMark}
          </Button>
          {clock && (
            <>
              <Button
                kind="quiet"
                onClick={() => {
                  desk.goToMark(clock.start.markId);
                }}
              >
                {clockWords.goStart}
              </Button>
              <Button
                kind="quiet"
                onClick={() => {
                  desk.goToMark(clock.stop.markId);
                }}
              >
                {clockWords.goStop}
              </Button>
            </>
          )}
        </div>
      </section>
      <section className={styles['part']} aria-label={words.title}>
        <h3>{words.title}</h3>
        <div className={styles['fields']}>
          <KeptField
            label={words.time}
            inputMode="decimal"
            value={official.time?.toFixed(2) ?? ''}
            onKeep={(text) => {
              typed(text, 0.01, words.badTime, (time) => {
                keep({ time });
              });
            }}
          />
          <KeptField
            label={words.faults}
            inputMode="decimal"
            value={official.courseFaults === undefined ? '' : String(official.courseFaults)}
            onKeep={(text) => {
              typed(text, 0, words.badFaults, (courseFaults) => {
                keep({ courseFaults });
              });
            }}
          />
        </div>
        <Tick
          label={words.eliminated}
          checked={official.eliminated === true}
          onChange={(eliminated) => {
            keep({ eliminated });
          }}
        />
        {official.time !== undefined && (
          <p data-figure="official-beside">{besideOfficial(official.time, clock)}</p>
        )}
        <p className={styles['soft']}>{words.kept}</p>
      </section>
    </>
  );
}
