import { describe, expect, test } from 'vitest';
import { clipSources, someFrames } from './clipSources.ts';
import { underLoad } from './load.ts';
import { testStand } from './testStand.ts';
import { walk } from './walk.ts';

const stand = testStand();

describe('the picture shown is the frame asked for', () => {
  test.each(['h264', 'vfr', 'mkv', 'vp9', 'rotated90', 'mtsInterlaced'] as const)(
    '%s, while every core is busy',
    async (kind) => {
      const { original } = await clipSources(stand(), kind);
      await underLoad(() => walk(stand().page, original, 100, 13));
    },
  );

  test('a step pressed during a seek starts from the frame asked for', async () => {
    const { original } = await clipSources(stand(), 'h264');
    const result = await stand().page.evaluate(async (s) => {
      const { page } = window;
      await page.open(s);
      const runs = [];
      for (const pace of [0, 5, 25]) {
        runs.push(await page.hurry(50, 40, 1, pace), await page.hurry(250, 40, -1, pace));
      }
      return { runs, left: await page.close() };
    }, original);
    result.runs.forEach((run, i) => {
      expect(run.wrong).toEqual([]);
      expect(run.troubles).toEqual([]);
      expect(run.at).toBe(i % 2 === 0 ? 90 : 210);
      expect(run.painted).toBeGreaterThan(0);
    });
    expect(result.left).toBe(0);
  });

  test('scrubbing ends on the last frame asked for, in a window of little memory too', async () => {
    const { original } = await clipSources(stand(), 'h264');
    const random = someFrames(120, original.pts.length, 17);
    for (const budget of [600_000_000, 4_000_000]) {
      const result = await stand().page.evaluate(
        async ({ s, budget: b, random: r }) => {
          await window.page.open(s, { budget: b });
          const seen = await window.page.scrub(r);
          const steps = await window.page.steps(290, 60, -1);
          return { seen, steps, kept: window.page.openFrames(), left: await window.page.close() };
        },
        { s: original, budget, random },
      );
      expect(result.seen.wrong).toEqual([]);
      expect(result.seen.troubles).toEqual([]);
      expect(result.steps.wrong).toEqual([]);
      expect(result.kept * 640 * 360 * 1.5).toBeLessThanOrEqual(budget);
      expect(result.left).toBe(0);
    }
  });

  test('pictures of single frames are of exactly those frames', async () => {
    for (const kind of ['h264', 'rotated90'] as const) {
      const { original } = await clipSources(stand(), kind);
      const wanted = someFrames(30, original.pts.length, 19);
      const pictures = await stand().page.evaluate(
        async ({ s, wanted: w }) => {
          await window.page.open(s);
          const list = await Promise.all(w.map((i) => window.page.picture(i, 160)));
          return { list, left: await window.page.close() };
        },
        { s: original, wanted },
      );
      expect(pictures.list.map((p) => p.read)).toEqual(wanted);
      for (const p of pictures.list) {
        expect(p.width).toBe(160);
        expect(p.height).toBe(Math.round((160 * original.height) / original.width));
      }
      expect(pictures.left).toBe(0);
    }
  });

  test("the browser's own player, where nothing else works, shows the frame asked for or says it cannot", async () => {
    for (const kind of ['h264', 'vfr', 'mkvLate', 'rotated90', 'vp9'] as const) {
      const { original } = await clipSources(stand(), kind);
      const random = someFrames(40, original.pts.length, 23);
      const result = await stand().page.evaluate(
        async ({ s, random: r }) => {
          const opened = await window.page.open(s, { by: 'video' });
          const seeks = await window.page.seeks(r);
          const steps = await window.page.steps(30, 20, 1);
          return { opened, seeks, steps, left: await window.page.close() };
        },
        { s: original, random },
      );
      expect(result.opened).toBe('opened');
      expect(result.seeks.wrong).toEqual([]);
      expect(result.steps.wrong).toEqual([]);
      // Some Chromiums (150) stay before a gap of half a second wherever one seeks in the group after it.
      expect(result.seeks.asks).toBeGreaterThan(random.length * 0.8);
      expect(result.left).toBe(0);
    }
  });
});
