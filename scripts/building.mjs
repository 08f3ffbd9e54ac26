// Runs on Node 20 with nothing installed.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { node24, root, run } from './packages.mjs';

const product = join(root, '.build');
const stamp = join(product, 'made-of');

/** All that the build depends on. */
const inputs = ['app', 'src', 'electron.vite.config.ts', 'package-lock.json', 'scripts/notices.mjs'];
const products = ['window/index.html', 'node/desktop.js', 'node/host.js', 'preload/desktop.cjs'];

function files(path) {
  if (statSync(path).isFile()) return [path];
  return readdirSync(path, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? files(join(path, entry.name)) : entry.isFile() ? [join(path, entry.name)] : [],
  );
}

/** One hash over every input, names and contents. */
function inputsHash() {
  const hash = createHash('sha256');
  for (const path of inputs.flatMap((name) => files(join(root, name))).sort()) {
    hash.update(`${relative(root, path).split(sep).join('/')}\0`);
    hash.update(createHash('sha256').update(readFileSync(path)).digest());
  }
  return hash.digest('hex');
}

function isBuilt(hash) {
  return (
    products.every((name) => existsSync(join(product, name))) &&
    existsSync(stamp) &&
    readFileSync(stamp, 'utf8') === hash
  );
}

/**
 * Builds desktop, host and window into .build where their sources have changed since the last time.
 * Resolves to false, having said why, where that was not possible.
 */
export async function build({ always = false } = {}) {
  const hash = inputsHash();
  if (!always && isBuilt(hash)) return true;
  const node = node24();
  if (!node) {
    console.error('The packages are not installed. Run: npm ci');
    return false;
  }
  console.log('Building the window …');
  const began = Date.now();
  rmSync(stamp, { force: true });
  const bundler = join(root, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js');
  const built = await run(node, [bundler, 'build', '--logLevel', 'warn'], {
    env: { NODE_ENV: 'production' },
  });
  const noticed =
    built === 0 && (await run(node, [join(root, 'scripts', 'notices.mjs'), '--out', product])) === 0;
  if (!noticed) {
    console.error('The window could not be built; the words above say why.');
    return false;
  }
  // The inputs as they were before: what changed meanwhile is built the next time.
  writeFileSync(stamp, hash);
  console.log(`Built (${((Date.now() - began) / 1000).toFixed(1)} s).`);
  return true;
}
