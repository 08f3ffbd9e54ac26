import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { whyCopied } from '../../../src/words/copies.ts';
import { lineUpWords } from '../../../src/words/lineUp.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { copyJob } from '../stores/library.ts';
import { RelinkButton } from '../frame/RelinkButton.tsx';
import { Button } from '../look/Button.tsx';
import { useJobs, useReview, useWorkbench } from '../stores/react.ts';
import styles from './ClipNotice.module.css';

const words = reviewScreenWords.picture;

interface ClipNoticeProps {
  readonly clip: ClipSummary | undefined;
  readonly anyFootage: boolean;
  readonly opening: boolean;
  readonly why: string | null;
  readonly wantsCopy: boolean;
}

/** What stands where the picture will be: why there is none, and what to do about it. */
export function ClipNotice({ clip, anyFootage, opening, why, wantsCopy }: ClipNoticeProps) {
  const { host, notices } = useWorkbench();
  const job = useJobs((view) => copyJob(clip, view.jobs));
  const tell = (error: unknown): void => {
    notices.getState().trouble(error);
  };

  if (!anyFootage) {
    return (
      <Notice title={words.noFootage} text={words.noFootageNext}>
        <AddFirstClip />
      </Notice>
    );
  }
  if (clip && job) {
    const percent = job.total ? Math.floor((100 * job.done) / job.total) : null;
    return (
      <Notice title={words.copying(clip.name)} text={`${reasonOf(clip)}${words.copyingMeanwhile}`}>
        <progress
          className={styles['progress']}
          aria-label={words.copying(clip.name)}
          {...(percent === null ? {} : { value: percent, max: 100 })}
        />
        {percent !== null && <span>{words.copyShare(percent)}</span>}
        <Button
          onClick={() => {
            host.call('job.cancel', { jobId: job.id }).catch(tell);
          }}
        >
          {words.stopCopy}
        </Button>
      </Notice>
    );
  }
  if (clip && clip.mediaId === null && clip.state === 'missing') {
    return (
      <Notice title={words.missing(clip.name)} text={words.missingNext}>
        <RelinkButton clip={clip} />
      </Notice>
    );
  }
  if (clip && (clip.state === 'needsCopy' || wantsCopy)) {
    return (
      <Notice title={words.needsCopy(clip.name)} text={`${reasonOf(clip)}${words.copyingMeanwhile}`}>
        <Button
          kind="main"
          onClick={() => {
            host.start('clip.workingCopy', { clipId: clip.id }).catch(tell);
          }}
        >
          {words.makeCopy}
        </Button>
      </Notice>
    );
  }
  if (why !== null) return <Notice title={why} text="" />;
  return opening ? <Notice title={words.opening} text="" /> : null;
}

/** A film for a review that has none, and the way to what can be done without. */
function AddFirstClip() {
  const { route, shell, intake, notices } = useWorkbench();
  const reviewId = useReview((view) => view.id);
  return (
    <>
      <Button
        kind="main"
        onClick={() => {
          shell.chooseFiles('video', true).then(
            (files) => {
              if (files.length > 0) intake.take(files, 'open');
            },
            (error: unknown) => {
              notices.getState().trouble(error);
            },
          );
        }}
      >
        {lineUpWords.addClip}
      </Button>
      {reviewId !== null && (
        <Button
          onClick={() => {
            route.go({ screen: 'course', reviewId });
          }}
        >
          {words.toCourse}
        </Button>
      )}
    </>
  );
}

function reasonOf(clip: ClipSummary): string {
  const reason = whyCopied(clip.why);
  return reason === '' ? '' : `${reason} `;
}

function Notice({
  title,
  text,
  children,
}: {
  readonly title: string;
  readonly text: string;
  readonly children?: React.ReactNode;
}) {
  return (
    <div className={styles['notice']} role="status">
      <p className={styles['title']}>{title}</p>
      {text !== '' && <p className={styles['text']}>{text}</p>}
      {children && <div className={styles['acts']}>{children}</div>}
    </div>
  );
}
