import { useActs, type ActHandlers } from '../../keys/useActs.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';
import { timesFound, useCaptureFindings, useClipOnDesk } from './useClipOnDesk.ts';

/** Registers the keys that have to do with the clip itself: how fast it was filmed. */
export function useClipActs(): void {
  const { desk, clipHands: hands } = useDesk();
  const mode = useDeskView((v) => v.mode.name);
  const slowed = useClipOnDesk()?.clock.speed.some((p) => p.speed !== 1) === true;
  const times = timesFound(useCaptureFindings());
  const acts: ActHandlers = {};
  if (mode === 'obstacles') {
    acts['review.speed'] = () => {
      hands.openSpeed(times);
    };
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
  useActs(acts);
}
