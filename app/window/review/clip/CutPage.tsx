import { Trash2 } from 'lucide-react';
import { useRef, useState } from 'react';
import type { Cut, RunInClip } from '../../../../src/review/document.ts';
import type { ClipClock } from '../../../../src/time/bracket.ts';
import { frameAt, frameSeconds } from '../../../../src/time/frameTable.ts';
import { pts } from '../../../../src/time/units.ts';
import { clipCutWords, placeInClip as reading } from '../../../../src/words/clipCut.ts';
import { useActs } from '../../keys/useActs.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField } from '../../look/Field.tsx';
import { useWorkbench } from '../../stores/react.ts';
import { addressOf } from '../../stores/route.ts';
import { useDesk, useDeskView, useOpenReview } from '../DeskContext.ts';
import styles from './CutPage.module.css';
import { inOrder, ready, runAt } from './cutEdits.ts';
import { makeRuns } from './makeRuns.ts';
import { useClipOnDesk, type ClipOnDesk } from './useClipOnDesk.ts';
import { Leave } from '../Leave.tsx';

const words = clipCutWords;

/** Runs of several dogs in one clip, or the part of it that this review is about. Stands in place of the panel. */
export function CutPage() {
  const here = useClipOnDesk();
  if (!here) return null;
  return (
    <div className={styles['page']}>
      <h2 className={styles['title']}>{here.use.cut ? words.titleCut : words.title}</h2>
      {here.use.cut ? <ThisCut here={here} cut={here.use.cut} /> : <Runs here={here} />}
      <Leave>{words.done}</Leave>
    </div>
  );
}

/** Media time of a presentation time, from the first frame of the clip on. */
function mediaAt({ table }: ClipClock, at: number): number {
  return frameSeconds(table, frameAt(table, pts(at))) - frameSeconds(table, frameAt(table, pts(-1e15)));
}

function ThisCut({ here: { use, clock }, cut }: { readonly here: ClipOnDesk; readonly cut: Cut }) {
  const { cutHands } = useDesk();
  const beyond = useDeskView((v) => v.beyond);
  const from = mediaAt(clock, cut.from);
  const to = mediaAt(clock, cut.to);
  return (
    <>
      <p data-figure="cut">{words.now(reading(from), reading(to), to - from, use.name)}</p>
      <p className={styles['soft']}>{words.within}</p>
      <div className={styles['acts']}>
        <Button act="review.cut.beyond" pressed={beyond} onClick={cutHands.toggleBeyond}>
          {beyond ? words.beyondOff : words.beyondOn}
        </Button>
        <Button act="review.cut.begin" onClick={cutHands.begin}>
          {words.beginCut}
        </Button>
        <Button act="review.cut.end" onClick={cutHands.end}>
          {words.endCut}
        </Button>
        <Button kind="quiet" onClick={cutHands.wholeClip}>
          {words.wholeClip}
        </Button>
      </div>
    </>
  );
}

function Runs({ here: { use, clock } }: { readonly here: ClipOnDesk }) {
  const { desk, cutHands } = useDesk();
  const workbench = useWorkbench();
  const review = useOpenReview();
  const list = useRef<HTMLOListElement>(null);
  const [making, setMaking] = useState(false);
  const { runs = [] } = use;
  const toMake = ready(runs).length;

  const make = async (): Promise<void> => {
    if (making) return;
    if (toMake === 0) {
      desk.say(words.said.nothingToMake);
      return;
    }
    setMaking(true);
    desk.pause();
    desk.say(words.said.making);
    const made = await makeRuns(workbench, review, use, clock);
    cutHands.made(use.id, made);
    setMaking(false);
    if (made.size > 0) workbench.notices.getState().say(words.allMade(made.size));
  };
  useActs({
    'review.cut.make': () => void make(),
    'review.cut.name': () => {
      const at = clock.table.pts[desk.store.getState().frame] ?? 0;
      const run = runAt(runs, at);
      list.current?.querySelector<HTMLInputElement>(`[data-run="${run?.id ?? ''}"] input`)?.focus();
    },
  });

  return (
    <>
      <p className={styles['soft']}>{words.intro}</p>
      <div className={styles['acts']}>
        <Button act="review.cut.begin" onClick={cutHands.begin}>
          {words.begin}
        </Button>
        <Button act="review.cut.end" onClick={cutHands.end}>
          {words.end}
        </Button>
      </div>
      {runs.length === 0 && <p>{words.none}</p>}
      <ol ref={list} className={styles['runs']}>
        {inOrder(runs).map((run, i) => (
          <Run key={run.id} run={run} number={i + 1} footageId={use.id} clock={clock} />
        ))}
      </ol>
      <Button kind="main" act="review.cut.make" disabled={making || toMake === 0} onClick={() => void make()}>
        {toMake === 0 ? words.makeNone : words.make(toMake)}
      </Button>
    </>
  );
}

interface RunProps {
  readonly run: RunInClip;
  readonly number: number;
  readonly footageId: string;
  readonly clock: ClipClock;
}

function Run({ run, number, footageId, clock }: RunProps) {
  const { desk, cutHands } = useDesk();
  const from = mediaAt(clock, run.from);
  const to = run.to === null ? null : mediaAt(clock, run.to);
  const when = to === null ? words.from(reading(from)) : words.fromTo(reading(from), reading(to), to - from);
  return (
    <li className={styles['run']} data-run={run.id}>
      <div className={styles['head']}>
        <strong>{words.run(number)}</strong>
        <button
          type="button"
          className={styles['go']}
          aria-label={words.goOf(number, when)}
          onClick={() => {
            desk.pause();
            desk.goTo(footageId, frameAt(clock.table, pts(run.from)));
          }}
        >
          {when}
        </button>
        {run.reviewId === undefined && (
          <Button
            kind="quiet"
            icon={<Trash2 aria-hidden />}
            aria-label={words.removeOf(number)}
            onClick={() => {
              cutHands.remove(run.id);
            }}
          >
            {''}
          </Button>
        )}
      </div>
      {run.reviewId === undefined ? (
        <div className={styles['pair']}>
          <KeptField
            label={words.dogOf(number)}
            bare
            placeholder={words.dog}
            maxLength={80}
            value={run.dog}
            onKeep={(dog) => {
              cutHands.name(run.id, { dog: dog.trim() });
            }}
            onKeyDown={leaveField}
          />
          <KeptField
            label={words.handlerOf(number)}
            bare
            placeholder={words.handler}
            maxLength={80}
            value={run.handler}
            onKeep={(handler) => {
              cutHands.name(run.id, { handler: handler.trim() });
            }}
            onKeyDown={leaveField}
          />
        </div>
      ) : (
        <p>
          {[run.dog, run.handler].filter((name) => name !== '').join(' · ')}{' '}
          <a href={addressOf({ screen: 'review', reviewId: run.reviewId })} aria-label={words.madeOf(number)}>
            {words.made}
          </a>
        </p>
      )}
      {to === null && <p className={styles['soft']}>{words.open}</p>}
    </li>
  );
}

/** After Enter or Escape the keys belong to the run again. */
function leaveField(event: React.KeyboardEvent<HTMLInputElement>): void {
  if (event.key !== 'Enter' && event.key !== 'Escape') return;
  event.preventDefault();
  event.currentTarget.blur();
}
