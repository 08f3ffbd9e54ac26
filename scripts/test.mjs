// npm test: installs and builds what is missing, makes sure of Chromium and ffmpeg, runs every test, and ends with
// the line 'N passed, N failed'. Arguments are handed to vitest. Runs on Node 20 with nothing installed.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { build } from './building.mjs';
import { installPackages, node24, root, run } from './packages.mjs';
import { findOnPath, makeSureOf } from './systemPackages.mjs';

const results = join(root, '.cache', 'test-results.json');

const chromiumPlaces = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

function chromium() {
  const named = process.env.WALKBACK_CHROMIUM;
  if (named) return existsSync(named) ? named : null;
  return chromiumPlaces.find((path) => existsSync(path)) ?? findOnPath('chromium');
}

/** The line that tells the outcome, whether it is a good one, and what needed a second go, from vitest's own account. */
function outcome() {
  if (!existsSync(results)) return { line: '0 passed, 1 failed', good: false, second: [] };
  const account = JSON.parse(readFileSync(results, 'utf8'));
  // A file that could not even be read has no test of its own to fail; it counts as one.
  const broken = account.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  ).length;
  const second = account.testResults.flatMap((file) =>
    file.assertionResults
      .filter((test) => test.status === 'passed' && test.failureMessages.length > 0)
      .map((test) => ({
        name: `${relative(root, file.name)} > ${test.fullName}`,
        why: test.failureMessages[0],
      })),
  );
  // Only a window can be late: anything else that fails once has failed.
  const once = second.filter(({ name }) => !name.startsWith(join('tests', 'e2e')));
  const passed = account.numPassedTests - once.length;
  const failed = account.numFailedTests + broken + once.length;
  const skipped = account.numPendingTests + account.numTodoTests;
  return {
    line: `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`,
    good: passed > 0 && failed === 0 && account.success,
    second,
  };
}

async function main() {
  if (!(await installPackages()) || !(await build())) return false;
  const browser = await makeSureOf({ what: 'Chromium', find: chromium, debian: 'chromium' });
  // The tests make clips in formats that only a full ffmpeg can write (HEVC, AV1); the program itself needs none.
  const encoder = await makeSureOf({ what: 'ffmpeg', find: () => findOnPath('ffmpeg'), debian: 'ffmpeg' });
  if (!browser || !encoder) return false;
  mkdirSync(join(root, '.cache'), { recursive: true });
  rmSync(results, { force: true });
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const code = await run(
    node24(),
    [
      ...[vitest, 'run', '--config', '.config/vitest.config.ts', '--reporter=default', '--reporter=json'],
      ...[`--outputFile.json=${results}`, ...process.argv.slice(2)],
    ],
    { env: { WALKBACK_CHROMIUM: browser } },
  );
  const { line, good, second } = outcome();
  for (const { name, why } of second) console.log(`\nNeeded a second go: ${name}\n${why}`);
  console.log(`\n${line}`);
  return code === 0 && good;
}

process.exitCode = (await main()) ? 0 : 1;
