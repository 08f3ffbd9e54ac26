/** Prints a hash of drawn runs and crosses: the same on every engine, or the runs are not the same. */
import { createHash } from 'node:crypto';
import { pawContacts } from '../../../scripts/simulator/actors/footfalls.ts';
import { playCrosses } from '../../../scripts/simulator/crosses.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { simulate } from '../../../scripts/simulator/simulate.ts';
import { steadyFrames, unsteadyFrames } from '../../../scripts/simulator/frameTimes.ts';
import { runB } from '../../../scripts/simulator/demoRuns.ts';
import { drawnOrder } from './runs.ts';

const hash = createHash('sha256');
for (let seed = 0; seed < 6; seed++) {
  const run = simulateRun(drawnOrder(seed));
  for (const way of [run.dog, run.handler]) {
    for (const values of Object.values(way) as Float64Array[]) {
      hash.update(new Uint8Array(values.buffer, values.byteOffset, values.byteLength));
    }
  }
  hash.update(JSON.stringify([run.notices, run.crosses, run.happened, run.tries, pawContacts(run)]));
}
hash.update(JSON.stringify(playCrosses(3, 40)));
for (const frameTimes of [steadyFrames(60, 60), unsteadyFrames(4, 30, 60)]) {
  hash.update(
    JSON.stringify(simulate({ seed: 5, handling: runB.handling, frameTimes, perFrame: true }).truth),
  );
}
process.stdout.write(`${process.version} ${hash.digest('hex')}\n`);
