import { useActs, type ActHandlers } from '../../keys/useActs.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';

/** Registers the keys of the real line: its page, and all that marks it. */
export function useTrackActs(): void {
  const { desk, track, look } = useDesk();
  const mode = useDeskView((v) => v.mode.name);
  const acts: ActHandlers = {};
  if (mode === 'obstacles') {
    acts['review.line'] = () => {
      desk.showTab('line');
    };
    acts['review.track'] = () => {
      track.open();
    };
  }
  if (mode === 'start') {
    acts['review.start.paws'] = () => {
      track.open('wait');
    };
  }
  if (mode === 'track') {
    const cross = (dx: number, dy: number) => () => {
      track.moveCross(dx, dy, 1 / look.magnifier().zoom);
    };
    Object.assign(acts, {
      'review.track.up': cross(0, -1),
      'review.track.down': cross(0, 1),
      'review.track.left': cross(-1, 0),
      'review.track.right': cross(1, 0),
      'review.track.fine': () => {
        track.set({ fine: !track.store.getState().fine });
      },
      'review.track.put': track.clickCross,
      'review.track.ground': () => {
        track.touch('ground');
      },
      'review.track.air': () => {
        track.touch('air');
      },
      'review.track.skip': track.skip,
      'review.track.back': track.back,
      'review.track.remove': track.remove,
      'review.track.dog': () => {
        track.set({ who: 'dog' });
      },
      'review.track.handler': () => {
        track.set({ who: 'handler', during: 'run' });
      },
      'review.track.point': track.nextPoint,
      'review.track.shorter': () => {
        track.longer(-1);
      },
      'review.track.longer': () => {
        track.longer(1);
      },
    } satisfies ActHandlers);
  }
  useActs(acts);
}
