import { Film, NotebookPen } from 'lucide-react';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { copyWords, whyCopied } from '../../../src/words/copies.ts';
import { libraryWords } from '../../../src/words/library.ts';
import { Button } from '../look/Button.tsx';
import { Tick } from '../look/Field.tsx';
import { useJobs, useLibrary, useWorkbench } from '../stores/react.ts';
import styles from './ClipList.module.css';
import { copyJob } from '../stores/library.ts';
import { RelinkButton } from '../frame/RelinkButton.tsx';

const words = libraryWords.clips;
const copies = copyWords;

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
  const stand = standOf(clip, copying);
  const tell = (error: unknown): void => {
    notices.getState().trouble(error);
  };
  const chooseFields = (fields: boolean): void => {
    host.call('clip.fields', { clipId: clip.id, fields }).catch(tell);
  };
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
        {stand !== '' && <p className={styles['facts']}>{stand}</p>}
        {clip.interlaced && clip.state !== 'missing' && (
          <Tick
            label={copies.fields}
            hint={copies.fieldsHint}
            checked={clip.fields}
            onChange={chooseFields}
          />
        )}
        <div className={styles['acts']}>
          {clip.state === 'missing' && <RelinkButton clip={clip} />}
          {clip.copy === null && clip.state !== 'missing' && !copying && (
            <Button
              kind={clip.state === 'needsCopy' ? 'plain' : 'quiet'}
              aria-label={copies.makeOf(clip.name)}
              onClick={() => {
                host.start('clip.workingCopy', { clipId: clip.id }).catch(tell);
              }}
            >
              {copies.make}
            </Button>
          )}
          {clip.copy !== null && clip.state === 'ready' && (
            <Button
              kind="quiet"
              aria-label={copies.originalOf(clip.name)}
              onClick={() => {
                host.call('clip.original', { clipId: clip.id }).catch(tell);
              }}
            >
              {copies.original}
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

/** Why a clip has a working copy or is to have one, and how that stands. */
function standOf(clip: ClipSummary, copying: JobReport | undefined): string {
  if (clip.state === 'missing') return '';
  const parts = [whyCopied(clip.why ?? clip.slow)];
  if (clip.copy !== null) parts.push(clip.state === 'ready' ? copies.made(clip.copy.bytes) : '');
  else if (copying) parts.push(clip.state === 'ready' ? copies.waiting : '');
  else if (clip.copyWish === 'whenOpened') parts.push(copies.whenOpened);
  else if (clip.copyWish === 'declined' && (clip.why ?? clip.slow) !== null) parts.push(copies.declined);
  return parts.filter((part) => part !== '').join(' ');
}
