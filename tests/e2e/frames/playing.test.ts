import { describe, expect, test } from 'vitest';
import { clipSources } from './clipSources.ts';
import { testStand } from './testStand.ts';

const stand = testStand();

describe('between playing and stepping', () => {
  test.each(['h264', 'vfr', 'fps240', 'late', 'mkv', 'mkvLate', 'vp9', 'rotated90', 'editList'] as const)(
    '%s: the frame paused on is the frame that was on screen',
    async (kind) => {
      const { original } = await clipSources(stand(), kind);
      const n = original.pts.length;
      const runs = await stand().page.evaluate(
        async ({ s, n: frames }) => {
          const { page } = window;
          const opened = await page.openStage(s);
          const list = [];
          const rates = [1, 0.25, 0.0625, 2, 0.5];
          for (const [i, rate] of rates.entries()) {
            list.push(await page.playAndPause((i * 37) % (frames >> 1), rate, 80 + i * 53));
          }
          return { opened, list, closed: await page.closeStage() };
        },
        { s: original, n },
      );
      expect(runs.opened).toBe('opened');
      for (const run of runs.list) {
        expect(run.played).toBe('playing');
        expect(run.canvas).toBe(run.frame);
        expect(run.player).toBe(run.frame);
        expect(run.canvasSeen).toBe('visible');
        expect(run.rising).toBe(true);
        expect(run.told).toBeGreaterThan(0);
      }
      expect(runs.closed).toEqual({ open: 0, left: 0 });
    },
  );

  test('a loop stays within its frames and starts over', async () => {
    const { original } = await clipSources(stand(), 'h264');
    const told = await stand().page.evaluate(async (s) => {
      await window.page.openStage(s);
      const list = await window.page.playLoop(60, 72, 1, 2500);
      await window.page.closeStage();
      return list;
    }, original);
    expect(Math.min(...told)).toBeGreaterThanOrEqual(60);
    // A frame or two past the end may have been on their way when the end was seen.
    expect(Math.max(...told)).toBeLessThanOrEqual(75);
    expect(told.filter((t, i) => i > 0 && t < (told[i - 1] ?? 0)).length).toBeGreaterThanOrEqual(2);
  });

  test('playing to the end stands still on the last frame; play then starts over', async () => {
    const { original } = await clipSources(stand(), 'h264Silent');
    const last = original.pts.length - 1;
    const result = await stand().page.evaluate(
      async ({ s, from }) => {
        const { page } = window;
        await page.openStage(s);
        const stage = page.stage();
        await page.playAndPause(from, 2, 3000);
        const end = { mode: stage.mode, frame: stage.frame() };
        await stage.play();
        await page.until(300);
        const again = stage.frame();
        await stage.pause();
        await page.closeStage();
        return { end, again };
      },
      { s: original, from: last - 20 },
    );
    expect(result.end).toEqual({ mode: 'still', frame: last });
    expect(result.again).toBeLessThan(60);
  });

  test('pressing play and pause in any haste ends as the last press says', async () => {
    const { original } = await clipSources(stand(), 'h264');
    const modes = await stand().page.evaluate(async (s) => {
      const { page } = window;
      await page.openStage(s);
      const stage = page.stage();
      const list = [];
      for (let presses = 1; presses <= 6; presses++) {
        const all = Array.from({ length: presses }, () => stage.toggle());
        await Promise.all(all);
        await page.until(50);
        await stage.pause();
        list.push(
          stage.mode,
          page.read(stage.canvas, stage.canvas.width, stage.canvas.height) === stage.frame(),
        );
      }
      await page.closeStage();
      return list;
    }, original);
    expect(modes.filter((m) => m !== 'still' && m !== true)).toEqual([]);
  });
});
