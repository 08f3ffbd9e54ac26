import type { ActHandlers } from '../../keys/useActs.ts';
import type { Desk } from '../desk/desk.ts';
import type { LightPart } from './light.ts';
import type { Look } from './look.ts';

/** A press moves the magnifier by this share of what is seen. */
const stride = 0.1;

/** What can be done about the picture whatever the hands are at. */
export function alwaysLooking(desk: Desk, look: Look): ActHandlers {
  return {
    'review.nearer': () => {
      look.zoomBy(1);
    },
    'review.further': () => {
      look.zoomBy(-1);
    },
    'review.laid': () => {
      look.toggleLaid();
    },
    'review.strip': () => {
      look.toggleStrip();
    },
    'review.loopEnds': () => {
      desk.loopHere();
    },
  };
}

/** What can be done while one looks closer. */
export function lookingCloser(look: Look): ActHandlers {
  const move = (dx: number, dy: number) => () => {
    look.move(dx * stride, dy * stride);
  };
  const light = (part: LightPart, step: 1 | -1) => () => {
    look.stepLight(part, step);
  };
  const layOver = (each: 1 | 2 | 3) => () => {
    look.layOver(each);
  };
  return {
    'review.look.whole': () => {
      look.toggleMagnifier();
    },
    'review.look.up': move(0, -1),
    'review.look.down': move(0, 1),
    'review.look.left': move(-1, 0),
    'review.look.right': move(1, 0),
    'review.look.setPlace': () => {
      look.setPlace();
    },
    'review.look.removePlace': () => {
      look.removePlace();
    },
    'review.look.nextPlace': () => {
      look.toPlace(1);
    },
    'review.look.previousPlace': () => {
      look.toPlace(-1);
    },
    'review.look.each1': layOver(1),
    'review.look.each2': layOver(2),
    'review.look.each3': layOver(3),
    'review.look.darker': light('brightness', -1),
    'review.look.brighter': light('brightness', 1),
    'review.look.lessContrast': light('contrast', -1),
    'review.look.moreContrast': light('contrast', 1),
    'review.look.gammaDown': light('gamma', -1),
    'review.look.gammaUp': light('gamma', 1),
    'review.look.asFilmed': () => {
      look.resetLight();
    },
  };
}
