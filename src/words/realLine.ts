import type { DogPoint, HandlerPoint } from '../track/track.ts';
import { plural } from './locale.ts';

/** Points of a body that a line can follow. */
export const bodyPointWords: Readonly<Record<DogPoint | HandlerPoint, string>> = {
  leftFrontPaw: 'left front paw',
  rightFrontPaw: 'right front paw',
  leftHindPaw: 'left hind paw',
  rightHindPaw: 'right hind paw',
  chest: 'chest',
  withers: 'withers',
  croup: 'croup',
  nose: 'nose',
  leftFoot: 'left foot',
  rightFoot: 'right foot',
  hips: 'hips',
  shoulders: 'shoulders',
};

const seconds = (s: number): string => `${s.toFixed(2)} s`;

/** Every visible string about the line that dog and handler really ran. */
export const realLineWords = {
  points: bodyPointWords,
  /** Labels of acts, as undo names them. */
  acts: {
    marked: (point: string): string => `${point}, marked`,
    moved: (point: string): string => `${point}, mark moved`,
    removed: (point: string): string => `${point}, mark removed`,
    accepted: (place: number): string => `${place}, taken over from the line`,
    acceptedAll: (count: number): string =>
      plural(count, {
        one: '# obstacle, taken over from the line',
        other: '# obstacles, taken over from the line',
      }),
  },
  /** Acts as the sheet of keys and Settings name them. */
  keys: {
    page: 'Page of the real line',
    paws: 'Start line: mark the paws while she waits …',
    open: 'Mark the line she ran …',
    up: 'Line: cross-hair up',
    down: 'Line: cross-hair down',
    left: 'Line: cross-hair left',
    right: 'Line: cross-hair right',
    fine: 'Line: cross-hair in small or large steps',
    put: 'Line: mark where the cross-hair is',
    ground: 'Line: this point touches the ground',
    air: 'Line: this point is in the air',
    skip: 'Line: on to the next frame without a mark',
    back: 'Line: back to the mark before',
    remove: 'Line: remove the mark of this frame',
    dog: 'Line: mark the dog',
    handler: 'Line: mark the handler',
    point: 'Line: next point of the body',
    shorter: 'Line: shorter way to the next frame',
    longer: 'Line: longer way to the next frame',
  },
  /** The strip of keys. */
  strip: {
    open: 'real line',
    paws: 'mark the paws',
    title: (point: string): string => `Click the ${point}`,
    ground: 'on the ground',
    air: 'in the air',
    skip: 'skip',
    back: 'mark before',
    remove: 'remove',
    cross: 'cross-hair',
    put: 'mark here',
    fine: 'small steps',
    dog: 'dog',
    handler: 'handler',
    point: 'next point',
    step: 'shorter, longer stride',
  },
  said: {
    noClip: 'There is no clip on the desk to mark on.',
    outside: 'That is beside the picture.',
    full: 'This review holds as many marks of a line as it can.',
    end: 'This was the last frame of the clip.',
    first: 'There is no mark before this one.',
    noneHere: 'There is no mark of this point on this frame.',
    step: (s: number): string => `The next frame comes ${seconds(s)} on.`,
    next: (contact: 'ground' | 'air'): string =>
      contact === 'ground' ? 'The next click touches the ground.' : 'The next click is in the air.',
  },
  tools: {
    label: 'Marking a line',
    title: 'Marking the line',
    titleWait: 'Marking the paws while she waits',
    how: 'Click the same point of the body once a stride: a paw on the frame half way between the one where it comes down and the one where it lifts. A frame too early or too late moves the line along by as much as she runs in it. The next frame comes by itself.',
    howWait:
      'Click each paw once when she is set up, and again later, up to the release. Clicking a frame twice as close helps more than anything: bring the picture nearer first.',
    who: 'Whose line',
    dog: 'Dog',
    handler: 'Handler',
    point: 'Point of the body',
    contact: 'On this frame it is',
    ground: 'on the ground',
    air: 'in the air',
    step: 'Next frame after',
    seconds: 's',
    count: (marks: number, here: boolean): string =>
      `${plural(marks, { one: '# mark of this point', other: '# marks of this point' })}${
        here ? '; one on this frame: drag it, or click anew' : ''
      }.`,
    back: 'Mark before',
    skip: 'Skip',
    remove: 'Remove',
    done: 'Done',
    playing: 'A click stops the run and marks the frame on the screen.',
  },
  page: {
    mark: 'Mark the line',
    needs: {
      clip: {
        title: 'There is no footage to measure on.',
        text: 'The real line is read from a clip of the run. Bring one in from the Library.',
      },
      course: {
        title: 'The course is not drawn yet.',
        text: 'To tell where she ran in metres, the equipment has to stand on the map. Marks can be made already; they count as soon as it does.',
      },
      fit: {
        title: 'The course is not fitted to this picture yet.',
        text: 'Click a few parts of the course that the picture shows, and the program knows the ground under every pixel. Marks can be made already; they count as soon as it does.',
      },
      marks: {
        title: 'No line is marked yet.',
        text: 'Four marks of one point make a line; one for each stride makes a good one.',
      },
    },
    toCourse: 'Draw the course',
    toLibrary: 'To the Library',
    toFit: 'Fit the course to the picture',
    caution:
      'Each figure is that of the marked point, with 95 % between its ends. What lies between two marks is the likeliest way, not one that was seen. A paw’s frames are taken to be half way through its touch: frames chosen late, by 40 ms say, move her some 25 cm along her way and make times late, but leave the line where it is.',
  },
  map: {
    along: 'Along the line',
    here: (speed: string): string => `Speed ${speed}`,
    off: 'Not on the line at this frame',
  },
  layers: {
    title: 'Lines shown',
    dog: 'Real line',
    handler: 'Handler',
    wanted: 'Wanted line',
    likely: 'Likely line',
    none: { handler: '(not marked)', wanted: '(drawn on Course, page Read)' },
    band: 'How well it is known',
    speed: 'Speed along it',
    over: 'Over the footage',
    near: 'around this frame',
    wholeRun: 'all of it',
    shade: 'shade',
    width: 'width',
    plain: 'not shown',
    scale: (from: number, to: number): string => `Speeds from ${from} to ${to} metres a second`,
    perSecond: (to: number): string => `${to} m/s`,
  },
  here: {
    title: 'At this frame',
    off: 'The line does not reach this frame.',
    speed: 'Speed',
    known: 'Place known to',
    within: (metres: number): string =>
      metres < 1 ? `${Math.ceil(metres * 100)} cm` : `${(Math.ceil(metres * 10) / 10).toFixed(1)} m`,
    wanted: 'From the wanted line',
    apart: 'Dog to handler',
    ahead: 'Ahead',
    gap: 'No mark lies near: this is a guess between two marks.',
    handlerGap: 'No mark of the handler lies near: how far off she is cannot be told.',
  },
  stretches: {
    title: 'The line in figures',
    whole: 'Length of all that is marked:',
    working: 'working it out …',
    none: 'Mark the obstacles taken, or take them over from the line, and each stretch gets its figures.',
    stretch: (from: number, to: number): string => `${from} – ${to}`,
    length: 'Length',
    speed: 'Mean speed',
    bend: 'Sharpest turn',
    off: 'Furthest from wanted',
    over: 'Over the wanted line',
    takeOff: 'Take-off before the bar',
    landing: 'Landing behind the bar',
    gap: 'Part of it was not seen: its length is a guess there.',
    weave:
      'Between poles she swings from side to side, which a mark a stride does not show: the plus or minus of the length allows for it.',
  },
  handler: {
    title: 'The handler',
    none: 'Mark the handler too, and her path, her distance and who is ahead are told here.',
    path: 'Her path, where it is marked:',
    unmarked: 'Not marked, so that nothing is told of her there:',
    unmarkedFrom: (from: string, to: string): string => `${from} to ${to} s`,
    stands: 'Where she stands, mark the foot when it comes to rest and again before it leaves.',
    working: 'working it out …',
    crossings: 'Crosses the dog’s path',
    noCrossings: 'Nowhere in what is marked.',
    commitments: 'When the dog had to commit',
    noCommitments: 'Mark take-offs and entries, or where she was committed, and this is told for each.',
    commitment: (place: number, marked: boolean): string =>
      marked ? `${place}, committed` : `${place}, take-off or entry`,
    ahead: 'Ahead',
    apart: 'From the dog',
    speed: 'Her speed',
    way: 'Her way on the map',
  },
  proposed: {
    title: 'Obstacles taken, by the line',
    all: 'Take all over',
    accept: 'Take over',
    acceptOne: (place: number): string => `Take over ${place}`,
    maybe: '(perhaps beside it)',
    none: 'The line says nothing that is not marked already.',
    nothing: 'These are marked already.',
    hint: 'Where the line goes through an obstacle. What you have marked stays as it is.',
  },
  paws: {
    title: 'Paws, measured',
    mark: 'Mark the paws',
    none: 'Click each paw when she is set up and again up to the release: how far each moved is told in centimetres.',
    needsGround: 'Then the way of each paw is told in centimetres.',
    try: (attempt: number): string => `Try ${attempt}`,
    noRelease: 'No release is marked: all marks of this try count.',
    criterion: 'A paw has stepped from, cm',
    criterionHint:
      'Less than that counts as rocking where she stands. A head or a shift of weight never counts.',
    cameraUnknown: 'This view does not say where the camera stands, nor how far off a step can be told.',
    told: (across: number, along: number): string =>
      across > 0
        ? `By one click on each of two frames a step of 5 cm can be told up to ${Math.floor(across)} m from this camera across the picture, and up to ${Math.floor(along)} m toward it.`
        : 'By one click on each of two frames a step of 5 cm cannot be told from where this camera stands. Film the start from nearer, or click each paw on several frames.',
  },
  leftOut: {
    title: (count: number): string =>
      plural(count, { one: '# mark is left out of the line', other: '# marks are left out of the line' }),
  },
} as const;
