import { useRef, useState } from 'react';
import type { CaptureFinding } from '../../../../src/review/captureFindings.ts';
import type { SpeedMap } from '../../../../src/time/captureClock.ts';
import { frameAt, frameAtSeconds } from '../../../../src/time/frameTable.ts';
import { rateAt, rateStretches } from '../../../../src/time/rateStretches.ts';
import { mediaSeconds, pts } from '../../../../src/time/units.ts';
import {
  captureSpeedWords,
  clipSpeedTold,
  findingSentence,
  speedTold,
} from '../../../../src/words/captureSpeed.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { useActs } from '../../keys/useActs.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField, TextField } from '../../look/Field.tsx';
import { useDesk, useDeskView } from '../DeskContext.ts';
import type { Mode } from '../desk/view.ts';
import { saidOfTimes } from './clipHands.ts';
import styles from './SpeedPage.module.css';
import { useCaptureFindings, useClipOnDesk, type ClipOnDesk } from './useClipOnDesk.ts';

const words = captureSpeedWords;

/** Where the coach says how fast the clip was filmed. Stands in place of the panel while that is asked. */
export function SpeedPage() {
  const { clipHands: hands, hands: others } = useDesk();
  const mode = useDeskView((v) => v.mode);
  const here = useClipOnDesk();
  const findings = useCaptureFindings();
  if (mode.name !== 'speed' || !here) return null;
  return (
    <div className={styles['page']}>
      <h2 className={styles['title']}>{words.title}</h2>
      <p className={styles['soft']}>{here.use.name}</p>
      <Said here={here} />
      {findings.length > 0 && <Found findings={findings} inUse={here.clock.speed} onUse={hands.use} />}
      <Say here={here} mode={mode} />
      <ByClock here={here} mode={mode} />
      <p className={styles['soft']}>{words.limit}</p>
      <Button
        kind="main"
        act="review.leave"
        onClick={() => {
          others.leave();
        }}
      >
        {words.done}
      </Button>
    </div>
  );
}

/** What is said of the clip now; each change of speed leads to its frame. */
function Said({ here: { use, clock } }: { readonly here: ClipOnDesk }) {
  const { desk } = useDesk();
  const [first] = clock.speed;
  if (!first) return <p data-figure="captureSpeed">{words.nothingSaid}</p>;
  if (clock.speed.length === 1) return <p data-figure="captureSpeed">{words.whole(speedTold(first))}</p>;
  return (
    <div data-figure="captureSpeed">
      <p>{words.parts}</p>
      <ul className={styles['parts']}>
        {clock.speed.map((piece) => {
          const frame = frameAtSeconds(clock.table, mediaSeconds(piece.from));
          return (
            <li key={piece.from}>
              <button
                type="button"
                className={styles['go']}
                onClick={() => {
                  desk.pause();
                  desk.goTo(use.id, frame);
                }}
              >
                {words.part(frame, speedTold(piece))}
              </button>
            </li>
          );
        })}
      </ul>
    </div>
  );
}

function Found({
  findings,
  inUse,
  onUse,
}: {
  readonly findings: readonly CaptureFinding[];
  readonly inUse: SpeedMap;
  readonly onUse: (speed: SpeedMap) => void;
}) {
  return (
    <section className={styles['part']}>
      <h3 className={styles['title']}>{words.found.title}</h3>
      {findings.map((finding) => {
        const { speed } = finding;
        const told = speed && clipSpeedTold(speed);
        return (
          <div key={finding.source} className={styles['finding']}>
            <p>{findingSentence(finding)}</p>
            {speed &&
              told !== null &&
              (sameSpeeds(speed, inUse) ? (
                <p className={styles['soft']}>{words.found.inUse}</p>
              ) : (
                <Button
                  onClick={() => {
                    onUse(speed);
                  }}
                >
                  {words.found.useNamed(told)}
                </Button>
              ))}
          </div>
        );
      })}
    </section>
  );
}

type SpeedMode = Extract<Mode, { readonly name: 'speed' }>;

const shown = (n: number): string => String(Math.round(n * 1000) / 1000);
/** A number as people type it, with a point or a comma; NaN where it is none. */
const typed = (text: string): number => (text.trim() === '' ? NaN : Number(text.trim().replace(',', '.')));

/** The speed about to be said, as frames a second at the camera or as times slower, and where it holds. */
function Say({ here: { clock }, mode }: { readonly here: ClipOnDesk; readonly mode: SpeedMode }) {
  const { clipHands: hands } = useDesk();
  const frame = useDeskView((v) => v.frame);
  const field = useRef<HTMLDivElement>(null);
  const [bad, setBad] = useState(false);
  const rate = rateAt(rateStretches(clock.table), frame);
  useActs({
    'review.speed.type': () => {
      const input = field.current?.querySelector('input');
      input?.focus();
      input?.select();
    },
  });
  const told = speedTold(saidOfTimes(mode.times, mode.doubt));
  const keep = (times: number, doubt: number): void => {
    const good = times > 0 && times <= 1000 && doubt >= 0 && doubt < times;
    setBad(!good);
    if (good) hands.setTimes(times, doubt);
  };
  return (
    <section className={styles['part']} ref={field}>
      <h3 className={styles['title']}>{words.say.title}</h3>
      {rate !== null && (
        <KeptField
          label={words.say.fps}
          hint={words.say.plays(rate)}
          inputMode="decimal"
          value={shown(mode.times * rate)}
          onKeep={(text) => {
            keep(typed(text) / rate, mode.doubt);
          }}
          onKeyDown={leaveField}
        />
      )}
      <div className={styles['pair']}>
        <KeptField
          label={words.say.times}
          inputMode="decimal"
          value={shown(mode.times)}
          onKeep={(text) => {
            keep(typed(text), mode.doubt);
          }}
          onKeyDown={leaveField}
        />
        <KeptField
          label={words.say.plusMinus}
          inputMode="decimal"
          value={shown(mode.doubt)}
          onKeep={(text) => {
            keep(mode.times, typed(text));
          }}
          onKeyDown={leaveField}
        />
      </div>
      {bad && <p role="alert">{words.say.badNumber}</p>}
      <div className={styles['acts']}>
        <Button
          act="review.speed.wholeSlow"
          onClick={() => {
            hands.sayWhole('slow');
          }}
        >
          {words.say.wholeSlow(told)}
        </Button>
        <Button
          act="review.speed.wholeLife"
          onClick={() => {
            hands.sayWhole('life');
          }}
        >
          {words.say.wholeLife}
        </Button>
        <Button
          act="review.speed.fromSlow"
          onClick={() => {
            hands.sayFrom('slow');
          }}
        >
          {words.say.fromSlow(told)}
        </Button>
        <Button
          act="review.speed.fromLife"
          onClick={() => {
            hands.sayFrom('life');
          }}
        >
          {words.say.fromLife}
        </Button>
        <Button
          kind="quiet"
          act="review.speed.takeAway"
          onClick={() => {
            hands.takeAway();
          }}
        >
          {words.say.takeAway}
        </Button>
      </div>
    </section>
  );
}

/** After Enter or Escape the keys belong to the run again. */
function leaveField(event: React.KeyboardEvent<HTMLInputElement>): void {
  if (event.key !== 'Enter' && event.key !== 'Escape') return;
  event.preventDefault();
  event.currentTarget.blur();
}

/** The speed from a clock or stopwatch that the picture shows. */
function ByClock({ here: { clock }, mode }: { readonly here: ClipOnDesk; readonly mode: SpeedMode }) {
  const { clipHands: hands } = useDesk();
  const [seconds, setSeconds] = useState('');
  const [plusMinus, setPlusMinus] = useState('0.01');
  const frameOf = (at: number | null): string =>
    at === null ? words.clock.none : reviewScreenWords.play.frame(frameAt(clock.table, pts(at)));
  return (
    <section className={styles['part']}>
      <h3 className={styles['title']}>{words.clock.title}</h3>
      <p className={styles['soft']}>{words.clock.text}</p>
      <div className={styles['pair']}>
        {(['from', 'to'] as const).map((end) => (
          <div key={end}>
            <Button
              act={end === 'from' ? 'review.speed.countFrom' : 'review.speed.countTo'}
              onClick={() => {
                hands.count(end);
              }}
            >
              {words.clock[end]}
            </Button>
            <p className={styles['soft']}>{frameOf(mode[end])}</p>
          </div>
        ))}
      </div>
      <form
        className={styles['part']}
        onSubmit={(event) => {
          event.preventDefault();
          hands.byClock(typed(seconds), typed(plusMinus));
        }}
      >
        <div className={styles['pair']}>
          <TextField label={words.clock.seconds} inputMode="decimal" value={seconds} onChange={setSeconds} />
          <TextField
            label={words.clock.plusMinus}
            inputMode="decimal"
            value={plusMinus}
            onChange={setPlusMinus}
          />
        </div>
        {clock.speed.length > 1 && <p className={styles['soft']}>{words.clock.stretch}</p>}
        <Button type="submit">{words.clock.workOut}</Button>
      </form>
    </section>
  );
}

function sameSpeeds(a: SpeedMap, b: SpeedMap): boolean {
  return (
    a.length === b.length &&
    a.every((piece, i) => {
      const other = b[i];
      return (
        other?.from === piece.from &&
        other.speed === piece.speed &&
        (other.plusMinus ?? 0) === (piece.plusMinus ?? 0)
      );
    })
  );
}
