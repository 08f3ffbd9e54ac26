import { useActs, type ActHandlers } from '../../keys/useActs.ts';
import { bringInSight } from './inSight.ts';
import { useDesk, useDeskView, useGround } from '../DeskContext.ts';

/** Where a stretch is chosen; its key goes there. */
export const stretchFromId = 'ground-stretch-from';

/** Registers the keys of fitting the course to the picture. */
export function useGroundActs(): void {
  const { ground, look } = useDesk();
  const mode = useDeskView((v) => v.mode.name);
  const atHand = useGround((v) => v.part !== null);
  const acts: ActHandlers = {};
  if (mode === 'obstacles' || mode === 'cross' || mode === 'start') acts['review.ground'] = ground.open;
  if (mode === 'ground') {
    const move = (dx: number, dy: number) => () => {
      ground.move(dx, dy);
    };
    Object.assign(acts, {
      'review.ground.up': move(0, -1),
      'review.ground.down': move(0, 1),
      'review.ground.left': move(-1, 0),
      'review.ground.right': move(1, 0),
      'review.ground.far': ground.toggleStep,
      'review.ground.set': ground.set,
      'review.ground.next': ground.skip,
      'review.ground.previous': ground.previous,
      'review.ground.agree': ground.agree,
      'review.ground.remove': ground.remove,
      'review.ground.worst': ground.worst,
      'review.ground.course': () => {
        ground.toggle('course');
      },
      'review.ground.error': () => {
        ground.toggle('error');
      },
      'review.ground.refit': ground.refit,
      'review.ground.stretch': () => {
        document.getElementById(stretchFromId)?.focus();
      },
      'review.ground.over': ground.startOver,
    } satisfies ActHandlers);
    if (atHand) {
      acts['review.leave'] = ground.letGo;
      acts['review.nearer'] = () => {
        look.zoomBy(1);
        bringInSight(look, ground.store.getState().at, 'middle');
      };
    }
  }
  useActs(acts);
}
