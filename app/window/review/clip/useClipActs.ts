import { useActs, type ActHandlers } from '../../keys/useActs.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';
import { timesFound, useCaptureFindings, useClipOnDesk } from './useClipOnDesk.ts';

/** Registers the keys that have to do with the clip itself: how fast it was filmed, and where runs lie in it. */
export function useClipActs(): void {
  const { desk, clipHands: hands, cutHands } = useDesk();
  const cut = useClipOnDesk()?.use.cut !== undefined;
  const mode = useDeskView((v) => v.mode.name);
  const slowed = useClipOnDesk()?.clock.speed.some((p) => p.speed !== 1) === true;
  const times = timesFound(useCaptureFindings());
  const acts: ActHandlers = {};
  if (mode === 'obstacles') {
    acts['review.speed'] = () => {
      hands.openSpeed(times);
    };
    acts['review.cut'] = cutHands.open;
  }
  if (slowed && (mode === 'obstacles' || mode === 'cross' || mode === 'start')) {
    acts['review.asFilmed'] = desk.toggleAsFilmed;
  }
  if (mode === 'speed') {
    Object.assign(acts, {
      'review.speed.wholeSlow': () => {
        hands.sayWhole('slow');
      },
      'review.speed.wholeLife': () => {
        hands.sayWhole('life');
      },
      'review.speed.fromSlow': () => {
        hands.sayFrom('slow');
      },
      'review.speed.fromLife': () => {
        hands.sayFrom('life');
      },
      'review.speed.takeAway': () => {
        hands.takeAway();
      },
      'review.speed.countFrom': () => {
        hands.count('from');
      },
      'review.speed.countTo': () => {
        hands.count('to');
      },
    } satisfies ActHandlers);
  }
  if (mode === 'cut') {
    acts['review.cut.begin'] = cutHands.begin;
    acts['review.cut.end'] = cutHands.end;
    if (cut) acts['review.cut.beyond'] = cutHands.toggleBeyond;
    else {
      acts['review.cut.remove'] = () => {
        cutHands.remove();
      };
    }
  }
  useActs(acts);
}
