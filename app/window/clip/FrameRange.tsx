import { useState } from 'react';
import { frameAt, lastFrame, ptsOf, type FrameTable } from '../../../src/time/frameTable.ts';
import { frameIndex, pts } from '../../../src/time/units.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { TextField } from '../look/Field.tsx';
import type { Subject } from './choices.ts';
import styles from './ClipDialog.module.css';

const words = clipWords.dialog;

interface FrameRangeProps {
  readonly table: FrameTable;
  readonly part: Subject['parts'][number] | undefined;
  /** Told a range, or one that is none: no part at all. */
  readonly onChange: (parts: Subject['parts']) => void;
}

/** From one frame to another, both included, as numbers of frames. */
export function FrameRange({ table, part, onChange }: FrameRangeProps) {
  const frameOf = (at: number | undefined): string =>
    at === undefined ? '' : String(frameAt(table, pts(at)));
  const [from, setFrom] = useState(() => frameOf(part?.from));
  const [to, setTo] = useState(() => frameOf(part?.to));
  const last = lastFrame(table);
  const ticks = (text: string): number | null => {
    const frame = /^\d{1,8}$/.test(text.trim()) ? Number(text) : NaN;
    return frame <= last ? ptsOf(table, frameIndex(frame)) : null;
  };
  const tell = (first: string, second: string): void => {
    const [a, b] = [ticks(first), ticks(second)];
    onChange(a !== null && b !== null && a <= b ? [{ from: a, to: b }] : []);
  };
  return (
    <div className={styles['pair']}>
      <TextField
        label={words.from}
        inputMode="numeric"
        value={from}
        onChange={(text) => {
          setFrom(text);
          tell(text, to);
        }}
      />
      <TextField
        label={words.to}
        hint={words.frameHint(last)}
        inputMode="numeric"
        value={to}
        onChange={(text) => {
          setTo(text);
          tell(from, text);
        }}
      />
    </div>
  );
}
