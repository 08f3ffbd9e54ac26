import { ChevronLeft, ChevronRight, Pause, Play, SkipBack, SkipForward } from 'lucide-react';
import { compareWords as words } from '../../../src/words/compare.ts';
import type { Lock } from '../../../src/review/compare/lock.ts';
import { Key } from '../keys/Key.tsx';
import type { ActName } from '../keys/allActs.ts';
import { useWorkbench } from '../stores/react.ts';
import { useLock } from './courseTime.ts';
import type { Lockstep } from './lockstep.ts';
import styles from './Transport.module.css';

const locks: readonly Lock[] = ['place', 'clock'];

/** Play, steps, speed, and what holds the pictures together. */
export function Transport({ lockstep }: { readonly lockstep: Lockstep }) {
  const playing = useLock(lockstep, (v) => v.playing);
  const speed = useLock(lockstep, (v) => v.speed);
  const lock = useLock(lockstep, (v) => v.lock);
  return (
    <div className={styles['transport']}>
      <Act act="compare.previousObstacle" label={words.acts.previousObstacle}>
        <SkipBack aria-hidden />
      </Act>
      <Act act="compare.previousFrame" label={words.acts.previousFrame}>
        <ChevronLeft aria-hidden />
      </Act>
      <Act act="compare.play" label={playing ? words.stop : words.play} main>
        {playing ? <Pause aria-hidden /> : <Play aria-hidden />}
      </Act>
      <Act act="compare.nextFrame" label={words.acts.nextFrame}>
        <ChevronRight aria-hidden />
      </Act>
      <Act act="compare.nextObstacle" label={words.acts.nextObstacle}>
        <SkipForward aria-hidden />
      </Act>
      <span className={styles['group']}>
        <Act act="compare.slower" label={words.acts.slower}>
          {words.acts.slower}
        </Act>
        <span className={styles['speed']} role="status">
          {words.speed(speed)}
        </span>
        <Act act="compare.faster" label={words.acts.faster}>
          {words.acts.faster}
        </Act>
      </span>
      <span className={styles['group']} role="group" aria-label={words.lockLabel}>
        {locks.map((name) => (
          <button
            key={name}
            type="button"
            className={styles['lock']}
            aria-pressed={lock === name}
            onClick={() => {
              lockstep.setLock(name);
            }}
          >
            {words.lockNames[name]}
          </button>
        ))}
        <Key act="compare.lock" />
      </span>
    </div>
  );
}

interface ActProps {
  readonly act: ActName;
  readonly label: string;
  readonly main?: boolean;
  readonly children: React.ReactNode;
}

/** A button for an act: its picture and key, its name for who cannot see them. */
function Act({ act, label, main = false, children }: ActProps) {
  const { keyboard } = useWorkbench();
  return (
    <button
      type="button"
      className={styles['act']}
      data-main={main}
      aria-label={label}
      title={label}
      onClick={() => {
        keyboard.do(act);
      }}
    >
      {children}
      <Key act={act} />
    </button>
  );
}
