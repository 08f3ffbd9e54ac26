import { describe, expect, it } from 'vitest';
import type { Act } from '../../../scripts/simulator/actors/handling.ts';
import { runA, runB } from '../../../scripts/simulator/demoRuns.ts';
import { standCamera } from '../../../scripts/simulator/camera/camera.ts';
import { standing } from '../../../scripts/simulator/camera/path.ts';
import { mediaTime, secondsOf, slowedFrames, steadyFrames } from '../../../scripts/simulator/frameTimes.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { inRealTime, simulate } from '../../../scripts/simulator/simulate.ts';
import { counterfactual } from '../../../scripts/simulator/truth/counterfactual.ts';
import { momentMaker } from '../../../scripts/simulator/truth/moments.ts';
import { truthOf } from '../../../scripts/simulator/truth/truth.ts';
import { at, drawnOrder } from './runs.ts';

describe('what a cue does to the dog', () => {
  const run = simulateRun(runA);

  it('the same seed with the cue in time: she turns shorter and is sooner at the next obstacle', () => {
    const other = counterfactual(runA, run, 3, 0.9);
    expect(other.lead).toBeLessThan(0);
    expect(other.otherLead).toBeGreaterThan(0.5);
    expect(other.otherLength ?? NaN).toBeLessThan((other.length ?? 0) - 1.5);
    expect(other.otherTime ?? NaN).toBeLessThan((other.time ?? 0) - 0.3);
  });

  it('the same seed with the cue where it was is the same run', () => {
    const same = counterfactual(runA, run, 3, -0.3);
    expect(same.otherTime).toBe(same.time);
    expect(same.otherLength).toBe(same.length);
  });

  it('an earlier cue never makes the way longer, in steps through take-off', () => {
    const ways = [-0.4, -0.2, 0.2, 0.6, 1.0].map(
      (lead) => counterfactual(runA, run, 3, lead).otherLength ?? NaN,
    );
    expect((ways[0] ?? NaN) - (ways[4] ?? NaN)).toBeGreaterThan(1);
    for (let i = 1; i < ways.length; i++) expect(ways[i] ?? NaN).toBeLessThan((ways[i - 1] ?? NaN) + 0.35);
  });
});

describe('what a story can hold', () => {
  const told = (happenings: object): ReturnType<typeof simulateRun> =>
    simulateRun({ ...runB, happenings: { natural: false, ...happenings } });
  const kinds = (run: ReturnType<typeof simulateRun>): string[] =>
    run.happened.filter((h) => h.place !== null).map((h) => `${h.kind} ${h.place}`);

  it('the two demo runs', () => {
    const a = simulateRun(runA);
    const b = simulateRun(runB);
    expect(a.happened.map((h) => h.kind)).toEqual(['brokeStay', 'release', 'wrongEntry', 'barDown']);
    expect(b.happened.map((h) => h.kind)).toEqual(['fake', 'release']);
    expect(a.tries).toHaveLength(2);
    expect(at(a, 'in', 3) - (a.crosses[0]?.begun ?? NaN)).toBeLessThan(0);
    expect(at(b, 'in', 3) - (b.crosses[0]?.begun ?? NaN)).toBeGreaterThan(0.4);
    expect(at(b, 'out', 19) - at(b, 'in', 1)).toBeLessThan(at(a, 'out', 19) - at(a, 'in', 1) - 3);
  });

  it.each([
    ['stop', { stop: [8] }, 'stop 8'],
    ['run by', { runBy: [6] }, 'runBy 6'],
    ['bar', { lowOver: [4] }, 'barDown 4'],
    ['popped out', { popOut: [7] }, 'popOut 7'],
    ['wrong entry', { wrongEntry: [7] }, 'wrongEntry 7'],
    ['missed contact', { missContact: [13] }, 'missedContact 13'],
  ])('%s: it happens once, and she takes the obstacle after all', (_, happenings, event) => {
    const run = told(happenings);
    expect(kinds(run)).toEqual([event]);
    expect(run.finished).toBe(true);
    expect(run.notices.filter((n) => n.kind === 'out').map((n) => n.place)).toEqual(
      Array.from({ length: 19 }, (_x, i) => i + 1),
    );
  });

  it('support that leaves before she is committed can cost the obstacle', () => {
    const acts: Act[] = runB.handling.acts.map((act) =>
      act.do === 'go' && act.when.on === 'dog' && act.when.place === 5 && act.when.moment === 'commit'
        ? {
            do: 'go',
            when: { on: 'dog', place: 4, moment: 'in', delay: -0.2 },
            to: [{ x: 24, y: 6.5 }],
            speed: 5.2,
          }
        : act,
    );
    let lost = 0;
    for (let seed = 0; seed < 24; seed++) {
      const order = { ...runB, seed, traits: {}, happenings: { natural: true } };
      const early = simulateRun({ ...order, handling: { ...runB.handling, acts } });
      if (early.happened.some((h) => h.kind === 'runBy' && h.place === 5)) lost++;
      expect(simulateRun(order).happened.filter((h) => h.kind === 'runBy')).toEqual([]);
    }
    expect(lost).toBeGreaterThan(3);
    expect(lost).toBeLessThan(21);
  });

  it('second choices: ahead of the dog she does the first, behind the second', () => {
    const choice = (ahead: number): string[] => {
      const acts: Act[] = [
        {
          do: 'choose',
          when: { on: 'release', delay: 0.2 },
          place: 3,
          ahead,
          first: [{ do: 'say', when: { on: 'release', delay: 0.2 }, word: 'here' }],
          second: [{ do: 'say', when: { on: 'release', delay: 0.2 }, word: 'climb' }],
        },
      ];
      const run = simulateRun({ ...runB, handling: { ...runB.handling, acts }, longest: 9 });
      return run.said.map((s) => s.word).filter((w) => w === 'here' || w === 'climb');
    };
    expect(choice(2)).toEqual(['here']);
    expect(choice(30)).toEqual(['climb']);
  });
});

describe('truth at any frames', () => {
  interface Told {
    at: number;
    captured: number;
    seen: 'first' | 'last';
    pts: number | null;
    bracket: [number | null, number | null];
  }

  const momentsIn = (value: unknown, out: Told[] = []): Told[] => {
    if (Array.isArray(value)) for (const one of value) momentsIn(one, out);
    else if (value && typeof value === 'object') {
      if ('bracket' in value) out.push(value as Told);
      else for (const one of Object.values(value)) momentsIn(one, out);
    }
    return out;
  };

  it.each([25, 30, 50, 60, 120, 240])('%i a second: every moment lies in its bracket', (rate) => {
    const { truth, run } = simulate({
      seed: 21,
      handling: runB.handling,
      frameTimes: steadyFrames(rate, 70),
    });
    const moments = momentsIn(truth);
    expect(moments.length).toBeGreaterThan(60);
    expect(run.finished).toBe(true);
    for (const m of moments) {
      const [from, to] = m.bracket;
      const late = 1e-6;
      if (m.seen === 'first') {
        expect(m.at).toBeGreaterThan((from ?? -Infinity) - late);
        expect(m.at).toBeLessThanOrEqual((to ?? Infinity) + late);
      } else {
        expect(m.at).toBeGreaterThanOrEqual((from ?? -Infinity) - late);
        expect(m.at).toBeLessThan((to ?? Infinity) + late);
      }
    }
  });

  it('slowed film: media time is stretched, the time of the run is not', () => {
    const paces = [
      { until: 2, slow: 1 },
      { until: 4, slow: 8 },
      { until: 60, slow: 1 },
    ];
    const frames = slowedFrames(240, 50, paces);
    const captured = frames.pts.map((_, i) => i / 240);
    const moment = momentMaker({ frames, captured }, null);
    expect(moment(1.5, 'first').at).toBeCloseTo(1.5, 5);
    expect(moment(3, 'first').at).toBeCloseTo(2 + 8, 3);
    expect(moment(5, 'first').at).toBeCloseTo(2 + 16 + 1, 3);
    expect(moment(3, 'first').captured).toBe(3);
    expect(mediaTime(paces, 5)).toBeCloseTo(19, 12);
    const seconds = secondsOf(frames);
    expect(seconds.every((t, i) => i === 0 || t > (seconds[i - 1] ?? 0))).toBe(true);
  });

  it('holds a place for every frame, and a camera', () => {
    const run = simulateRun(drawnOrder(3));
    const exposures = inRealTime(steadyFrames(25, 20), 0);
    const header = { name: 'n', dog: 'd', handler: 'h', film: null };
    const extras = { perFrame: true, counterfactuals: [] };
    const truth = truthOf(run, exposures, standing(standCamera), header, extras) as {
      dog: { x: number[]; points: { nose: number[][] } };
      handler: { feet: number[] };
      camera: { matrix: number[][] };
    };
    expect(truth.dog.x).toHaveLength(exposures.frames.pts.length);
    expect(truth.dog.points.nose).toHaveLength(exposures.frames.pts.length);
    expect(truth.handler.feet).toHaveLength(exposures.frames.pts.length);
    expect(truth.camera.matrix).toHaveLength(3);
  });
});
