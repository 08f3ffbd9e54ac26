import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { demoCourse } from '../../../scripts/simulator/ground/demoCourse.ts';
import { gateOf } from '../../../scripts/simulator/ground/gate.ts';
import {
  dogParameters,
  footings,
  gravity,
  handlerParameters,
  speedOfSound,
} from '../../../scripts/simulator/parameters.ts';
import { lineLengths } from '../../../scripts/simulator/truth/lineLengths.ts';
import { at, drawnRuns } from './runs.ts';

describe('the numbers of the models', () => {
  const all = { ...dogParameters, ...handlerParameters, ...footings, gravity, speedOfSound };

  it.each(Object.entries(all))('%s says where it is from and lies in the published range', (_, parameter) => {
    expect(parameter.from.length).toBeGreaterThan(10);
    expect(parameter.unit.length).toBeGreaterThan(0);
    if (parameter.from.startsWith('assumed: ')) return;
    expect(parameter.range, 'a published number has its range').toBeDefined();
    const [low = NaN, high = NaN] = parameter.range ?? [];
    expect(parameter.value).toBeGreaterThanOrEqual(low);
    expect(parameter.value).toBeLessThanOrEqual(high);
  });

  // DiMichele et al., PLoS ONE 2024;19(3):e0299592: whole dog walk 2.26 s, SD 1.03, n = 296.
  it('a dog walk takes about as long as dogs were found to take', () => {
    const times = drawnRuns(20).map((run) => at(run, 'out', 13) - at(run, 'in', 13));
    const mean = times.reduce((a, b) => a + b, 0) / times.length;
    expect(Math.abs(mean - 2.26)).toBeLessThan(0.3);
  });

  // FCI figures as told by member bodies (bars 120-150 cm, L jumps 55-60 cm, 22 numbers at most, tunnel 3-6 m).
  it('the course is one that a judge could set', () => {
    const { obstacles, places, ring } = demoCourse;
    expect(ring).toEqual({ length: 40, depth: 20 });
    expect(places.length).toBeGreaterThanOrEqual(15);
    expect(places.length).toBeLessThanOrEqual(22);
    const jumps = places.filter((p) => gateOf(demoCourse, p).jump);
    expect(jumps.length).toBeGreaterThanOrEqual(7);
    for (const o of obstacles) {
      expect(o.x > 0 && o.x < 40 && o.y > 0 && o.y < 20).toBe(true);
      if (o.kind === 'barJump') {
        expect(o.sizes['bar']).toBeGreaterThanOrEqual(1.2);
        expect(o.sizes['bar']).toBeLessThanOrEqual(1.5);
        expect(o.sizes['height']).toBeGreaterThanOrEqual(0.55);
        expect(o.sizes['height']).toBeLessThanOrEqual(0.6);
      }
      if (o.kind === 'tunnel') {
        expect(o.sizes['length']).toBeGreaterThanOrEqual(3);
        expect(o.sizes['length']).toBeLessThanOrEqual(6);
      }
    }
    for (let i = 0; i + 1 < places.length; i++) {
      const a = gateOf(demoCourse, places[i] ?? { number: 0, obstacleId: '', reversed: false });
      const b = gateOf(demoCourse, places[i + 1] ?? { number: 0, obstacleId: '', reversed: false });
      const gap = Math.hypot(b.x - a.exitX, b.y - a.exitY);
      expect(gap, `${i + 1} to ${i + 2}`).toBeGreaterThan(4);
      expect(gap, `${i + 1} to ${i + 2}`).toBeLessThan(8);
    }
  });

  it('the parts of a run sum to the whole', () => {
    for (const run of drawnRuns(6)) {
      const parts = lineLengths(run);
      const last = run.course.places.length;
      const whole = at(run, 'out', last) - at(run, 'out', 1);
      expect(parts).toHaveLength(last - 1);
      expect(parts.reduce((sum, p) => sum + p.time, 0)).toBeCloseTo(whole, 4);
      for (const p of parts) expect(p.length / p.time).toBeLessThan(run.traits.topSpeed * 1.04);
    }
  });
});

describe('the simulator stands on its own', () => {
  const folder = fileURLToPath(new URL('../../../scripts/simulator/', import.meta.url));
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'));

  it.each(files)('%s imports nothing from src or app', (file) => {
    const text = readFileSync(join(folder, file), 'utf8');
    const from = [...text.matchAll(/from '([^']+)'/g)].map((m) => m[1] ?? '');
    expect(from.filter((path) => /(^|\/)(src|app)\//.test(path))).toEqual([]);
  });
});
