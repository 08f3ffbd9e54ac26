/** Draws the two demo films and writes their truth: node scripts/makeDemoFilms.ts [a|b] */
import { existsSync, mkdirSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runA, runB } from './simulator/demoRuns.ts';
import { decodedFrames, makeFilm } from './simulator/film/encode.ts';
import { cameraOf, standFilm } from './simulator/film/order.ts';
import { steadyFrames } from './simulator/frameTimes.ts';
import { demoCourse } from './simulator/ground/demoCourse.ts';
import type { RunOrder } from './simulator/run/run.ts';
import { simulateRun } from './simulator/run/run.ts';
import { inRealTime } from './simulator/simulate.ts';
import { counterfactual } from './simulator/truth/counterfactual.ts';
import { courseTruth } from './simulator/truth/courseTruth.ts';
import { truthOf } from './simulator/truth/truth.ts';

const folder = join(fileURLToPath(new URL('..', import.meta.url)), 'fixtures', 'demo');
const mostBytes = 8_000_000;
/** First cue this long before take-off counts as shown in time when the story is told the other way. */
const onTime = 0.95;

function save(name: string, document: object): void {
  const part = join(folder, `.${name}.part`);
  writeFileSync(part, `${JSON.stringify(document)}\n`);
  renameSync(part, join(folder, name));
}

async function film(key: 'a' | 'b', name: string, order: RunOrder, rate: number): Promise<void> {
  const run = simulateRun(order);
  const exposures = inRealTime(steadyFrames(rate, run.duration), 0);
  const file = join(folder, `run-${key}.mp4`);
  const looks = { ...standFilm, keyEvery: 2 * rate };
  const speed = await makeFilm(
    order,
    looks,
    exposures,
    file,
    Math.min(2, availableParallelism()),
    (share) => {
      process.stdout.write(`run-${key}: ${Math.round(share * 100)} %\n`);
    },
  );
  process.stdout.write(`run-${key}: ${speed.toFixed(1)} frames a second\n`);
  const seen = decodedFrames(file);
  if (JSON.stringify(seen) !== JSON.stringify(exposures.frames)) {
    throw new Error(`The frames of run-${key}.mp4 are not the frames that were drawn.`);
  }
  const header = { name, dog: 'Bramble', handler: 'Ines', film: `run-${key}.mp4` };
  const others = run.crosses.filter((c) => c.act.kind === 'front');
  const counterfactuals = others.map((c) => counterfactual(order, run, c.act.place, onTime));
  save(
    `run-${key}.truth.json`,
    truthOf(run, exposures, cameraOf(looks, run), header, { perFrame: true, counterfactuals }),
  );
}

mkdirSync(folder, { recursive: true });
save('course.truth.json', courseTruth(demoCourse));
const which = process.argv[2] ?? 'ab';
if (which.includes('a')) await film('a', 'Bramble, first evening', runA, 30);
if (which.includes('b')) await film('b', 'Bramble, a month later', runB, 60);
const files = ['run-a.mp4', 'run-b.mp4'].map((name) => join(folder, name)).filter((file) => existsSync(file));
const bytes = files.reduce((total, file) => total + statSync(file).size, 0);
process.stdout.write(`${(bytes / 1e6).toFixed(2)} MB\n`);
if (bytes > mostBytes) throw new Error('The films are larger than 8 MB together.');
