import { useEffect, useRef, useState } from 'react';
import { HostTrouble, runJob } from '../../../src/host/contract/link.ts';
import type { FootageUse } from '../../../src/review/document.ts';
import { bySound, linedUp, soundBarred, whichStays } from '../../../src/review/lineUp.ts';
import { lineUpWords as words } from '../../../src/words/lineUp.ts';
import { Dialog } from '../frame/Dialog.tsx';
import { Button } from '../look/Button.tsx';
import { Choice, TextField } from '../look/Field.tsx';
import { whyOf } from '../stores/notices.ts';
import { useWorkbench } from '../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from './DeskContext.ts';
import styles from './LineUpDialog.module.css';

/** Metres that are filled in: from one long side of a ring of 20 m to the other. */
const usualSpacing = '20';

/** The clips of this run: one more, and how they are brought onto one clock. */
export function LineUpDialog() {
  const { desk } = useDesk();
  const open = useDeskView((v) => v.lining);
  const { footage } = useOpenReview();
  const close = (): void => {
    desk.set({ lining: false });
  };
  return (
    <Dialog open={open} title={words.title} onClose={close}>
      {footage.length < 2 ? <p className={styles['soft']}>{words.oneClip}</p> : <Pair onDone={close} />}
      <div className={styles['end']}>
        <AddClip onDone={close} />
        <Button onClick={close}>{words.close}</Button>
      </div>
    </Dialog>
  );
}

function AddClip({ onDone }: { readonly onDone: () => void }) {
  const { shell, intake, notices } = useWorkbench();
  return (
    <Button
      data-first=""
      onClick={() => {
        onDone();
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
      {words.addClip}
    </Button>
  );
}

function Pair({ onDone }: { readonly onDone: () => void }) {
  const { desk } = useDesk();
  const { footage } = useOpenReview();
  const here = useDeskView((v) => v.footageId) ?? footage[0]?.id ?? '';
  const others = footage.filter((f) => f.id !== here);
  const [chosen, setChosen] = useState<string | null>(null);
  const other = (others.find((f) => f.id === chosen) ?? others[0])?.id ?? '';
  const { stays, moves } = whichStays(footage, here, other);
  const base = footage.find((f) => f.id === stays);
  const clip = footage.find((f) => f.id === moves);
  if (!base || !clip) return null;
  return (
    <div className={styles['pair']}>
      {others.length > 1 && (
        <Choice
          label={words.other}
          value={other}
          options={others.map((f) => [f.id, f.name])}
          onChange={setChosen}
        />
      )}
      <p>{words.intro(clip.name, base.name)}</p>
      <p className={styles['standing']}>{standing(clip)}</p>
      <BySound key={`${stays} ${moves}`} base={base} clip={clip} />
      <section className={styles['way']} aria-label={words.byMoment}>
        <h3>{words.byMoment}</h3>
        <p className={styles['soft']}>{words.byMomentWhy}</p>
        <Button
          onClick={() => {
            onDone();
            desk.enter({ name: 'moment', first: null });
            desk.say(words.mode.first);
          }}
        >
          {words.showMoment}
        </Button>
      </section>
    </div>
  );
}

function standing({ lineUp }: FootageUse): string {
  if (!lineUp) return words.standing.loose;
  return lineUp.by === 'sound'
    ? words.standing.sound(lineUp.plusMinus, lineUp.spacing ?? 0)
    : words.standing.moment(lineUp.plusMinus);
}

/** Where the comparing of sounds stands. */
type Listening =
  | { readonly is: 'ready' }
  | { readonly is: 'listening'; readonly share: number; readonly jobId: string | null }
  | { readonly is: 'told'; readonly text: string };

function BySound({ base, clip }: { readonly base: FootageUse; readonly clip: FootageUse }) {
  const { host, review, notices } = useWorkbench();
  const [spacing, setSpacing] = useState(String(clip.lineUp?.spacing ?? usualSpacing));
  const [state, setState] = useState<Listening>({ is: 'ready' });
  const gone = useRef(false);
  useEffect(() => {
    gone.current = false;
    return () => {
      gone.current = true;
    };
  }, []);
  const metres = /^\d+([.,]\d+)?$/.test(spacing.trim()) ? Number(spacing.trim().replace(',', '.')) : NaN;
  const bad = !(metres <= 1000);
  const barred = soundBarred(base, clip);

  const show = (next: Listening): void => {
    if (!gone.current) setState(next);
  };
  const listen = async (): Promise<void> => {
    show({ is: 'listening', share: 0, jobId: null });
    const part = ({ clipId, cut }: FootageUse) => ({ clipId, ...(cut ? { cut } : {}) });
    try {
      const answer = await runJob(
        host,
        'clips.lineUp',
        { to: part(base), of: part(clip), spacing: metres },
        (job) => {
          show({ is: 'listening', share: job.total ? job.done / job.total : 0, jobId: job.id });
        },
      );
      if (!answer.found) {
        show({ is: 'told', text: answer.words });
        return;
      }
      const footage = review.getState().state?.footage ?? [];
      const changes = linedUp(footage, base.id, clip.id, bySound(answer, metres));
      await review.apply(words.label.sound(clip.name, answer.plusMinus), changes);
      show({ is: 'told', text: words.agrees(answer.compared, answer.agree) });
    } catch (error) {
      const stopped = error instanceof HostTrouble && error.code === 'cancelled';
      show(stopped ? { is: 'ready' } : { is: 'told', text: whyOf(error).why });
    }
  };

  return (
    <section className={styles['way']} aria-label={words.bySound}>
      <h3>{words.bySound}</h3>
      <p className={styles['soft']}>{words.bySoundWhy}</p>
      {barred !== null ? (
        <p className={styles['told']}>{barred === 'moment' ? words.momentStays : words.slowMotion}</p>
      ) : (
        <form
          className={styles['sound']}
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            if (!bad && state.is !== 'listening') void listen();
          }}
        >
          <TextField
            label={words.spacing}
            {...(bad ? { hint: words.spacingBad } : {})}
            aria-invalid={bad}
            inputMode="decimal"
            value={spacing}
            onChange={setSpacing}
          />
          {state.is === 'listening' ? (
            <>
              <progress value={state.share} aria-label={words.listening} />
              <Button
                onClick={() => {
                  if (state.jobId === null) return;
                  host.call('job.cancel', { jobId: state.jobId }).catch((error: unknown) => {
                    notices.getState().trouble(error);
                  });
                }}
              >
                {words.stop}
              </Button>
            </>
          ) : (
            <Button kind="main" type="submit" disabled={bad}>
              {words.listen}
            </Button>
          )}
        </form>
      )}
      <p className={styles['told']} role="status">
        {state.is === 'told' ? state.text : state.is === 'listening' ? words.listening : ''}
      </p>
    </section>
  );
}
