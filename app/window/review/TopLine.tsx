import { Clapperboard, Columns2, PanelRightClose, PanelRightOpen, Redo2, Undo2 } from 'lucide-react';
import { compareWords } from '../../../src/words/compare.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { Key } from '../keys/Key.tsx';
import { useReview, useWorkbench } from '../stores/react.ts';
import { CutChip } from './clip/CutChip.tsx';
import { SpeedChip } from './clip/SpeedChip.tsx';
import { useDesk, useDeskView, useOpenReview } from './DeskContext.ts';
import styles from './TopLine.module.css';

const words = reviewScreenWords.top;

/** What is looked at, what undo would take back, and whether all of it is kept. */
export function TopLine() {
  const { keyboard, review, route } = useWorkbench();
  const { desk } = useDesk();
  const { id, header } = useOpenReview();
  const canUndo = useReview((v) => v.canUndo);
  const canRedo = useReview((v) => v.canRedo);
  const underWay = useReview((v) => v.underWay);
  const folded = useDeskView((v) => v.folded);
  const about = [header.dog, header.handler, header.day].filter((part) => part !== '').join(' · ');
  const step = async (way: 'undo' | 'redo'): Promise<void> => {
    await review[way]();
    desk.dropLostSelection();
  };
  return (
    <header className={styles['top']} aria-label={words.label}>
      <h1 className={styles['title']}>{header.title}</h1>
      <p className={styles['about']}>{about}</p>
      <CutChip />
      <SpeedChip />
      <button
        type="button"
        className={styles['act']}
        onClick={() => {
          route.go({ screen: 'compare', reviewIds: [id] });
        }}
      >
        <Columns2 aria-hidden />
        <span>{compareWords.acts.with}</span>
        <Key act="frame.compare" />
      </button>
      <button
        type="button"
        className={styles['act']}
        onClick={() => {
          keyboard.do('clip.review');
        }}
      >
        <Clapperboard aria-hidden />
        <span>{clipWords.acts.open}</span>
        <Key act="clip.review" />
      </button>
      <button
        type="button"
        className={styles['act']}
        disabled={canUndo === null}
        onClick={() => void step('undo')}
      >
        <Undo2 aria-hidden />
        <span>{canUndo === null ? words.undoNone : words.undo(canUndo)}</span>
        <Key act="frame.undo" />
      </button>
      {canRedo !== null && (
        <button type="button" className={styles['act']} onClick={() => void step('redo')}>
          <Redo2 aria-hidden />
          <span>{words.redo(canRedo)}</span>
          <Key act="frame.redo" />
        </button>
      )}
      <p className={styles['kept']} data-kept={underWay === 0}>
        {underWay === 0 ? words.saved : words.saving}
      </p>
      <button
        type="button"
        className={styles['act']}
        aria-expanded={!folded}
        aria-label={folded ? words.unfold : words.fold}
        title={folded ? words.unfold : words.fold}
        onClick={() => {
          desk.set({ folded: !folded });
        }}
      >
        {folded ? <PanelRightOpen aria-hidden /> : <PanelRightClose aria-hidden />}
        <Key act="review.panel" />
      </button>
    </header>
  );
}
