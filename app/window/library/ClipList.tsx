import { Film, NotebookPen } from 'lucide-react';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { libraryWords } from '../../../src/words/library.ts';
import { Button } from '../look/Button.tsx';
import { useJobs, useLibrary, useWorkbench } from '../stores/react.ts';
import styles from './ClipList.module.css';
import { copyJob } from '../stores/library.ts';
import { RelinkButton } from '../frame/RelinkButton.tsx';

const words = libraryWords.clips;

/** The videos of the library: those that wait for something to be done come first. */
export function ClipList() {
  const clips = useLibrary((view) => view.clips);
  const reviews = useLibrary((view) => view.reviews);
  if (clips.size === 0) return null;
  const uses = (clip: ClipSummary): number => reviews.filter((r) => r.clipIds.includes(clip.id)).length;
  const waits = (clip: ClipSummary): boolean =>
    clip.state === 'missing' || clip.state === 'needsCopy' || uses(clip) === 0;
  const all = [...clips.values()].reverse();
  return (
    <section>
      <h2 className={styles['title']}>{words.title}</h2>
      <ul>
        {[...all.filter(waits), ...all.filter((clip) => !waits(clip))].map((clip) => (
          <Clip key={clip.id} clip={clip} uses={uses(clip)} />
        ))}
      </ul>
    </section>
  );
}

function Clip({ clip, uses }: { readonly clip: ClipSummary; readonly uses: number }) {
  const { intake, host, notices } = useWorkbench();
  const copying = useJobs((view) => copyJob(clip, view.jobs));
  return (
    <li className={styles['clip']}>
      <Film aria-hidden />
      <div className={styles['about']}>
        <p className={styles['name']}>{clip.name}</p>
        <p className={styles['facts']}>
          {words.facts(clip, uses === 0 ? words.noReview : words.inReviews(uses))}
        </p>
        {clip.state !== 'ready' && (
          <p className={clip.state === 'missing' ? styles['missing'] : styles['facts']}>
            {words.states[clip.state]}
          </p>
        )}
        <div className={styles['acts']}>
          {clip.state === 'missing' && <RelinkButton clip={clip} />}
          {clip.state === 'needsCopy' && !copying && (
            <Button
              aria-label={words.makeCopyOf(clip.name)}
              onClick={() => {
                host.start('clip.workingCopy', { clipId: clip.id }).catch((error: unknown) => {
                  notices.getState().trouble(error);
                });
              }}
            >
              {words.makeCopy}
            </Button>
          )}
          {uses === 0 && (
            <Button
              icon={<NotebookPen aria-hidden />}
              aria-label={words.makeReviewOf(clip.name)}
              onClick={() => {
                intake.openForm([clip.id]);
              }}
            >
              {words.makeReview}
            </Button>
          )}
        </div>
      </div>
    </li>
  );
}
