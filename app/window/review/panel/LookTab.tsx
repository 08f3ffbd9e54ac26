import { ChevronDown, ChevronLeft, ChevronRight, ChevronUp, Minus, Plus } from 'lucide-react';
import { useId, type ReactNode } from 'react';
import { frameAt } from '../../../../src/time/frameTable.ts';
import { pts as asPts } from '../../../../src/time/units.ts';
import { lookWords } from '../../../../src/words/look.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { Key } from '../../keys/Key.tsx';
import type { ActName } from '../../keys/allActs.ts';
import { Button } from '../../look/Button.tsx';
import { useWorkbench } from '../../stores/react.ts';
import { useDesk, useDeskView, useLook } from '../DeskContext.ts';
import { lightRange, type LightPart } from '../look/light.ts';
import { useLight } from '../look/useLight.ts';
import styles from './LookTab.module.css';
import { Leave } from '../Leave.tsx';

const words = lookWords.panel;

/** Tools for looking closer: the magnifier, frames laid over, the light, and what is played round and round. */
export function LookTab() {
  return (
    <div className={styles['look']}>
      <header className={styles['head']}>
        <h2 className={styles['title']}>{words.label}</h2>
        <Leave kind="main">{words.done}</Leave>
      </header>
      <MagnifierTools />
      <LaidOver />
      <LightTools />
      <Rounds />
    </div>
  );
}

function MagnifierTools() {
  const { desk, look } = useDesk();
  useDeskView((v) => v.footageId);
  useLook((v) => v.magnifiers);
  const { zoom, places } = look.magnifier();
  const table = desk.clock()?.table;
  const frameOf = (pts: number): number => (table ? frameAt(table, asPts(pts)) : 0);
  return (
    <section className={styles['part']} aria-label={words.magnifier}>
      <h3 className={styles['name']}>{words.magnifier}</h3>
      <div className={styles['row']}>
        <Small act="review.further" label={words.further}>
          <Minus aria-hidden />
        </Small>
        <output className={styles['size']} aria-live="off">
          {words.zoom(zoom)}
        </output>
        <Small act="review.nearer" label={words.nearer}>
          <Plus aria-hidden />
        </Small>
        <span className={styles['arrows']}>
          <Small act="review.look.left" label={words.left}>
            <ChevronLeft aria-hidden />
          </Small>
          <Small act="review.look.up" label={words.up}>
            <ChevronUp aria-hidden />
          </Small>
          <Small act="review.look.down" label={words.down}>
            <ChevronDown aria-hidden />
          </Small>
          <Small act="review.look.right" label={words.right}>
            <ChevronRight aria-hidden />
          </Small>
        </span>
      </div>
      <p className={styles['soft']}>{zoom > 1 ? words.followHint : words.hint}</p>
      <Button
        act="review.look.setPlace"
        onClick={() => {
          look.setPlace();
        }}
      >
        {words.setPlace}
      </Button>
      {places.length > 0 && (
        <ul className={styles['places']} aria-label={words.follow}>
          {places.map(({ pts }) => (
            <li key={pts}>
              <button
                type="button"
                className={styles['go']}
                onClick={() => {
                  desk.pause();
                  desk.goToFrame(frameOf(pts));
                }}
              >
                {reviewScreenWords.play.frame(frameOf(pts))}
              </button>
              <button
                type="button"
                className={styles['small']}
                aria-label={words.remove(frameOf(pts))}
                title={words.remove(frameOf(pts))}
                onClick={() => {
                  look.removePlace(pts);
                }}
              >
                <Minus aria-hidden />
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function LaidOver() {
  const { look } = useDesk();
  const laid = useLook((v) => v.laid);
  const each = useLook((v) => v.laidOver);
  return (
    <section className={styles['part']} aria-label={words.laid}>
      <h3 className={styles['name']}>
        {words.laid} <Key act="review.laid" />
      </h3>
      <div className={styles['row']} role="group" aria-label={words.laid}>
        <button
          type="button"
          className={styles['choice']}
          aria-pressed={!laid}
          onClick={() => {
            look.liftOff();
          }}
        >
          {words.off}
        </button>
        {([1, 2, 3] as const).map((n) => (
          <button
            key={n}
            type="button"
            className={styles['choice']}
            aria-pressed={laid && each === n}
            aria-label={words.each(n)}
            onClick={() => {
              look.layOver(n);
            }}
          >
            {n}
          </button>
        ))}
      </div>
      <p className={styles['soft']}>
        <i className={styles['dot']} data-side="before" aria-hidden /> {words.before}{' '}
        <i className={styles['dot']} data-side="after" aria-hidden /> {words.after}. {words.laidHint}
      </p>
    </section>
  );
}

const lightKeys: Readonly<Record<LightPart, readonly [ActName, ActName]>> = {
  brightness: ['review.look.darker', 'review.look.brighter'],
  contrast: ['review.look.lessContrast', 'review.look.moreContrast'],
  gamma: ['review.look.gammaDown', 'review.look.gammaUp'],
};

function LightTools() {
  const { look } = useDesk();
  return (
    <section className={styles['part']} aria-label={words.light}>
      <div className={styles['head']}>
        <h3 className={styles['name']}>{words.light}</h3>
        <Button
          kind="quiet"
          act="review.look.asFilmed"
          onClick={() => {
            look.resetLight();
          }}
        >
          {words.asFilmed}
        </Button>
      </div>
      {(['brightness', 'gamma', 'contrast'] as const).map((part) => (
        <Slider key={part} part={part} />
      ))}
      <p className={styles['soft']}>{words.lightHint}</p>
    </section>
  );
}

function Slider({ part }: { readonly part: LightPart }) {
  const { look } = useDesk();
  const value = useLight()[part];
  const id = useId();
  const { least, most } = lightRange[part];
  const [less, more] = lightKeys[part];
  return (
    <div className={styles['slider']}>
      <label htmlFor={id}>{words.parts[part]}</label>
      <Key act={less} />
      <input
        id={id}
        type="range"
        min={least}
        max={most}
        step={0.05}
        value={value}
        title={value.toFixed(2)}
        onChange={(event) => {
          look.setLight(part, event.target.valueAsNumber);
        }}
        onPointerUp={(event) => {
          event.currentTarget.blur();
        }}
      />
      <Key act={more} />
    </div>
  );
}

function Rounds() {
  const { desk } = useDesk();
  const on = useDeskView((v) => v.loop !== null);
  const begun = useDeskView((v) => v.loopFrom !== null);
  return (
    <section className={styles['head']} aria-label={words.loop}>
      <h3 className={styles['name']}>{words.loop}</h3>
      <Button
        act="review.loopEnds"
        pressed={on || begun}
        onClick={() => {
          desk.loopHere();
        }}
      >
        {on ? words.loopOff : begun ? words.loopTo : words.loopFrom}
      </Button>
    </section>
  );
}

/** A small button that does what its key does. */
function Small({
  act,
  label,
  children,
}: {
  readonly act: ActName;
  readonly label: string;
  readonly children: ReactNode;
}) {
  const { keyboard } = useWorkbench();
  return (
    <button
      type="button"
      className={styles['small']}
      aria-label={label}
      title={label}
      onClick={() => {
        keyboard.do(act);
      }}
    >
      {children}
    </button>
  );
}
