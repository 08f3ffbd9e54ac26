import type { Bump } from '../ground/bumped.ts';
import { plural } from './locale.ts';

/** Unit of lengths as the coach reads them. */
type Lengths = 'metres' | 'feet';

const inch = 2.54;

/** A small length on the ground: "12 cm", "5 in". Two digits at most: what is expected to be off is no exact figure. */
export function smallLength(centimetres: number, lengths: Lengths): string {
  const inches = lengths === 'feet';
  const v = inches ? centimetres / inch : centimetres;
  const unit = inches ? 'in' : 'cm';
  if (!(v < 1)) return v < 99.5 ? `${Math.round(v)} ${unit}` : largeLength(centimetres, lengths);
  return `under 1 ${unit}`;
}

function largeLength(centimetres: number, lengths: Lengths): string {
  return lengths === 'feet' ? `${Math.round(centimetres / 30.48)} ft` : `${(centimetres / 100).toFixed(1)} m`;
}

/** A height above the ground: "1.6 m", "5.2 ft". */
const height = (metres: number, lengths: Lengths): string =>
  lengths === 'feet' ? `${(metres / 0.3048).toFixed(1)} ft` : `${metres.toFixed(1)} m`;

const pixels = (px: number): string => (px < 9.95 ? px.toFixed(1) : String(Math.round(px)));

/** The page on which the course is fitted to the picture, and what is drawn over the footage. */
export const groundWords = {
  tab: 'Ground',
  /** Acts as the sheet of keys and Settings name them. */
  keys: {
    open: 'Fit the course to the picture',
    up: 'Ground: cross-hair up by a pixel',
    down: 'Ground: cross-hair down by a pixel',
    left: 'Ground: cross-hair left by a pixel',
    right: 'Ground: cross-hair right by a pixel',
    far: 'Ground: cross-hair by one pixel or by ten',
    set: 'Ground: the point lies at the cross-hair',
    next: 'Ground: skip this point, on to the next likely one',
    previous: 'Ground: back to the point before',
    agree: 'Ground: agree to where the fit shows the point',
    remove: 'Ground: remove the point',
    worst: 'Ground: to the point that is off the most',
    course: 'Ground: course over the footage on or off',
    error: 'Ground: expected error over the footage on or off',
    refit: 'Ground: camera was moved, fit anew from this frame',
    stretch: 'Ground: choose a stretch to fit alone',
    over: 'Ground: remove all points of this fit',
  },
  /** Short words of the strip of keys. */
  strip: {
    open: 'ground',
    title: 'Fit the course',
    move: 'cross-hair',
    far: 'one or ten pixels',
    set: 'set',
    next: 'next point',
    previous: 'point before',
    agree: 'agree',
    remove: 'remove',
    worst: 'worst point',
    course: 'course',
    error: 'error',
    refit: 're-fit here',
    stretch: 'stretch',
    over: 'start over',
  },
  /** Labels of acts, as undo names them. */
  acts: {
    set: (name: string): string => `${name}, clicked`,
    moved: (name: string): string => `${name}, moved`,
    agreed: (name: string): string => `${name}, agreed to`,
    removed: (name: string): string => `${name}, removed`,
    refit: (frame: number): string => `course fitted anew from frame ${frame}`,
    over: 'fit of the course, removed',
  },
  /** What the screen says after a press. */
  said: {
    noneAtHand: 'No point is at hand. Choose one from the list, or take the next likely one.',
    noMore: 'No further point is likely to be seen. Choose one from the list.',
    nothingToAgree: 'The fit does not show this point yet. Click it where it stands.',
    notClicked: 'This point is not clicked yet.',
    noWorst: 'No point can be told from the others yet. Click five or more.',
    full: 'This fit holds as many points as it can. Remove one first.',
    fullFits: 'This review holds as many fits as it can. Remove one first.',
    nothingToRefit: 'There is no fit yet that could be renewed. Click four points first.',
    begins: 'A fit begins at this frame already.',
    noFit: 'There is no fit here to remove.',
    step: (ten: boolean): string =>
      ten ? 'The cross-hair moves by ten pixels.' : 'The cross-hair moves by one pixel.',
    layer: (what: 'course' | 'error', on: boolean): string =>
      what === 'course'
        ? on
          ? 'The course is drawn over the footage.'
          : 'The footage is shown without the course.'
        : on
          ? 'The expected error is painted over the footage.'
          : 'The footage is shown without the expected error.',
  },
  page: {
    begin: 'Fit the course to this picture',
    /** Where nothing can be fitted. */
    noFootage: 'No footage yet',
    noFootageNext:
      'To fit the course to the picture it takes a clip of the run. Bring one in, then come back here.',
    noCourse: 'The map does not say where things stand',
    noCourseNext:
      'This course is numbers only. To measure on the ground it takes the places of at least two obstacles to scale, or the size of the ring. Draw them, or lay the judge’s map under the drawing and stand the obstacles on it.',
    toCourse: 'To the course',
    /** How it stands. */
    intro:
      'Click where parts of the course touch the ground. From four on the course is drawn over the footage, and the other points show where they should be.',
    fitted: (points: number, px: number): string =>
      plural(points, {
        one: `# point, good to ${pixels(px)} px.`,
        other: `# points agree to ${pixels(px)} px.`,
      }),
    exact: (points: number): string => plural(points, { one: '# point.', other: '# points fit.' }),
    lens: 'The bend of the lens is taken into account.',
    atHand: 'Point at hand',
    none: 'Every point is clicked, or none is likely to be seen.',
    take: 'Next likely point',
    closeUp: (name: string): string => `Close-up of the picture under the cross-hair, for ${name}`,
    set: 'Set here',
    skip: 'Skip',
    agree: 'Agree',
    remove: 'Remove',
    crossHair: (name: string): string => `Cross-hair for ${name}: arrows move it, Enter sets it`,
    offWorst: (name: string, px: number, ground: string | null): string =>
      `Off the most: ${name}, by ${pixels(px)} px${ground === null ? '' : ` (${ground} on the ground)`}.`,
    toWorst: 'Look at it',
    lost: (count: number): string =>
      plural(count, {
        one: '# click belongs to a piece that no longer stands on the map. It is left out.',
        other: '# clicks belong to pieces that no longer stand on the map. They are left out.',
      }),
    /** The camera was bumped. */
    moved: (frame: number, px: number): string =>
      `By frame ${frame} the camera has moved: what was clicked there lies ${pixels(px)} px off. Go to the frame where it moves, and fit anew from there.`,
    unclear: (frame: number): string =>
      `On frame ${frame} a click does not lie where the fit expects it. Click one or two more points there: they tell a slip from a camera that moved.`,
    onePoint: (frame: number, name: string): string =>
      `On frame ${frame} the click on ${name} contradicts the others. Look at it again.`,
    movedHere: 'The fit no longer holds on this frame: the camera has moved since.',
    refit: 'Re-fit here',
    over: 'Start over',
    fits: 'Fits of this clip',
    fitFrom: (frame: number, points: number): string =>
      `from frame ${frame}: ${plural(points, { one: '# point', other: '# points' })}`,
    again: 'If the camera was bumped, click two or three known points again on a later frame: they tell.',
    /** What the camera tells. */
    tells: 'What this camera tells',
    at: (place: string, error: string): string => `At ${place} a click tells a place to ${error}.`,
    unseen: (place: string): string => `This camera does not see ${place}.`,
    along: (from: number, to: number, least: string, most: string): string =>
      least === most
        ? `From ${from} to ${to} a click tells a place to ${most}.`
        : `From ${from} to ${to} a click tells a place to ${least} at best, ${most} at worst.`,
    alongUnseen: (from: number, to: number): string =>
      `This camera does not see all of the way from ${from} to ${to}.`,
    middle: (error: string, seen: number): string =>
      `Half of what is seen is told better than ${error}. ${seen > 0.995 ? 'The whole ring is seen.' : `${Math.round(100 * seen)} % of the ring is seen.`}`,
    higher: (now: number, then: number, error: string, lost: number, lengths: Lengths): string =>
      `The lens is about ${height(now, lengths)} above the ground. From ${height(then, lengths)} the same clicks would tell ${error}${
        lost === 0
          ? ''
          : plural(lost, {
              one: ', with # point out of the picture',
              other: ', with # points out of the picture',
            })
      }.`,
    /** @param up how much too high a paw is clicked; @param off what that does, both as lengths */
    raised: (up: string, off: string): string =>
      `A paw clicked ${up} above the grass is taken to be ${off} farther away, and no picture shows that: click where it touches. The lower the camera, the more it does.`,
    heightUnknown:
      'How high the camera stands cannot be told from these points, nor what a higher stand would buy.',
    map: 'The ring with the expected error, and the point at hand',
    mapBefore: 'The ring with the point at hand; the arrow is the way the dog takes the piece',
    mapHint: 'Left and right are the dog’s: the arrow is the way she takes it.',
    legend: 'What a click is expected to be off',
    course: 'Course',
    error: 'Error',
    layers: 'Over the footage',
    /** One stretch alone. */
    stretch: 'One stretch alone',
    from: 'From',
    to: 'to',
    whole: 'Whole course',
    stretchHint: 'Only its points are asked for, and the error is that of its ground.',
    /** The list. */
    points: 'What the map knows',
    clickedOf: (clicked: number, of: number): string => `${clicked} of ${of}`,
    ring: 'Ring and lines',
    state: {
      clicked: 'clicked',
      aside: 'left out',
      agreed: 'agreed to',
      proposed: 'shown by the fit',
      outside: 'outside the picture',
      skipped: 'skipped',
      open: '',
    },
    offBy: (px: number): string => `${pixels(px)} px off`,
  },
  overlay: {
    label: (points: number): string =>
      plural(points, {
        one: 'Course over the footage, # point clicked',
        other: 'Course over the footage, # points clicked',
      }),
  },
} as const;

/** What is said of a later frame whose clicks do not lie where the fit expects them. */
export function bumpSentence(bump: Bump, frame: number, nameOf: (id: string) => string): string | null {
  const { page } = groundWords;
  switch (bump.verdict) {
    case 'moved':
      return page.moved(frame, Math.hypot(bump.shift.x, bump.shift.y));
    case 'unclear':
      return page.unclear(frame);
    case 'onePoint':
      return page.onePoint(frame, nameOf(bump.id ?? ''));
    case 'still':
    case 'notAsked':
      return null;
  }
}
