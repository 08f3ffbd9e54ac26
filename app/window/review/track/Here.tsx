import { offLine, placeAt, speedAt } from '../../../../src/track/figures.ts';
import { aheadAt, apartAt } from '../../../../src/track/pairs.ts';
import { unseenAt } from '../../../../src/track/whereAt.ts';
import { pairOf } from '../../../../src/track/runLines.ts';
import { figure } from '../../../../src/words/figures.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { aheadSentence, offSentence } from '../../../../src/words/realLineSentences.ts';
import { useDesk, useDeskView, useLines } from '../DeskContext.ts';
import styles from './LinePage.module.css';
import { useWantedLine } from './useExpectedLines.ts';

const words = realLineWords.here;

/** Metres. */
const farOff = 4;

/** What the lines say of the frame on the screen. */
export function Here() {
  const { desk } = useDesk();
  useDeskView((v) => v.frame);
  const lines = useLines((v) => v.lines);
  const wanted = useWantedLine();
  const now = desk.now();
  const line = lines.dog?.line ?? null;
  const speed = line && speedAt(line, now);
  const place = line && placeAt(line, now);
  const near = line && wanted ? offLine(line, now, wanted) : null;
  // A wanted line that is drawn for another part of the course says nothing here.
  const off = near && Math.abs(near.value) < farOff ? near : null;
  const pair = pairOf(lines);
  const handlerGap = pair !== null && unseenAt(pair.handler, now) !== null;
  const apart = pair && !handlerGap && apartAt(pair, now);
  const ahead = pair && !handlerGap && aheadAt(pair, now);
  const gap = line !== null && unseenAt(line, now) !== null;
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      {!speed || !place ? (
        <p className={styles['soft']}>{words.off}</p>
      ) : (
        <dl className={styles['figures']}>
          <Row label={words.speed} value={figure(speed)} name="speed" />
          <Row label={words.known} value={words.within(place.band.long)} name="band" />
          {off && <Row label={words.wanted} value={offSentence(off)} name="off" />}
          {apart && <Row label={words.apart} value={figure(apart)} name="apart" />}
          {ahead && <Row label={words.ahead} value={aheadSentence(ahead)} name="ahead" />}
        </dl>
      )}
      {gap && <p className={styles['soft']}>{words.gap}</p>}
      {handlerGap && <p className={styles['soft']}>{words.handlerGap}</p>}
    </section>
  );
}

function Row({
  label,
  value,
  name,
}: {
  readonly label: string;
  readonly value: string;
  readonly name: string;
}) {
  return (
    <div>
      <dt>{label}</dt>
      <dd data-figure={name}>{value}</dd>
    </div>
  );
}
