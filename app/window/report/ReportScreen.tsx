import { coachingReport } from '../../../src/words/coachingReport.ts';
import { reportWords as words } from '../../../src/words/report.ts';
import { ShortClip } from '../clip/ShortClip.tsx';
import { AboutRun } from './AboutRun.tsx';
import { CoachWords } from './CoachWords.tsx';
import { Glance } from './Glance.tsx';
import { ReportFilePane } from './ReportFilePane.tsx';
import styles from './ReportScreen.module.css';
import { useHeader } from '../stores/header.ts';
import { Sentences } from './Sentences.tsx';
import { Stills } from './Stills.tsx';
import { useReportDraft } from './useReportDraft.ts';
import { WorkOnPart } from './WorkOnPart.tsx';

/** The Report: the coach's words, what the figures will say, and the file to hand over. */
export default function ReportScreen() {
  const { header } = useHeader();
  const draft = useReportDraft();
  return (
    <div className={styles['screen']}>
      <div className={styles['left']}>
        <header className={styles['head']}>
          <h1>{words.title}</h1>
          <p className={styles['of']}>{header.title}</p>
        </header>
        <CoachWords facts={draft?.facts ?? []} />
        {draft && <Sentences sentences={draft.sentences} />}
        {draft && <Stills state={draft.state} analysis={draft.analysis} named={draft.named} />}
        <AboutRun />
      </div>
      <aside className={styles['right']}>
        <ReportFilePane />
        <Glance />
        <WorkOnPart />
        <ShortClip />
        <section className={styles['cautions']}>
          <h2>{words.cautions}</h2>
          <ul>
            {coachingReport.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      </aside>
    </div>
  );
}
