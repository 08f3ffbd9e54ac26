import { useState } from 'react';
import { obstacleAt } from '../../../src/course/course.ts';
import { captureSpeedWords } from '../../../src/words/captureSpeed.ts';
import { clipCutWords } from '../../../src/words/clipCut.ts';
import { edgeWord, sentenceCase } from '../../../src/words/review.ts';
import { groundWords } from '../../../src/words/groundPage.ts';
import { lookWords } from '../../../src/words/look.ts';
import { bodyPointWords, realLineWords } from '../../../src/words/realLine.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { lineUpWords } from '../../../src/words/lineUp.ts';
import { crossWords, eventWords, refusalWords } from '../../../src/words/trade.ts';
import { KeyCap } from '../keys/Key.tsx';
import type { ActName } from '../keys/allActs.ts';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { useDesk, useDeskView, useOpenReview, useTrack } from './DeskContext.ts';
import type { Mode } from './desk/view.ts';
import styles from './KeyStrip.module.css';
import { useHand } from './useHand.ts';

const words = reviewScreenWords.keys;
const speedWords = captureSpeedWords.strip;
const cutWords = clipCutWords.strip;
const trackWords = realLineWords.strip;

/** One entry of the strip: the acts it stands for, and its word. The first act is what a click does. */
interface Entry {
  readonly acts: readonly ActName[];
  readonly word: string;
}

const one = (act: ActName, word: string): Entry => ({ acts: [act], word });

const edits: readonly Entry[] = [
  one('review.move', words.move),
  { acts: ['review.nudgeBack', 'review.nudgeOn'], word: words.nudge },
  one('review.unsure', words.unsure),
  one('review.edit', words.edit),
  one('review.remove', words.remove),
];

const moves: readonly Entry[] = [
  { acts: ['review.previousFrame', 'review.nextFrame'], word: words.frame },
  { acts: ['review.tenBack', 'review.tenForward'], word: words.ten },
  { acts: ['review.previousMark', 'review.nextMark'], word: words.marks },
  { acts: ['review.first', 'review.last'], word: words.ends },
];

const pages: readonly Entry[] = [one('review.nextTab', words.page)];

const laid = one('review.table', reviewScreenWords.table.open.toLowerCase());

const looking = lookWords.keys;
const lookEntries: readonly (readonly Entry[])[] = [
  [
    { acts: ['review.further', 'review.nearer'], word: looking.zoom },
    one('review.look.whole', looking.whole),
    {
      acts: ['review.look.up', 'review.look.left', 'review.look.down', 'review.look.right'],
      word: looking.move,
    },
    one('review.look.setPlace', looking.setPlace),
    one('review.look.removePlace', looking.removePlace),
    { acts: ['review.look.previousPlace', 'review.look.nextPlace'], word: looking.places },
  ],
  [
    one('review.laid', looking.laid),
    { acts: ['review.look.each1', 'review.look.each2', 'review.look.each3'], word: looking.each },
  ],
  [
    { acts: ['review.look.darker', 'review.look.brighter'], word: looking.brightness },
    { acts: ['review.look.lessContrast', 'review.look.moreContrast'], word: looking.contrast },
    { acts: ['review.look.gammaDown', 'review.look.gammaUp'], word: looking.gamma },
    one('review.look.asFilmed', looking.asFilmed),
  ],
  [
    one('review.strip', looking.strip),
    one('review.loopEnds', looking.loopEnds),
    one('review.leave', words.leave),
  ],
];

const ground = groundWords.strip;
const groundEntries: readonly (readonly Entry[])[] = [
  [
    one('review.ground.set', ground.set),
    one('review.ground.next', ground.next),
    one('review.ground.previous', ground.previous),
    one('review.ground.agree', ground.agree),
    one('review.ground.remove', ground.remove),
    one('review.ground.worst', ground.worst),
  ],
  [
    {
      acts: ['review.ground.up', 'review.ground.left', 'review.ground.down', 'review.ground.right'],
      word: ground.move,
    },
    one('review.ground.far', ground.far),
    { acts: ['review.further', 'review.nearer'], word: looking.zoom },
  ],
  [one('review.ground.course', ground.course), one('review.ground.error', ground.error)],
  [
    one('review.ground.stretch', ground.stretch),
    one('review.ground.refit', ground.refit),
    one('review.ground.over', ground.over),
    one('review.leave', words.leave),
  ],
];

const trackEntries: readonly (readonly Entry[])[] = [
  [
    one('review.track.ground', trackWords.ground),
    one('review.track.air', trackWords.air),
    one('review.track.skip', trackWords.skip),
    one('review.track.back', trackWords.back),
    one('review.track.remove', trackWords.remove),
  ],
  [
    {
      acts: ['review.track.up', 'review.track.left', 'review.track.down', 'review.track.right'],
      word: trackWords.cross,
    },
    one('review.track.put', trackWords.put),
    one('review.track.fine', trackWords.fine),
  ],
  [
    one('review.track.dog', trackWords.dog),
    one('review.track.handler', trackWords.handler),
    one('review.track.point', trackWords.point),
    { acts: ['review.track.shorter', 'review.track.longer'], word: trackWords.step },
  ],
  [
    { acts: ['review.further', 'review.nearer'], word: lookWords.keys.zoom },
    one('review.leave', words.leave),
  ],
  moves,
];

/** The keys that do something now, each with its word; they change with what the hands are at. */
export function KeyStrip() {
  const { keyboard } = useWorkbench();
  const mode = useDeskView((v) => v.mode);
  const typed = useDeskView((v) => v.typed.place);
  const title = useTitle(mode);
  const groups = useEntries(mode);
  return (
    <section className={styles['strip']} aria-label={words.strip}>
      <h2 className={styles['title']}>{title}</h2>
      <div className={styles['entries']}>
        {mode.name === 'newKind' ? (
          <NewKind />
        ) : (
          groups.map((group, i) => (
            <span key={i} className={styles['group']}>
              {group.map((entry) => (
                <Entry key={entry.acts[0]} entry={entry} />
              ))}
              {mode.name === 'obstacles' && i === 0 && (
                <span className={styles['typed']}>
                  <KeyCap name={words.digits} /> {words.typed}
                  {typed !== null && (
                    <>
                      <KeyCap name={keyboard.keyFor('review.edit')} /> {words.goTo(typed)}
                    </>
                  )}
                </span>
              )}
            </span>
          ))
        )}
      </div>
    </section>
  );
}

function useTitle(mode: Mode): string {
  const hand = useHand();
  const point = useTrack((v) => (v.who === 'dog' ? v.dogPoint : v.handlerPoint));
  switch (mode.name) {
    case 'obstacles':
      return words.obstacles;
    case 'cross':
      return sentenceCase(words.cross(crossWords[mode.open.cross.kind], mode.open.cross.place));
    case 'crossKind':
      return words.crossKind;
    case 'start':
      return words.start(hand.try);
    case 'pen':
      return words.pen;
    case 'speed':
      return speedWords.title;
    case 'cut':
      return cutWords.title;
    case 'moment':
      return lineUpWords.mode.title(mode.first ? 2 : 1);
    case 'events':
      return words.events;
    case 'refusal':
      return words.refusal;
    case 'look':
      return lookWords.keys.title;
    case 'ground':
      return ground.title;
    case 'track':
      return trackWords.title(bodyPointWords[point]);
    case 'newKind':
      return words.newKind;
  }
}

function useEntries(mode: Mode): readonly (readonly Entry[])[] {
  const { course, header } = useOpenReview();
  const hand = useHand();
  const kindAt = (place: number | null): ReturnType<typeof kindOf> => kindOf(course, place);
  switch (mode.name) {
    case 'obstacles': {
      const kind = kindAt(hand.place);
      return [
        [
          one('review.in', edgeWord(kind, 'in')),
          one('review.out', edgeWord(kind, 'out')),
          one('review.whole', words.whole),
        ],
        [
          one('review.events', words.event),
          one('review.cross', words.lookCross),
          one('review.start', words.lookStart),
          one('review.pen', words.draw),
        ],
        [
          one('review.speed', speedWords.open),
          one('review.cut', cutWords.open),
          one('review.lineUp', words.clips),
        ],
        [one('review.ground', ground.open), one('review.track', trackWords.open)],
        edits,
        moves,
        pages,
      ];
    }
    case 'cross': {
      const kind = kindAt(mode.open.cross.place);
      return [
        [
          one('review.cross.feet', words.feet),
          one('review.cross.shoulders', words.shoulders),
          one('review.cross.slowing', words.slowing),
          one('review.cross.voice', words.voice),
          one('review.cross.finished', words.finished),
        ],
        [
          one('review.cross.committed', words.committed),
          one('review.cross.takeOff', edgeWord(kind, 'in')),
          one('review.cross.landing', edgeWord(kind, 'out')),
        ],
        [one('review.cross.kind', words.kind), laid, one('review.leave', words.leave)],
        edits,
        moves,
      ];
    }
    case 'crossKind':
      return [
        [
          one('review.kind.front', crossWords.front),
          one('review.kind.blind', crossWords.blind),
          one('review.kind.rear', crossWords.rear),
          one('review.kind.leadOutPivot', crossWords.leadOutPivot),
          one('review.kind.serpentine', crossWords.serpentine),
          one('review.kind.threadle', crossWords.threadle),
        ],
        [one('review.leave', words.back)],
      ];
    case 'start':
      return [
        [
          one('review.start.setUp', words.setUp),
          one('review.start.fake', words.fake),
          one('review.start.shift', words.shift),
          one('review.start.step', words.step),
          one('review.start.release', words.release),
          one('review.start.paws', trackWords.paws),
          one('review.start.nextTry', words.nextTry),
        ],
        [one('review.leave', words.leave)],
        edits,
        moves,
      ];
    case 'moment':
      return [
        [
          one('review.moment.same', lineUpWords.mode.same),
          one('review.moment.otherClip', words.otherClip),
          one('review.leave', words.leave),
        ],
        moves,
      ];
    case 'pen':
      return [
        [
          one('review.pen.persimmon', reviewScreenWords.pen.inks.persimmon),
          one('review.pen.chalk', reviewScreenWords.pen.inks.chalk),
          one('review.pen.sky', reviewScreenWords.pen.inks.sky),
          one('review.pen.sun', reviewScreenWords.pen.inks.sun),
        ],
        [
          one('review.pen.back', words.strokeBack),
          one('review.pen.clear', words.clear),
          one('review.leave', words.leave),
        ],
        moves,
      ];
    case 'cut':
      return [
        [one('review.cut.begin', cutWords.begin), one('review.cut.end', cutWords.end)],
        [
          one('review.cut.name', cutWords.name),
          one('review.cut.make', cutWords.make),
          one('review.cut.beyond', cutWords.beyond),
          one('review.cut.remove', cutWords.remove),
          one('review.leave', words.leave),
        ],
        moves,
      ];
    case 'speed':
      return [
        [
          one('review.speed.type', speedWords.type),
          one('review.speed.wholeSlow', speedWords.wholeSlow),
          one('review.speed.wholeLife', speedWords.wholeLife),
        ],
        [
          one('review.speed.fromSlow', speedWords.fromSlow),
          one('review.speed.fromLife', speedWords.fromLife),
          one('review.speed.takeAway', speedWords.takeAway),
        ],
        [
          one('review.speed.countFrom', speedWords.countFrom),
          one('review.speed.countTo', speedWords.countTo),
          one('review.leave', words.leave),
        ],
        moves,
      ];
    case 'events':
      return [
        [
          one('review.event.barDown', eventWords.barDown),
          one('review.event.refusal', words.refusalShort),
          one('review.event.offCourse', eventWords.offCourse),
          one('review.event.missedEntry', eventWords.missedEntry),
          one('review.event.poppedOut', eventWords.poppedOut),
          one('review.event.missedContact', eventWords.missedContact),
          one('review.event.wide', eventWords.wide),
          one('review.event.lateCross', eventWords.lateCross),
        ],
        [
          one('review.event.step', words.brokeStay),
          one('review.event.fake', words.fake),
          one('review.event.release', words.release),
        ],
        [
          one('review.event.happy', eventWords.happy),
          one('review.event.worried', eventWords.worried),
          one('review.event.reward', eventWords.reward),
          one('review.event.note', eventWords.note),
        ],
        [
          one('review.event.clockStart', eventWords.clockStart),
          one('review.event.clockStop', eventWords.clockStop),
        ],
        [
          ...header.ownEvents.slice(0, 9).map((e, i) => one(`review.own${(i + 1) as 1}`, e.label)),
          one('review.event.newKind', words.newKindShort),
          one('review.leave', words.leave),
        ],
      ];
    case 'refusal':
      return [
        [
          one('review.refusal.stopped', refusalWords.stopped),
          one('review.refusal.ranBy', refusalWords.ranBy),
          one('review.refusal.throughFrame', refusalWords.throughFrame),
          one('review.refusal.walkedThrough', refusalWords.walkedThrough),
          one('review.refusal.headInTunnel', refusalWords.headInTunnel),
        ],
        [one('review.leave', words.leave)],
      ];
    case 'look':
      return lookEntries;
    case 'ground':
      return groundEntries;
    case 'track':
      return trackEntries;
    case 'newKind':
      return [];
  }
}

function kindOf(course: Parameters<typeof obstacleAt>[0], place: number | null) {
  return (place === null ? undefined : obstacleAt(course, place)?.kind) ?? 'unknown';
}

/** A cap or two with their word; a click does the act (of two, each cap is its own button). */
function Entry({ entry }: { readonly entry: Entry }) {
  const { keyboard } = useWorkbench();
  usePreferences((p) => p.keys);
  const several = entry.acts.length > 1;
  return (
    <span className={styles['entry']}>
      {entry.acts.map((act, i) => (
        <button
          key={act}
          type="button"
          className={styles['act']}
          {...(several ? { 'aria-label': labelOf(keyboard.acts, act) } : {})}
          onClick={() => {
            keyboard.do(act);
          }}
        >
          <KeyCap name={keyboard.keyFor(act)} />
          {(!several || i === entry.acts.length - 1) && <span>{entry.word}</span>}
        </button>
      ))}
    </span>
  );
}

function labelOf(acts: readonly { readonly name: string; readonly label: string }[], name: string): string {
  return acts.find((a) => a.name === name)?.label ?? name;
}

/** The name of a new kind of event. Enter notes it, Escape leaves. */
function NewKind() {
  const { hands } = useDesk();
  const [label, setLabel] = useState('');
  return (
    <form
      className={styles['newKind']}
      onSubmit={(event) => {
        event.preventDefault();
        hands.noteNew(label);
      }}
    >
      <label>
        {words.newKindLabel}
        <input
          value={label}
          maxLength={60}
          autoFocus
          onChange={(event) => {
            setLabel(event.target.value);
          }}
          onKeyDown={(event) => {
            if (event.key !== 'Escape') return;
            event.preventDefault();
            hands.leave();
          }}
        />
      </label>
      <button type="submit" className={styles['act']}>
        <KeyCap name="Enter" />
        <span>{words.newKindKeep}</span>
      </button>
      <button
        type="button"
        className={styles['act']}
        onClick={() => {
          hands.leave();
        }}
      >
        <KeyCap name="Escape" />
        <span>{words.leave}</span>
      </button>
    </form>
  );
}
