import { ReviewDocument, reviewVersion } from '../../../src/review/document.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import type { ClipUsed } from '../../../src/report/smallPrint.ts';
import type { ObstacleKind } from '../../../src/course/kinds.ts';

/** The smallest JPEG: one grey pixel. Stands in for a still where only its place in the page matters. */
export const onePixel =
  '/9j/4AAQSkZJRgABAQEASABIAAD/2wBDAP//////////////////////////////////////////////////////////////////////////////////////2wBDAf//////////////////////////////////////////////////////////////////////////////////////wAARCAABAAEDASIAAhEBAxEB/8QAFAABAAAAAAAAAAAAAAAAAAAAA//EABQQAQAAAAAAAAAAAAAAAAAAAAD/xAAUAQEAAAAAAAAAAAAAAAAAAAAA/8QAFBEBAAAAAAAAAAAAAAAAAAAAAP/aAAwDAQACEQMRAD8AR//Z';

const rate = 60;
const at = (seconds: number): number => Math.round(seconds * rate);

const kinds: ObstacleKind[] = [
  'barJump',
  'barJump',
  'tunnel',
  'barJump',
  'weavePoles',
  'barJump',
  'spread',
  'aFrame',
  'barJump',
  'barJump',
  'tunnel',
  'barJump',
  'wall',
  'dogWalk',
  'tyre',
  'barJump',
  'seeSaw',
  'barJump',
  'longJump',
  'barJump',
];

/** When each obstacle begins and ends in the second try, seconds of the clip. */
const times: [number, number][] = kinds.map((kind, i) => {
  const begins = 24 + i * 1.72 + (i > 4 ? 2.1 : 0) + (i > 13 ? 1.4 : 0);
  const lasts =
    kind === 'weavePoles'
      ? 2.6
      : kind === 'dogWalk'
        ? 2.2
        : kind === 'aFrame'
          ? 1.3
          : kind === 'barJump'
            ? 0.5
            : 0.8;
  return [begins, begins + lasts];
});

const places: [number, number, number][] = [
  [4, 5, 90],
  [4, 11, 90],
  [5, 17, 80],
  [8, 22, 20],
  [13, 24, 0],
  [18, 27, 90],
  [15, 32, 170],
  [9, 33, 180],
  [4, 30, 200],
  [2.5, 24, 270],
  [9, 18, 300],
  [12, 12, 300],
  [15, 7, 20],
  [18, 14, 90],
  [17, 20, 120],
  [12, 19.5, 190],
  [8, 13, 250],
  [8.5, 7, 320],
  [12, 4, 10],
  [17, 4, 10],
];

type Extra = Partial<ReturnType<typeof rawReview>>;

function rawReview() {
  let n = 0;
  const id = (): string => `m${++n}`;
  const mark = (seconds: number, rest: object): object => ({
    id: id(),
    footageId: 'f1',
    pts: at(seconds),
    ...rest,
  });
  return {
    format: 'walkback.review',
    version: reviewVersion,
    id: 'sample',
    header: {
      title: 'Tansy, second evening on the long course',
      dog: 'Tansy',
      handler: 'Maren Holt',
      day: '2026-05-14',
      runKind: 'training',
      ownEvents: [{ id: 'own:tail', label: 'tail up' }],
      words: {
        wentWell: '',
        toTrain:
          'Show the front cross at 7 one stride sooner: be past the wing of 6 before Tansy lifts off.\n\nTwo set-ups from the tunnel to the poles, entry from the left.',
        notes: 'The second half flowed. Keep that pace into the dog walk.',
        leaveNamesOut: false,
      },
    },
    course: {
      name: 'Long course',
      ring: { width: 20, length: 40 },
      obstacles: kinds.map((kind, i) => ({
        id: `o${i + 1}`,
        kind,
        nickname: i === 6 ? 'the blue one' : '',
        stand: { x: places[i]?.[0] ?? 0, y: places[i]?.[1] ?? 0, headingDegrees: places[i]?.[2] ?? 0 },
      })),
      steps: kinds.map((_, i) => ({ number: i + 1, obstacleId: `o${i + 1}` })),
    },
    plan: {
      crosses: [
        { id: 'p1', place: 4, kind: 'front', reason: 'to be on the right side for the poles' },
        { id: 'p2', place: 7, kind: 'front', secondChoice: 'rear', reason: '' },
        { id: 'p3', place: 16, kind: 'blind', reason: '' },
        { id: 'p4', place: 18, kind: 'rear', reason: 'if behind' },
      ],
    },
    footage: [
      {
        id: 'f1',
        name: 'evening, ringside.mp4',
        offset: 0,
        clip: {
          sha256: 'a'.repeat(64),
          bytes: 1000,
          path: 'evening, ringside.mp4',
          width: 1280,
          height: 720,
          rotation: 0,
          codec: 'h264',
          timeBase: [1, rate],
          pts: Array.from({ length: 70 * rate }, (_, i) => i),
        },
      },
    ],
    marks: [
      mark(3, { kind: 'start', part: 'setUp', try: 1 }),
      mark(6.1, { kind: 'start', part: 'step', try: 1, note: 'front paw, after the second lead-out step' }),
      mark(6.4, { kind: 'start', part: 'release', try: 1 }),
      mark(16, { kind: 'start', part: 'setUp', try: 2 }),
      mark(18.5, { kind: 'start', part: 'fake', try: 2 }),
      mark(22.9, { kind: 'start', part: 'release', try: 2 }),
      ...times.flatMap(([a, b], i) => [
        mark(a, { kind: 'taken', place: i + 1, edge: 'in', try: 2 }),
        mark(b, { kind: 'taken', place: i + 1, edge: 'out', try: 2 }),
      ]),
      mark((times[4]?.[0] ?? 0) - 0.8, { kind: 'event', event: 'missedEntry', place: 5 }),
      mark((times[9]?.[1] ?? 0) + 0.1, {
        kind: 'event',
        event: 'barDown',
        place: 10,
        note: 'took off a little close',
      }),
      mark((times[6]?.[1] ?? 0) + 0.5, { kind: 'event', event: 'wide', place: 7 }),
      mark((times[13]?.[1] ?? 0) + 0.2, { kind: 'event', event: 'own:tail', place: 14 }),
      mark((times[19]?.[1] ?? 0) + 1.2, { kind: 'event', event: 'reward', note: 'tug' }),
      mark((times[10]?.[0] ?? 0) - 1, {
        kind: 'event',
        event: 'refusal',
        refusal: 'headInTunnel',
        place: 11,
      }),
      // 4: in time.
      mark((times[3]?.[0] ?? 0) - 0.7, { kind: 'cross', crossId: 'c4', part: 'cueBegins', cue: 'feet' }),
      mark((times[3]?.[0] ?? 0) - 0.55, {
        kind: 'cross',
        crossId: 'c4',
        part: 'cueBegins',
        cue: 'shoulders',
      }),
      mark((times[3]?.[0] ?? 0) + 0.2, { kind: 'cross', crossId: 'c4', part: 'cueEnds' }),
      // 7: late by 0.10 s.
      mark((times[6]?.[0] ?? 0) + 0.1, { kind: 'cross', crossId: 'c7', part: 'cueBegins', cue: 'feet' }),
      mark((times[6]?.[0] ?? 0) - 0.4, { kind: 'cross', crossId: 'c7', part: 'committed' }),
      mark((times[6]?.[1] ?? 0) + 0.4, { kind: 'cross', crossId: 'c7', part: 'cueEnds' }),
      // 16: cannot tell.
      mark(times[15]?.[0] ?? 0, { kind: 'cross', crossId: 'c16', part: 'cueBegins', cue: 'voice' }),
      // 18: a rear cross in time.
      mark((times[17]?.[0] ?? 0) - 0.5, { kind: 'cross', crossId: 'c18', part: 'committed' }),
      mark((times[17]?.[0] ?? 0) - 0.2, { kind: 'cross', crossId: 'c18', part: 'cueBegins', cue: 'slowing' }),
    ],
    crosses: [
      { id: 'c4', place: 4, kind: 'front', plannedId: 'p1' },
      { id: 'c7', place: 7, kind: 'front', plannedId: 'p2', note: 'You looked back at her here.' },
      { id: 'c16', place: 16, kind: 'blind', plannedId: 'p3' },
      { id: 'c18', place: 18, kind: 'rear' },
    ],
    drawings: [
      {
        id: 'd1',
        footageId: 'f1',
        pts: at((times[6]?.[0] ?? 0) + 0.1),
        strokes: [{ ink: 'persimmon', points: [0.3, 0.4, 0.45, 0.5, 0.6, 0.42] }],
      },
      { id: 'd2', footageId: 'f1', pts: at(30), strokes: [{ ink: 'sky', points: [0.1, 0.9, 0.5, 0.5] }] },
    ],
  };
}

/** A run with a broken stay, a second try, crosses of each outcome and a few events, at 60 frames a second. */
export function sample(change: (raw: ReturnType<typeof rawReview>) => Extra | void = () => undefined) {
  const raw = rawReview();
  const document = ReviewDocument.parse({ ...raw, ...(change(raw) ?? {}) });
  const review = stateOf(document);
  const analysis = analyse(review, clocksOf(document));
  const clips: ClipUsed[] = document.footage.map((f) => ({
    footageId: f.id,
    frames: f.clip.pts.length,
    width: f.clip.width,
    height: f.clip.height,
    codec: f.clip.codec,
  }));
  return { document, review, analysis, clips };
}
