import { Clapperboard } from 'lucide-react';
import { useState } from 'react';
import { overlayNames } from '../../../src/report/clip/wish.ts';
import { longestCaption } from '../../../src/report/clip/wish.ts';
import { secondsAsked } from '../../../src/report/clip/plan.ts';
import type { FrameTable } from '../../../src/time/frameTable.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { Dialog } from '../frame/Dialog.tsx';
import { Button } from '../look/Button.tsx';
import { SelectField, TextField, Tick } from '../look/Field.tsx';
import {
  holds,
  slowChoices,
  slowLabel,
  usualChoices,
  wishOf,
  type Choices,
  type SlowChoice,
  type Subject,
} from './choices.ts';
import styles from './ClipDialog.module.css';
import { ClipQueue } from './ClipQueue.tsx';
import { FrameRange } from './FrameRange.tsx';
import { useMakeClip } from './useMakeClip.ts';

const words = clipWords.dialog;

interface ClipDialogProps {
  readonly open: boolean;
  readonly onClose: () => void;
  /** What a clip can be made of; never empty. */
  readonly subjects: readonly Subject[];
  /** Which of them is chosen at first. */
  readonly first: number;
  /** Frames of a clip, to say how long the clip will last. */
  readonly tableOf: (footageId: string) => FrameTable | undefined;
  /** The course is fitted to the picture, so that numbers and lines can be drawn over it. */
  readonly fitted: boolean;
}

/** What a clip shows and how; and the clips that are being made. */
export function ClipDialog({ open, onClose, ...rest }: ClipDialogProps) {
  return (
    <Dialog open={open} title={words.title} onClose={onClose} wide>
      <Form {...rest} onClose={onClose} />
    </Dialog>
  );
}

function Form({ subjects, first, tableOf, fitted, onClose }: Omit<ClipDialogProps, 'open'>) {
  const make = useMakeClip();
  const [at, setAt] = useState(first);
  /** The frames that were chosen instead of those proposed. */
  const [own, setOwn] = useState<Subject['parts'] | null>(null);
  const chosen = subjects[at] ?? subjects[0];
  const [making, setMaking] = useState(false);
  const [kept, setKept] = useState<{ at: number; choices: Choices } | null>(null);
  if (!chosen) return null;
  if (making) {
    return (
      <div className={styles['form']}>
        <ClipQueue />
        <p className={styles['soft']}>{words.goOn}</p>
        <div className={styles['end']}>
          <Button
            onClick={() => {
              setMaking(false);
            }}
          >
            {words.another}
          </Button>
          <Button kind="main" onClick={onClose} autoFocus>
            {words.close}
          </Button>
        </div>
      </div>
    );
  }
  const subject = own && chosen.table ? { ...chosen, parts: own } : chosen;
  const choices = kept?.at === at ? kept.choices : usualChoices(subject);
  const set = (part: Partial<Choices>): void => {
    setKept({ at, choices: { ...choices, ...part } });
  };
  const wish = wishOf(subject, choices);
  const table = tableOf(subject.footageId);
  const seconds = table ? secondsAsked(wish, table) : null;
  const held = subject.freezes;
  return (
    <form
      className={styles['form']}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (seconds === null) return;
        setMaking(true);
        void make(wish, subject.kind);
      }}
    >
      <SelectField
        label={words.what}
        value={String(at)}
        options={subjects.map((s, i) => [String(i), s.label])}
        onChange={(next) => {
          setAt(Number(next));
          setOwn(null);
        }}
      />
      {chosen.table && <FrameRange key={at} table={chosen.table} part={subject.parts[0]} onChange={setOwn} />}
      <div className={styles['pair']}>
        <SelectField<SlowChoice>
          label={words.speed}
          value={choices.slow}
          options={slowChoices(subject).map((choice) => [choice, slowLabel(choice)])}
          onChange={(slow) => {
            set({ slow });
          }}
        />
        {held.length > 0 && (
          <SelectField
            label={words.hold}
            value={String(choices.hold)}
            options={holds.map((s) => [String(s), words.holds(s)])}
            onChange={(s) => {
              set({ hold: Number(s) });
            }}
          />
        )}
      </div>
      {choices.hold > 0 &&
        held.map((f, i) => (
          <TextField
            key={f.pts}
            label={held.length > 1 ? words.captionOf(i + 1) : words.caption}
            maxLength={longestCaption}
            value={choices.captions[i] ?? ''}
            onChange={(text) => {
              set({ captions: held.map((_, j) => (j === i ? text : (choices.captions[j] ?? ''))) });
            }}
          />
        ))}
      <fieldset className={styles['over']}>
        <legend>{words.over}</legend>
        {overlayNames
          .filter((name) => fitted || name === 'captions' || name === 'drawings')
          .map((name) => (
            <Tick
              key={name}
              label={words.overlays[name]}
              checked={choices.overlays[name]}
              onChange={(on) => {
                set({ overlays: { ...choices.overlays, [name]: on } });
              }}
            />
          ))}
      </fieldset>
      {!fitted && <p className={styles['soft']}>{words.noFit}</p>}
      {subject.beside ? (
        <p className={styles['soft']}>{words.noSoundBeside}</p>
      ) : (
        <Tick
          label={words.sound}
          hint={words.soundHint}
          checked={choices.sound}
          onChange={(sound) => {
            set({ sound });
          }}
        />
      )}
      <p className={styles['soft']} role="status">
        {seconds === null ? words.badFrames : `${words.lasts(seconds)} ${words.none}`}
      </p>
      <div className={styles['end']}>
        <Button onClick={onClose}>{words.close}</Button>
        <Button
          kind="main"
          type="submit"
          data-first=""
          // Here again from the clips that are made, the focus must not be lost.
          autoFocus
          icon={<Clapperboard aria-hidden />}
          disabled={seconds === null}
        >
          {words.make}
        </Button>
      </div>
      <ClipQueue />
    </form>
  );
}
