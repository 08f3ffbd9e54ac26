import { Columns2, FileInput, FolderOpen, NotebookPen, Video } from 'lucide-react';
import { useRef, useState } from 'react';
import { libraryWords as words } from '../../../src/words/library.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { TextField } from '../look/Field.tsx';
import { useJobs, useLibrary, useWorkbench } from '../stores/react.ts';
import { ClipList } from './ClipList.tsx';
import { EmptyLibrary } from './EmptyLibrary.tsx';
import { findReviews } from './findReviews.ts';
import { HostFilesDialog } from '../frame/HostFilesDialog.tsx';
import { JobList } from './JobList.tsx';
import styles from './LibraryScreen.module.css';
import { ReviewList } from './ReviewList.tsx';
import { useBringIn } from './useBringIn.ts';

/** From this many reviews on, a field to find one is worth its place. */
const worthFinding = 7;

/** The Library: what I have. */
export default function LibraryScreen() {
  const { shell, intake, route } = useWorkbench();
  const known = useLibrary((view) => view.known);
  const reviews = useLibrary((view) => view.reviews);
  const clips = useLibrary((view) => view.clips);
  const anyJob = useJobs((view) =>
    view.jobs.some((job) => job.state !== 'done' && job.state !== 'cancelled'),
  );
  const bringIn = useBringIn();
  const [choosing, setChoosing] = useState(false);
  const [text, setText] = useState('');
  const find = useRef<HTMLDivElement>(null);
  const fromMachine = shell.kind === 'loopback';
  const findable = reviews.length >= worthFinding;
  const shown = findReviews(reviews, findable ? text : '');

  const chooseVideos = (): void => {
    bringIn.choose('video');
  };
  const chooseReviews = (): void => {
    bringIn.choose('review');
  };
  const newReview = (): void => {
    intake.openForm([]);
  };
  const compare = (): void => {
    const row = document.activeElement?.closest('tr')?.querySelector('[data-review]');
    const id = row?.getAttribute('data-review');
    route.go({ screen: 'compare', reviewIds: id ? [id] : [] });
  };
  useActs({
    'library.compare': reviews.length > 1 ? compare : undefined,
    'library.bringIn': chooseVideos,
    'library.fromMachine': fromMachine
      ? () => {
          setChoosing(true);
        }
      : undefined,
    'library.newReview': newReview,
    'library.reviewFile': chooseReviews,
    'library.find': findable ? () => find.current?.querySelector('input')?.focus() : undefined,
  });

  const acts = (
    <div className={styles['acts']}>
      <Button kind="main" icon={<Video aria-hidden />} act="library.bringIn" onClick={chooseVideos}>
        {words.acts.bringIn}
      </Button>
      {fromMachine && (
        <Button
          icon={<FolderOpen aria-hidden />}
          act="library.fromMachine"
          onClick={() => {
            setChoosing(true);
          }}
        >
          {words.acts.fromMachine}
        </Button>
      )}
      <Button icon={<NotebookPen aria-hidden />} act="library.newReview" onClick={newReview}>
        {words.acts.newReview}
      </Button>
      <Button icon={<FileInput aria-hidden />} act="library.reviewFile" onClick={chooseReviews}>
        {words.acts.reviewFile}
      </Button>
      {reviews.length > 1 && (
        <Button icon={<Columns2 aria-hidden />} act="library.compare" onClick={compare}>
          {words.acts.compare}
        </Button>
      )}
    </div>
  );
  const aside = clips.size > 0 || anyJob;

  return (
    <div className={styles['screen']}>
      <header className={styles['head']}>
        <h1>{words.title}</h1>
        {reviews.length > 0 && acts}
      </header>
      {!known && <p className={styles['wait']}>{words.waiting}</p>}
      {known && (
        <div className={styles['body']} data-aside={aside}>
          <div className={styles['reviews']}>
            {findable && (
              <div ref={find} className={styles['find']} role="search">
                <TextField
                  label={words.find}
                  bare
                  type="search"
                  placeholder={words.find}
                  value={text}
                  onChange={setText}
                  onKeyDown={(event) => {
                    if (event.key === 'Escape') setText('');
                  }}
                />
                <p role="status">
                  {text.trim() === ''
                    ? words.count(reviews.length)
                    : words.countOf(shown.length, reviews.length)}
                </p>
              </div>
            )}
            {reviews.length === 0 && <EmptyLibrary>{acts}</EmptyLibrary>}
            {reviews.length > 0 && shown.length > 0 && <ReviewList reviews={shown} />}
            {reviews.length > 0 && shown.length === 0 && (
              <p className={styles['none']}>
                {words.findNone(text.trim())}{' '}
                <Button
                  onClick={() => {
                    setText('');
                  }}
                >
                  {words.findClear}
                </Button>
              </p>
            )}
          </div>
          {aside && (
            <aside className={styles['aside']}>
              <JobList />
              <ClipList />
            </aside>
          )}
        </div>
      )}
      <HostFilesDialog
        open={choosing}
        several
        title={words.files.title}
        onChoose={bringIn.takePaths}
        onClose={() => {
          setChoosing(false);
        }}
      />
    </div>
  );
}
