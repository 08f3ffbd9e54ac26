import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { build } from 'vite';

const entry = fileURLToPath(new URL('./fingerprint.ts', import.meta.url));
let folder = '';

/** Every Node program on the path or in its usual place, each once. */
function nodes(): string[] {
  const places = [process.execPath, '/usr/bin/node', '/usr/local/bin/node'];
  for (const part of (process.env['PATH'] ?? '').split(delimiter)) places.push(join(part, 'node'));
  return [...new Set(places.filter((p) => existsSync(p)).map((p) => realpathSync(p)))];
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fingerprint-'));
  await build({
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: entry,
      outDir: folder,
      target: 'node20',
      rolldownOptions: { output: { entryFileNames: 'run.mjs' } },
    },
  });
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

it('the same seeds give the same bits on every Node here, and again on the same one', () => {
  const told = nodes().map((node) =>
    execFileSync(node, [join(folder, 'run.mjs')], { encoding: 'utf8' }).trim(),
  );
  told.push(execFileSync(process.execPath, [join(folder, 'run.mjs')], { encoding: 'utf8' }).trim());
  process.stdout.write(`${told.map((line) => line.slice(0, 24)).join('\n')}\n`);
  const hashes = told.map((line) => line.split(' ')[1]);
  expect(hashes.every((h) => h?.length === 64)).toBe(true);
  expect(new Set(hashes).size).toBe(1);
});
