import { describe, expect, test } from 'vitest';
import { clipIdeas, crossClip, mostPoints, shortClip } from '../../../../src/report/clip/ideas.ts';
import { layersOf } from '../../../../src/report/clip/layers.ts';
import { layoutOf } from '../../../../src/report/clip/layout.ts';
import { planClip, secondsAsked } from '../../../../src/report/clip/plan.ts';
import type { RunAtHand } from '../../../../src/report/clip/run.ts';
import type { ClipWish } from '../../../../src/report/clip/wish.ts';
import { analyse } from '../../../../src/review/analyse.ts';
import type { ReviewDocument } from '../../../../src/review/document.ts';
import { clocksOf, stateOf } from '../../../../src/review/readDocument.ts';
import { fittedDemo } from './fittedDemo.ts';

const overlays = { numbers: true, wanted: true, likely: false, real: true, captions: true, drawings: true };

function atHand(document: ReviewDocument): RunAtHand {
  const review = stateOf(document);
  const clocks = clocksOf(document);
  const pictures = new Map(
    document.footage.map(({ id, clip }) => [id, { width: clip.width, height: clip.height }]),
  );
  return { review, clocks, analysis: analyse(review, clocks), course: review.course, pictures, likely: [] };
}

const demo = await fittedDemo();
const run = atHand(demo);
const film = demo.footage[0]?.id ?? '';
const cross = run.analysis.crosses.find((c) => c.place === 3);
if (!cross) throw new Error('the demo has no cross at 3');
const wish = (part: Partial<ClipWish>): ClipWish => ({
  reviewId: 'r',
  footageId: film,
  parts: [{ from: 0, to: 512 * 60 }],
  slow: [],
  freezes: [],
  overlays,
  sound: false,
  ...part,
});
const planned = (asked: ClipWish, beside: RunAtHand | null = null) => {
  const plan = planClip(asked, run, beside);
  if (typeof plan === 'string') throw new Error(plan);
  return plan;
};

const laidOver = (asked: ClipWish, plan = planned(asked)) => layersOf(plan.lanes, plan, asked);

describe('what the marks suggest', () => {
  test('is first a short clip with at most three points, each held where it is decided and told', () => {
    const short = shortClip(run);
    expect(short?.freezes).toHaveLength(mostPoints);
    expect(short?.freezes.map((f) => f.pts)).toEqual(
      short?.freezes.map((f) => f.pts).toSorted((a, b) => a - b),
    );
    expect(short?.freezes.map((f) => f.caption).join('\n')).toContain(
      '3, front cross: late. The cue came 0.30 s',
    );
    for (const { pts } of short?.freezes ?? [])
      expect(short?.parts.some(({ from, to }) => from < pts && pts < to)).toBe(true);
    const table = run.clocks.get(film)?.table;
    // Short: a phone is not a cinema.
    expect(table && short && secondsAsked(wish(short), table)).toBeLessThan(30);
    const all = clipIdeas(run);
    expect(all[0]?.of.what).toBe('short');
    expect(all.filter((i) => i.of.what === 'cross')).toHaveLength(run.analysis.crosses.length);
    expect(all.filter((i) => i.of.what === 'stretch').length).toBeGreaterThan(15);
    for (const idea of all) planned(wish({ parts: idea.parts, slow: idea.slow, freezes: idea.freezes }));
  });

  test('is nothing where nothing is marked', () => {
    const bare = atHand({ ...demo, marks: [], crosses: [] });
    expect(clipIdeas(bare)).toEqual([]);
  });
});

describe('what is laid over', () => {
  const idea = crossClip(run, cross);
  const asked = wish({ parts: idea?.parts ?? [], slow: idea?.slow ?? [], freezes: idea?.freezes ?? [] });
  const plan = planned(asked);
  const layers = laidOver(asked, plan);
  const layerAt = (tick: number) => layers.findLast((l) => l.at <= tick);
  const held = plan.shots.find((s) => s.held > 0);

  test('changes seldom, and is told once where it does', () => {
    expect(layers.length).toBeGreaterThan(4);
    expect(layers.length).toBeLessThan(16);
    expect(plan.shots.length).toBeGreaterThan(60);
  });

  test('is the verdict while the frame is held, the pen on its frame alone, and the speed while it is slowed', () => {
    expect(held && layerAt(held.at)).toMatchObject({
      caption: idea?.freezes[0]?.caption,
      speed: '1/4 speed',
    });
    expect(held && layerAt(held.at)?.lanes[0]?.strokes).toHaveLength(2);
    for (const tick of [(held?.at ?? 0) - 1, (held?.at ?? 0) + (held?.ticks ?? 0)]) {
      expect(layerAt(tick)?.caption).toBeNull();
      expect(layerAt(tick)?.lanes[0]?.strokes).toEqual([]);
    }
    expect(layerAt(0)?.speed).toBeNull();
    expect(layers.flatMap((l) => l.lanes[0]?.tags ?? [])).toContain('2 → 3: 0.93 s ± 0.04');
  });

  test('lies where the camera of the film sees it: the real line on the paw’s prints, each number at its board', () => {
    const ground = layerAt(0)?.lanes[0]?.ground ?? [];
    const real = ground.flatMap((m) => (m.shape === 'way' && m.as === 'real' ? m.points : []));
    const prints = demo.tracks[0]?.marks ?? [];
    const shown = prints
      .filter(({ pts }) => pts > (plan.lanes[0]?.parts[0]?.from ?? 0) * 512 + 15_360)
      .slice(0, 6);
    expect(shown).toHaveLength(6);
    for (const { at } of shown) {
      const off = Math.min(...real.map(([x, y]) => Math.hypot(x - at.x * 1280, y - at.y * 720)));
      expect(off).toBeLessThan(12);
    }
    const numbers = ground.filter((m) => m.shape === 'number').map((m) => Number(m.text));
    expect(numbers).toEqual(expect.arrayContaining([1, 2, 3, 4, 5]));
    expect(ground.some((m) => m.shape === 'way' && m.as === 'wanted')).toBe(true);
  });

  test('is nothing where nothing is asked for', () => {
    const none = Object.fromEntries(Object.keys(overlays).map((name) => [name, false])) as typeof overlays;
    expect(laidOver(wish({ overlays: none }))).toEqual([]);
  });

  test('leaves out names where they are to be left out', () => {
    const words = { ...demo.header.words, leaveNamesOut: true };
    const masked = atHand({ ...demo, header: { ...demo.header, words } });
    const asked = wish({ freezes: [{ pts: 512 * 10, seconds: 1, caption: `${demo.header.dog} waits` }] });
    const made = planClip(asked, masked);
    if (typeof made === 'string') throw new Error(made);
    const told = laidOver(asked, made).flatMap((l) => l.caption ?? []);
    expect(told).toEqual(['the dog waits']);
  });
});

describe('two runs side by side', () => {
  const beside = { reviewId: 'other', footageId: film, lock: 'place' as const };

  test('of the same run show the same frame at the same time, and tell whose they are', () => {
    const asked = wish({ beside, parts: [{ from: 512 * 430, to: 512 * 500 }] });
    const plan = planned(asked, run);
    const [a, b] = plan.lanes;
    const shown = (lane: typeof a, tick: number) => lane?.shots.findLast((s) => s.at <= tick)?.frame;
    for (const tick of [0, 20, 50, plan.ticks - 1]) expect(shown(b, tick)).toBe(shown(a, tick));
    expect(plan.size).toEqual({ width: 1920, height: 540 });
    expect(laidOver(asked, plan)[0]?.lanes.map((l) => l.tags[0])).toEqual([
      'Bramble, 2026-04-18',
      'Bramble, 2026-04-18',
    ]);
    expect(plan.sound).toEqual([]);
  });

  test('are refused where they share nothing', () => {
    const other = atHand({ ...demo, marks: [], crosses: [] });
    expect(planClip(wish({ beside }), run, other)).toBe('nothingShared');
  });
});

test('what cannot be shown is refused', () => {
  expect(planClip(wish({ footageId: 'gone' }), run)).toBe('noFootage');
  for (const parts of [
    [{ from: 9e9, to: 9e9 + 1 }],
    [{ from: 900, to: 100 }],
    [
      { from: 0, to: 9000 },
      { from: 9000, to: 9999 },
    ],
  ])
    expect(planClip(wish({ parts }), run)).toBe('badRange');
  const whole = { from: 0, to: 512 * 1700 };
  expect(
    planClip(
      wish({
        parts: [whole],
        slow: [{ ...whole, speed: 1 / 8 }],
        freezes: Array.from({ length: 20 }, () => ({ pts: 0, seconds: 20, caption: '' })),
      }),
      run,
    ),
  ).toBe('tooLong');
});

test('sizes are even, never enlarged, and no larger than phones like', () => {
  expect(layoutOf([{ width: 1081, height: 1921 }]).size).toEqual({ width: 1080, height: 1920 });
  expect(layoutOf([{ width: 3840, height: 2160 }]).size).toEqual({ width: 1920, height: 1080 });
  expect(layoutOf([{ width: 321, height: 241 }]).size).toEqual({ width: 322, height: 242 });
  const tall = { width: 1080, height: 1920 };
  expect(layoutOf([tall, tall])).toEqual({
    size: { width: 1216, height: 1080 },
    boxes: [
      { x: 0, width: 608, height: 1080 },
      { x: 608, width: 608, height: 1080 },
    ],
  });
});
