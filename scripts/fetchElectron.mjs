// Started by electronProgram.mjs on Node 24: downloads Electron's program and puts it in its place. Tells of each
// step over IPC: {bytes: true} when bytes have come, {reason} where it failed.
import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { promisify } from 'node:util';

const electron = join(import.meta.dirname, '..', 'node_modules', 'electron');
const needs = createRequire(join(electron, 'install.js'));
const { downloadArtifact } = needs('@electron/get');
const json = (name) => JSON.parse(readFileSync(join(electron, name), 'utf8'));

let told = -1;
let came = 0;

process.on('disconnect', () => process.exit(1));

try {
  await downloadArtifact({
    version: json('package.json').version,
    artifactName: 'electron',
    platform: process.platform,
    arch: process.arch,
    checksums: json('checksums.json'),
    downloadOptions: {
      quiet: true,
      getProgressCallback: async ({ percent, transferred }) => {
        if (transferred > came) process.send?.({ bytes: true });
        came = transferred;
        const tenth = Math.floor((percent ?? 0) * 10);
        if (tenth > told && transferred > 0) console.log(`  ${tenth * 10} %`);
        told = Math.max(told, tenth);
      },
    },
  });
  // Checked and in its cache; Electron's own installer takes it from there and unpacks it.
  process.send?.({ bytes: true });
  const unpacking = setInterval(() => process.send?.({ bytes: true }), 1000);
  await promisify(execFile)(process.execPath, [join(electron, 'install.js')]);
  clearInterval(unpacking);
  process.exit(0);
} catch (error) {
  const why = String(error?.cause?.code ?? error?.message ?? error).split('\n')[0];
  process.send?.({ reason: `Electron’s program could not be downloaded (${why})` }, () => process.exit(1));
}
