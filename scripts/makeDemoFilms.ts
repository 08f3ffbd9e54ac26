/** Draws the two demo films and writes their truth: node scripts/makeDemoFilms.ts [--stills-only] */
import { mkdirSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { standCamera } from './simulator/camera/camera.ts';
import { runA, runB } from './simulator/demoRuns.ts';
import { decodedFrames, makeFilm } from './simulator/film/encode.ts';
import type { Rate } from './simulator/frameTimes.ts';
import { steadyFrames } from './simulator/frameTimes.ts';
import { demoCourse } from './simulator/ground/demoCourse.ts';
import type { RunOrder } from './simulator/run/run.ts';
import { simulateRun } from './simulator/run/run.ts';
import { courseTruth, truthOf } from './simulator/truth.ts';

const folder = join(fileURLToPath(new URL('..', import.meta.url)), 'fixtures', 'demo');
const mostBytes = 8_000_000;

function save(name: string, document: object): void {
  const part = join(folder, `.${name}.part`);
  writeFileSync(part, `${JSON.stringify(document)}\n`);
  renameSync(part, join(folder, name));
}

async function film(key: 'a' | 'b', name: string, order: RunOrder, rate: Rate): Promise<number> {
  const run = simulateRun(order);
  const frames = steadyFrames(rate, run.duration);
  const file = join(folder, `run-${key}.mp4`);
  await makeFilm(run, standCamera, frames, rate, 25, file, (share) => {
    process.stdout.write(`run-${key}: ${Math.round(share * 100)} %\n`);
  });
  const seen = decodedFrames(file);
  if (JSON.stringify(seen) !== JSON.stringify(frames)) {
    throw new Error(`The frames of run-${key}.mp4 are not the frames that were drawn.`);
  }
  const header = { name, dog: 'Bramble', handler: 'Ines', film: `run-${key}.mp4` };
  save(`run-${key}.truth.json`, truthOf(run, frames, 0, standCamera, header));
  return statSync(file).size;
}

mkdirSync(folder, { recursive: true });
save('course.truth.json', courseTruth(demoCourse));
const which = process.argv[2] ?? 'ab';
let bytes = 0;
if (which.includes('a')) bytes += await film('a', 'Bramble, first evening', runA, 30);
if (which.includes('b')) bytes += await film('b', 'Bramble, a month later', runB, 60);
process.stdout.write(`${(bytes / 1e6).toFixed(2)} MB\n`);
if (bytes > mostBytes) throw new Error('The films are larger than 8 MB together.');
