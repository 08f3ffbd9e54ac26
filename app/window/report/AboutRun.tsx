import { runKinds, stages, type Header } from '../../../src/review/document.ts';
import { reportWords } from '../../../src/words/report.ts';
import { KeptField, SelectField } from '../look/Field.tsx';
import { useWorkbench } from '../stores/react.ts';
import styles from './AboutRun.module.css';
import { useHeader } from '../stores/header.ts';

const words = reportWords.run;
const label = reportWords.labels.run;

/** What the review says about itself: team, day, kind of run, and the stride that "in time" asks for. */
export function AboutRun() {
  const { notices } = useWorkbench();
  const { header, change } = useHeader();
  return (
    <section className={styles['about']}>
      <h2>{words.title}</h2>
      <div className={styles['fields']}>
        <KeptField
          label={words.name}
          maxLength={200}
          value={header.title}
          onKeep={(title) => {
            if (title.trim() !== '') change(label, { title: title.trim() });
          }}
        />
        <KeptField
          label={words.day}
          type="date"
          value={header.day}
          onKeep={(day) => {
            change(label, { day });
          }}
        />
        <KeptField
          label={words.dog}
          maxLength={80}
          value={header.dog}
          onKeep={(dog) => {
            change(label, { dog: dog.trim() });
          }}
        />
        <KeptField
          label={words.handler}
          maxLength={80}
          value={header.handler}
          onKeep={(handler) => {
            change(label, { handler: handler.trim() });
          }}
        />
        <SelectField<Header['runKind']>
          label={words.kind}
          value={header.runKind}
          options={runKinds.map((kind) => [kind, words.kinds[kind]])}
          onChange={(runKind) => {
            change(label, { runKind });
          }}
        />
        <SelectField<Header['stage']>
          label={words.stage}
          value={header.stage}
          options={stages.map((stage) => [stage, words.stages[stage]])}
          onChange={(stage) => {
            change(label, { stage });
          }}
        />
        <KeptField
          label={words.stride}
          hint={words.strideHint}
          inputMode="decimal"
          value={header.strideSeconds.toFixed(2)}
          onKeep={(text) => {
            const strideSeconds = Number(text.trim().replace(',', '.'));
            if (strideSeconds >= 0.1 && strideSeconds <= 2) change(label, { strideSeconds });
            else notices.getState().say(words.badStride);
          }}
        />
      </div>
    </section>
  );
}
