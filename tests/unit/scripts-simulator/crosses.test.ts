import { describe, expect, it } from 'vitest';
import { randomStream } from '../../../scripts/simulator/base/random.ts';
import type { SingleCross } from '../../../scripts/simulator/crosses.ts';
import { playCrosses } from '../../../scripts/simulator/crosses.ts';
import type { FrameTimes } from '../../../scripts/simulator/frameTimes.ts';
import { secondsOf, steadyFrames, unsteadyFrames } from '../../../scripts/simulator/frameTimes.ts';
import type { Habits } from '../../../scripts/simulator/marker.ts';
import { clickPaws, exactHabits, markCross, Marker } from '../../../scripts/simulator/marker.ts';
import { pawContacts } from '../../../scripts/simulator/actors/footfalls.ts';
import { standCamera } from '../../../scripts/simulator/camera/camera.ts';
import { seenAt, standing } from '../../../scripts/simulator/camera/path.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { drawnOrder } from './runs.ts';

const crosses = playCrosses(5, 600);

describe('single crosses', () => {
  it('come in every kind, early and late, at jumps and before tunnels', () => {
    const kinds = new Set(crosses.map((c) => `${c.kind} ${c.obstacle}`));
    expect(kinds.size).toBe(6);
    expect(crosses.filter((c) => c.lead < 0).length).toBeGreaterThan(60);
    expect(crosses.filter((c) => c.lead > 0.39).length).toBeGreaterThan(100);
    expect(new Set(crosses.map((c) => c.seed)).size).toBe(crosses.length);
  });

  it('hold their own order of events', () => {
    for (const c of crosses) {
      expect(c.committedToObstacle).toBeLessThan(c.in);
      expect(c.in).toBeLessThan(c.out);
      expect(c.lead).toBeCloseTo(c.in - c.begun, 12);
      expect(Math.min(...c.cues.map((q) => q.begin))).toBe(c.begun);
      for (const q of c.cues) expect(q.end).toBeGreaterThan(q.begin);
      // Nothing is known before it was shown and a reaction has passed (a dog that was never told looks back later).
      if (c.knownAt !== null) expect(c.knownAt).toBeGreaterThanOrEqual(c.begun + 0.1);
    }
  });

  it('a cue after take-off sends her wide: a longer way to the next obstacle than a cue in time', () => {
    const sharp = crosses.filter(
      (c) => c.obstacle === 'barJump' && c.kind !== 'rear' && Math.abs(c.turn) > 1.6,
    );
    const mean = (list: readonly SingleCross[]): number =>
      list.reduce((sum, c) => sum + c.wayToNext, 0) / list.length;
    const late = sharp.filter((c) => c.lead < 0);
    const early = sharp.filter((c) => c.lead > 0.7);
    expect(late.length).toBeGreaterThan(20);
    expect(early.length).toBeGreaterThan(20);
    expect(mean(late)).toBeGreaterThan(1.4 * mean(early));
  });
});

describe('the marker', () => {
  const films: readonly (readonly [string, FrameTimes])[] = [
    ...[25, 30, 50, 60, 120, 240].map((rate) => [`${rate} a second`, steadyFrames(rate, 9)] as const),
    ['unsteady', unsteadyFrames(8, 30, 9)],
  ];

  it.each(films)('without slips each event lies in the bracket of its mark, %s', (_, frames) => {
    const times = secondsOf(frames);
    const random = randomStream(2);
    for (const c of crosses.slice(0, 200)) {
      const origin = -random.between(0, times[1] ?? 0);
      const marked = markCross(c, new Marker(frames, origin, exactHabits, random));
      const pairs = [
        [marked.in, c.in],
        [marked.out, c.out],
        [marked.finished, c.finished],
        ...c.cues.map((q, i) => [marked.cues[i]?.begin ?? null, q.begin] as const),
      ] as const;
      for (const [mark, event] of pairs) {
        if (!mark || event === null) continue;
        const here = (times[mark.frame] ?? NaN) + origin;
        const before = (times[mark.frame - 1] ?? -Infinity) + origin;
        const after = (times[mark.frame + 1] ?? Infinity) + origin;
        if (mark.seen === 'first') expect(before < event && event <= here).toBe(true);
        else expect(here <= event && event < after).toBe(true);
        expect(mark.pts).toBe(frames.pts[mark.frame]);
        expect(mark.unsure).toBe(0);
      }
    }
  });

  it('slips as often as told, by one frame either way, and notes it as told', () => {
    const frames = steadyFrames(60, 9);
    const habits: Habits = { offByOne: 0.3, unsure: 'whereOff', clickNoise: 0, forgets: 0.1 };
    const exact = new Marker(frames, 0, exactHabits, randomStream(1));
    const person = new Marker(frames, 0, habits, randomStream(1));
    const random = randomStream(4);
    const slips = [0, 0, 0];
    let forgotten = 0;
    const count = 20_000;
    for (let i = 0; i < count; i++) {
      const event = random.between(1, 8);
      const right = exact.mark(event, 'first');
      const mark = person.mark(event, 'first');
      if (!mark) {
        forgotten++;
        continue;
      }
      const slip = mark.frame - (right?.frame ?? NaN);
      slips[slip + 1] = (slips[slip + 1] ?? 0) + 1;
      expect(mark.unsure).toBe(slip === 0 ? 0 : 1);
    }
    const kept = count - forgotten;
    expect(forgotten / count).toBeCloseTo(0.1, 1);
    expect((slips[0] ?? 0) / kept).toBeGreaterThan(0.13);
    expect((slips[0] ?? 0) / kept).toBeLessThan(0.17);
    expect((slips[2] ?? 0) / kept).toBeGreaterThan(0.13);
    expect((slips[2] ?? 0) / kept).toBeLessThan(0.17);
  });

  it('clicks where a paw stands, with the noise of a hand', () => {
    const run = simulateRun(drawnOrder(2));
    const path = standing(standCamera);
    const frames = steadyFrames(60, run.duration);
    const habits: Habits = { offByOne: 0, unsure: 'never', clickNoise: 2, forgets: 0 };
    const clicks = clickPaws(pawContacts(run), frames, 0, path, habits, randomStream(6));
    expect(clicks.length).toBeGreaterThan(200);
    let sum = 0;
    for (const click of clicks) {
      const [x, y] = click.ground;
      const seen = seenAt(path, { x, y, z: 0 }, 0);
      sum += ((seen?.u ?? NaN) - click.u) ** 2 + ((seen?.v ?? NaN) - click.v) ** 2;
    }
    const spread = Math.sqrt(sum / (2 * clicks.length));
    expect(spread).toBeGreaterThan(1.7);
    expect(spread).toBeLessThan(2.3);
  });
});
