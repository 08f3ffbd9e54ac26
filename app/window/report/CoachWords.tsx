import { reportWords } from '../../../src/words/report.ts';
import { noSays } from '../../../src/review/coachSays.ts';
import { Button } from '../look/Button.tsx';
import { KeptArea, Tick } from '../look/Field.tsx';
import styles from './CoachWords.module.css';
import { useHeader } from '../stores/header.ts';

const words = reportWords.words;
const label = reportWords.labels.words;

/** More than this many things to train are too many for one report. */
const mostToTrain = 2;

/** The coach's own words: what went well first, then one or two things to train. */
export function CoachWords({ facts }: { readonly facts: readonly string[] }) {
  const { header, change, changeWords } = useHeader();
  const { wentWell, toTrain, notes, leaveNamesOut } = header.words;
  const things = toTrain.split('\n').filter((line) => line.trim() !== '').length;
  return (
    <section className={styles['words']}>
      <h2>{words.title}</h2>
      <KeptArea
        label={words.wentWell}
        hint={words.wentWellHint}
        rows={4}
        maxLength={4000}
        value={wentWell}
        onKeep={(text) => {
          changeWords(label, { wentWell: text });
        }}
      />
      {wentWell.trim() === '' && facts.length > 0 && (
        <div>
          <Button
            kind="quiet"
            title={words.beginFactsHint}
            onClick={() => {
              changeWords(label, { wentWell: facts.join('\n') });
            }}
          >
            {words.beginFacts}
          </Button>
        </div>
      )}
      <KeptArea
        label={words.toTrain}
        hint={things > mostToTrain ? words.tooMany(things) : words.toTrainHint}
        rows={3}
        maxLength={4000}
        value={toTrain}
        onKeep={(text) => {
          changeWords(label, { toTrain: text });
        }}
      />
      <KeptArea
        label={words.notes}
        hint={words.notesHint}
        rows={3}
        maxLength={8000}
        value={notes}
        onKeep={(text) => {
          changeWords(label, { notes: text });
        }}
      />
      <KeptArea
        label={words.forCoach}
        hint={words.forCoachHint}
        rows={2}
        maxLength={8000}
        value={header.report?.forCoach ?? ''}
        onKeep={(forCoach) => {
          change(label, { report: { ...noSays, ...header.report, forCoach } });
        }}
      />
      <Tick
        label={words.leaveNamesOut}
        hint={words.leaveNamesOutHint}
        checked={leaveNamesOut}
        onChange={(checked) => {
          changeWords(reportWords.labels.names, { leaveNamesOut: checked });
        }}
      />
    </section>
  );
}
