import { Scissors } from 'lucide-react';
import { clipCutWords } from '../../../../src/words/clipCut.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';
import styles from './SpeedChip.module.css';
import { useClipOnDesk } from './useClipOnDesk.ts';

/** In the top line: that this review is about a part of its clip, and whether one looks beyond it now. */
export function CutChip() {
  const { cutHands } = useDesk();
  const here = useClipOnDesk();
  const beyond = useDeskView((v) => v.beyond);
  const mode = useDeskView((v) => v.mode.name);
  if (!here?.use.cut) return null;
  return (
    <button
      type="button"
      className={styles['chip']}
      data-asks={beyond}
      disabled={mode === 'cut'}
      onClick={() => {
        cutHands.open();
      }}
    >
      <Scissors aria-hidden />
      {beyond ? clipCutWords.chipBeyond : clipCutWords.chip}
    </button>
  );
}
