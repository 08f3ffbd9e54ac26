import { Gauge } from 'lucide-react';
import { speaksForSlow } from '../../../../src/review/captureFindings.ts';
import { captureSpeedWords, clipSpeedTold } from '../../../../src/words/captureSpeed.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';
import styles from './SpeedChip.module.css';
import { timesFound, useCaptureFindings, useClipOnDesk } from './useClipOnDesk.ts';

const words = captureSpeedWords;

/** In the top line: how the clip plays where that is not real time, or the question where something speaks for it. */
export function SpeedChip() {
  const { clipHands: hands } = useDesk();
  const here = useClipOnDesk();
  const findings = useCaptureFindings();
  const mode = useDeskView((v) => v.mode.name);
  if (!here) return null;
  const { speed } = here.clock;
  const asks = speed.length === 0 && findings.some(speaksForSlow);
  const slowed = speed.some((p) => p.speed !== 1);
  if (!asks && !slowed) return null;
  return (
    <button
      type="button"
      className={styles['chip']}
      data-asks={asks}
      disabled={mode === 'speed'}
      onClick={() => {
        hands.openSpeed(timesFound(findings));
      }}
    >
      <Gauge aria-hidden />
      {asks ? words.ask : words.chip(clipSpeedTold(speed))}
    </button>
  );
}
