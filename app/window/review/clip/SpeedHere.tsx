import { pieceAt } from '../../../../src/time/captureClock.ts';
import { frameSeconds } from '../../../../src/time/frameTable.ts';
import { frameIndex } from '../../../../src/time/units.ts';
import { captureSpeedWords, speedTold } from '../../../../src/words/captureSpeed.ts';
import { Key } from '../../keys/Key.tsx';
import { useDesk, useDeskView } from '../DeskContext.ts';
import styles from './SpeedHere.module.css';
import { useClipOnDesk } from './useClipOnDesk.ts';

const words = captureSpeedWords;

/** Beside the number of the frame: how much slower than life it plays here. Nothing where it does not. */
export function SpeedHere() {
  const here = useClipOnDesk();
  const frame = useDeskView((v) => v.frame);
  if (!here || here.clock.speed.length === 0) return null;
  const { table, speed } = here.clock;
  const at = frameSeconds(table, frameIndex(Math.max(0, Math.min(table.pts.length - 1, frame))));
  const piece = pieceAt(speed, at);
  return piece && piece.speed !== 1 ? <span>{words.here(speedTold(piece))}</span> : null;
}

/** Slow motion played as fast as it was; there only where the clip is slowed. */
export function AsFilmed() {
  const { desk } = useDesk();
  const on = useDeskView((v) => v.asFilmed);
  const slowed = useClipOnDesk()?.clock.speed.some((p) => p.speed !== 1) === true;
  if (!slowed) return null;
  return (
    <button
      type="button"
      className={styles['switch']}
      aria-pressed={on}
      title={words.asFilmed}
      onClick={() => {
        desk.toggleAsFilmed();
      }}
    >
      {words.asFilmedShort}
      <Key act="review.asFilmed" />
    </button>
  );
}
