import { describe, expect, it } from 'vitest';
import { bandPieces, drawnPieces, pathOf, speedRange } from '../../../src/track/drawn.ts';
import { triesStayed, waitsOf } from '../../../src/review/pawsStayed.ts';
import { acceptProposed, isProposed, markedPlaces } from '../../../app/window/review/track/proposals.ts';
import { Course } from '../../../src/course/course.ts';
import type { StartTry } from '../../../src/review/analysis.ts';
import { applyChanges } from '../../../src/review/entities.ts';
import type { TakenMark } from '../../../src/review/marks.ts';
import type { GroundView } from '../../../src/track/fromMarks.ts';
import type { GroundFit } from '../../../src/track/groundFits.ts';
import { fewestMarks, runLines, trackShown } from '../../../src/track/runLines.ts';
import { entry, mat } from '../../../src/track/matrices.ts';
import { samplesOf } from '../../../src/track/samples.ts';
import { takenFromLine } from '../../../src/track/takenFromLine.ts';
import { whereAt } from '../../../src/track/whereAt.ts';
import { dogPoints, type Track } from '../../../src/track/track.ts';
import { runSeconds } from '../../../src/time/units.ts';
import {
  bendSentence,
  leftOutSentence,
  movedSentence,
  stayedSentence,
} from '../../../src/words/realLineSentences.ts';
import { clocks, emptyReview } from './bench.ts';

const clock = clocks().get('f1');
if (!clock) throw new Error('no clock on the bench');

/** A camera straight above: a pixel is a centimetre; nothing above the row 0.5 m. */
const view: GroundView = {
  picture: { width: 2000, height: 1000 },
  under: ({ x, y }) =>
    y < 50 ? null : { x: x / 100, y: y / 100, byPixel: [0.01, 0, 0, 0.01], byFit: [[], []] },
  foot: null,
  error: null,
  clickNoise: 1,
};

/** Marks of 5 m/s along y = 5 m, a stride of 0.2 s, from `from` to `to` seconds. */
const track = (from: number, to: number, more: Partial<Track> = {}): Track =>
  ({
    id: 't1',
    footageId: 'f1',
    who: 'dog',
    point: 'leftFrontPaw',
    during: 'run',
    marks: Array.from({ length: Math.round((to - from) / 0.2) + 1 }, (_, i) => {
      const at = from + 0.2 * i;
      return { pts: Math.round(at * 100), at: { x: (5 * at) / 20, y: 0.5 }, contact: 'ground' };
    }),
    ...more,
  }) as Track;

const lines = (tracks: readonly Track[], holds = (_: number): boolean => true) =>
  runLines({
    tracks,
    footageId: 'f1',
    points: { dog: 'leftFrontPaw', handler: 'leftFoot' },
    parts: [{ footageId: 'f1', clock, view, holds }],
    taken: [],
  });

describe('the lines of a clip', () => {
  it('follow the point in hand where it has marks, else the one with most', () => {
    const other = track(0, 3, { id: 't2', point: 'nose' });
    const elsewhere = track(0, 4, { id: 't3', footageId: 'f2' });
    const waiting = track(0, 4, { id: 't4', during: 'wait' });
    const all = [track(0, 1), other, elsewhere, waiting];
    expect(trackShown(all, 'f1', 'dog', 'leftFrontPaw')?.id).toBe('t1');
    expect(trackShown(all, 'f1', 'dog', 'croup')?.id).toBe('t2');
    expect(trackShown(all, 'f1', 'handler', 'leftFoot')).toBeNull();
  });

  it('need some marks, and say why one is left out', () => {
    expect(lines([track(0, 0.2 * (fewestMarks - 2))]).dog?.line).toBeNull();
    const outside = { pts: 390, at: { x: 0.9, y: 0.01 }, contact: 'ground' } as const;
    const some = track(0, 3);
    const { dog } = lines([{ ...some, marks: [...some.marks, outside] }], (pts) => pts < 200 || pts > 380);
    expect(dog?.line).not.toBeNull();
    const why = dog?.leftOut.map((o) => o.why) ?? [];
    expect(new Set(why)).toEqual(new Set(['horizon', 'noFit']));
    const wild = some.marks.map((m, i) => (i === 7 ? { ...m, at: { x: 0.1, y: 0.9 } } : m));
    expect(lines([{ ...some, marks: wild }]).dog?.leftOut.map((o) => [o.mark.pts, o.why])).toEqual([
      [140, 'others'],
    ]);
    expect(leftOutSentence('noFit', 'leftFrontPaw', 12)).toBe(
      'Frame 12, left front paw: the course is not fitted to the picture there.',
    );
  });
});

describe('figures in words', () => {
  it.each([
    [0.5, 0.1, 'radius 2.0 m (1.7 to 2.5), to the left'],
    [-0.1, 0.02, 'radius 10 m (8.3 to 13), to the right'],
    [0.05, 0.06, 'straight, as far as can be told'],
    [0.015, 0.003, 'as good as straight'],
  ])('a bend of %d ± %d', (value, plusMinus, said) => {
    expect(bendSentence({ value, plusMinus })).toBe(said);
  });

  it('the way of a paw has no more digits than are known', () => {
    const moved = { point: 'leftFrontPaw', at: 1, centimetres: 6.24, verdict: 'cannotTell' } as const;
    expect(movedSentence({ ...moved, least: 4.11, most: 8.36 })).toBe('6.2 cm (4.1 to 8.4): cannot tell');
    expect(movedSentence({ ...moved, least: 0, most: 72.8 })).toBe('6 cm (0 to 73): cannot tell');
  });
});

describe('two clips of one run', () => {
  /** A second camera that was started 1.5 s later, so that its time 0 is 1.5 s of the run. */
  const later = { ...clock, offset: 1.5 };
  const early = track(0, 1.6);
  const late: Track = {
    ...track(1.8, 3.4, { id: 't2', footageId: 'f2' }),
    marks: track(1.8, 3.4).marks.map((m) => ({ ...m, pts: m.pts - 150 })),
  };
  /** Its ground may lie off by 20 cm along x, all of it alike. */
  const shifted: GroundView = {
    ...view,
    under: (p) => {
      const there = view.under(p);
      return there && { ...there, byFit: [[1], [0]] };
    },
    error: { cov: mat([[0.04]]) },
  };
  const both = (first: GroundView, second: GroundView) =>
    runLines({
      tracks: [early, late],
      footageId: 'f2',
      points: { dog: 'leftFrontPaw', handler: 'leftFoot' },
      parts: [
        { footageId: 'f1', clock, view: first, holds: () => true },
        { footageId: 'f2', clock: later, view: second, holds: (pts) => pts < 180 },
      ],
      taken: [],
    }).dog;

  it('make one line by the clock of the run', () => {
    const dog = both(view, view);
    expect(dog?.line?.from).toBeCloseTo(0, 6);
    expect(dog?.line?.to).toBeGreaterThan(3.1);
    expect(dog?.line?.gaps).toEqual([]);
    for (const t of [0.5, 1.7, 2.9]) expect(whereAt(dog?.line ?? fail(), t)?.x).toBeCloseTo(5 * t, 0);
    // What no fit holds for is named with its clip.
    expect(dog?.leftOut.map((o) => [o.footageId, o.why])).toEqual([['f2', 'noFit']]);
    expect(leftOutSentence('noFit', 'leftFrontPaw', 12, 'second.mp4')).toMatch(
      /^second\.mp4, frame 12, left/,
    );
  });

  it.each([
    ['the first', shifted, view, 0.4, 2.8],
    ['the second', view, shifted, 2.8, 0.4],
  ] as const)('each camera keeps what it has wrong to itself: %s', (_, first, second, loose, sure) => {
    const line = both(first, second)?.line ?? fail();
    const along = (t: number): number => entry(whereAt(line, t)?.cov ?? mat([[NaN]]), 0, 0);
    expect(along(loose)).toBeGreaterThan(0.01);
    expect(along(sure)).toBeLessThan(0.003);
  });

  it('both cameras off: neither tells the other', () => {
    const line = both(shifted, shifted)?.line ?? fail();
    expect(line.fit?.cov.rows).toBe(2);
    expect(entry(line.fit?.cov ?? mat([[NaN]]), 0, 1)).toBe(0);
    expect(entry(whereAt(line, 0.4)?.cov ?? mat([[NaN]]), 0, 0)).toBeGreaterThan(0.01);
  });

  it('marks what the line proposes on the clip that shows it', () => {
    const clips = [
      { footageId: 'f2', clock: later },
      { footageId: 'f1', clock },
    ];
    const course = Course.parse({
      obstacles: [
        { id: 'a', kind: 'barJump', nickname: '', stand: { x: 4, y: 5, headingDegrees: 0 } },
        { id: 'b', kind: 'barJump', nickname: '', stand: { x: 13.05, y: 5, headingDegrees: 0 } },
      ],
      steps: ['a', 'b'].map((obstacleId, i) => ({ number: i + 1, obstacleId, direction: 'forward' })),
    });
    const proposed = takenFromLine(both(view, view)?.line ?? fail(), course, new Set()).taken.filter(
      isProposed,
    );
    let ids = 0;
    const act = acceptProposed(emptyReview(course), course, proposed, { clips, try: 1 }, () => `p${++ids}`);
    const made = applyChanges(emptyReview(course), act?.changes ?? []).marks;
    expect(made.map((m) => (m.kind === 'taken' ? [m.place, m.footageId, m.pts] : []))).toEqual([
      [1, 'f1', 80],
      [2, 'f2', 110],
    ]);
  });
});

describe('lines as they are drawn', () => {
  const samples = samplesOf(lines([track(0, 3)]).dog?.line ?? fail());

  it('hang together, in classes of speed', () => {
    const pieces = drawnPieces(samples, 'shade');
    pieces.slice(1).forEach((p, i) => {
      expect(p.points[0]).toBe(pieces[i]?.points.at(-1));
    });
    expect(pieces.flatMap((p) => p.points).length).toBe(samples.length + pieces.length - 1);
    expect(drawnPieces(samples, 'plain')).toHaveLength(1);
    expect(drawnPieces([], 'width')).toEqual([]);
    expect(speedRange([])).toEqual({ from: 0, to: 1 });
    const { from, to } = speedRange(samples);
    expect(from).toBeLessThanOrEqual(5);
    expect(to).toBeGreaterThanOrEqual(5);
  });

  it('break where a point is not to be seen, and bands leave such pieces out', () => {
    const hidden = (p: { x: number; y: number }) => (p.x > 5 && p.x < 6 ? null : p);
    expect(pathOf(samples, hidden).match(/M/g)).toHaveLength(2);
    expect(pathOf(samples, (p) => p).match(/M/g)).toHaveLength(1);
    const band = bandPieces(samples);
    expect(band).toHaveLength(samples.length - 1);
    expect(pathOf(band[0] ?? [], (p) => p, true)).toMatch(/Z$/);
    expect(pathOf(band[0] ?? [], () => null, true)).toBe('');
  });
});

describe('obstacles taken over from the line', () => {
  const jump = (id: string, x: number) => ({
    id,
    kind: 'barJump',
    nickname: '',
    stand: { x, y: 5, headingDegrees: 0 },
  });
  const course = Course.parse({
    name: '',
    obstacles: [
      jump('a', 2.55),
      jump('b', 6.55),
      { id: 'w', kind: 'weavePoles', nickname: '', stand: { x: 12, y: 5, headingDegrees: 0 } },
    ],
    steps: ['a', 'b', 'w'].map((obstacleId, i) => ({ number: i + 1, obstacleId, direction: 'forward' })),
  });
  const line = lines([track(0, 3.6)]).dog?.line ?? fail();
  const hers: TakenMark = {
    id: 'hers',
    kind: 'taken',
    footageId: 'f1',
    pts: 20,
    unsure: 0,
    note: 'mine',
    place: 1,
    edge: 'in',
    try: 1,
  };
  const review = { ...emptyReview(course), marks: [hers] };
  const where = { clips: [{ footageId: 'f1', clock }], try: 1 };
  let ids = 0;
  const makeId = () => `p${++ids}`;

  it('make marks on the right frames, and leave the coach’s alone', () => {
    const { taken } = takenFromLine(line, course, markedPlaces(review, 1));
    const proposed = taken.filter(isProposed);
    expect(proposed.map((p) => p.as.place)).toEqual([2, 3]);
    const act = acceptProposed(review, course, proposed, where, makeId);
    const after = applyChanges(review, act?.changes ?? []);
    expect(after.marks[0]).toBe(hers);
    const made = after.marks.slice(1).map((m) => (m.kind === 'taken' ? [m.place, m.edge, m.pts] : []));
    // The bar of 2 stands at 6.55 m: 1.31 s at 5 m/s, on the frame at 1.30 s. The poles are entered first-seen.
    expect(made[0]).toEqual([2, 'whole', 130]);
    expect(made.slice(1).map((m) => m.slice(0, 2))).toEqual([
      [3, 'in'],
      [3, 'out'],
    ]);
    for (const m of after.marks.slice(1)) expect(m.unsure).toBeGreaterThan(0);
  });

  it('never twice: what was marked meanwhile stays', () => {
    const { taken } = takenFromLine(line, course, new Set());
    const proposed = taken.filter(isProposed);
    expect(proposed.map((p) => p.as.place)).toContain(1);
    const act = acceptProposed(review, course, proposed, where, makeId);
    const after = applyChanges(review, act?.changes ?? []);
    expect(after.marks.filter((m) => m.kind === 'taken' && m.place === 1)).toEqual([hers]);
    expect(acceptProposed(after, course, proposed, where, makeId)).toBeNull();
    // In another try they are not hers.
    expect(markedPlaces(review, 2).size).toBe(0);
  });
});

describe('paws at the start line', () => {
  const ground = { view, holds: () => true } as unknown as GroundFit;
  const moment = (part: 'setUp' | 'release', at: number) => ({
    part,
    moment: {
      markId: `${part}${at}`,
      footageId: 'f1',
      pts: at * 100,
      frame: at * 50,
      bracket: { from: runSeconds(at - 0.01), to: runSeconds(at + 0.01) },
      at: { value: at, plusMinus: 0.01, unit: 's' as const },
    },
  });
  const attempt = (n: number, moments: StartTry['moments']): StartTry => ({
    try: n,
    verdict: 'notMarked',
    stay: null,
    early: null,
    fakes: 0,
    shifts: 0,
    moments,
  });
  /** Each paw at each of these seconds; `step` centimetres on for the left front paw from the second on. */
  const paws = (
    seconds: readonly number[],
    step: number,
    points = dogPoints.filter((p) => p.endsWith('Paw')),
  ) =>
    points.map((point, i): Track => ({
      id: point,
      footageId: 'f1',
      who: 'dog',
      point,
      during: 'wait',
      marks: seconds.map((s, k) => ({
        pts: Math.round(s * 100),
        at: { x: (200 + 30 * i + (k > 0 && i === 0 ? step : 0)) / 2000, y: 0.5 },
        contact: 'ground',
        unsure: 0.25,
      })),
    }));
  const tries = [attempt(1, [moment('setUp', 0)]), attempt(2, [moment('setUp', 8), moment('release', 12)])];
  const of = (tracks: Track[], countsFrom = 0.03) =>
    triesStayed({ tracks }, 'f1', clock, ground, tries, countsFrom);

  it('each try by its own marks, up to its release', () => {
    const told = of([...paws([1, 3], 8).map((t) => ({ ...t, id: `${t.id}1` })), ...paws([9, 11], 0)]);
    expect(told.map((t) => [t.try, t.verdict, t.released])).toEqual([
      [1, 'broke', false],
      [2, 'kept', true],
    ]);
    expect(of(paws([9, 12.5], 8)).map((t) => t.verdict)).toEqual(['cannotTell']);
  });

  it('what counts as a step is the coach’s to say', () => {
    expect(of(paws([9, 11], 8), 0.2)[0]?.verdict).toBe('kept');
    expect(of(paws([9, 11], 8), 0.03)[0]?.verdict).toBe('broke');
  });

  it('a paw that nobody marked twice leaves it open, and that is said', () => {
    const told = of(paws([9, 11], 0, ['leftFrontPaw', 'rightFrontPaw', 'leftHindPaw']));
    expect(told[0]?.verdict).toBe('cannotTell');
    expect(told[0] && stayedSentence(told[0])).toBe('Cannot tell: the right hind paw is not marked twice.');
  });

  it('without any try all marks make one wait', () => {
    expect(waitsOf([])).toEqual([{ try: 1, from: -Infinity, release: Infinity, released: false }]);
    expect(waitsOf(tries).map((w) => w.release)).toEqual([8, 12]);
  });
});

function fail(): never {
  throw new Error('no line');
}
