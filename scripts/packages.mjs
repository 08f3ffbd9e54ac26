// Runs on Node 20 with nothing installed.
import { spawn } from 'node:child_process';
import { existsSync, lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const root = join(import.meta.dirname, '..');

/** The Node 24 that comes with the packages, which runs everything after the installation. */
export function node24() {
  const program = join(
    root,
    'node_modules',
    'node',
    'bin',
    process.platform === 'win32' ? 'node.exe' : 'node',
  );
  return existsSync(program) ? program : null;
}

/** Whether node_modules holds what package-lock.json asks for. Packages for other systems are left out. */
export function packagesAreThere() {
  const wanted = lock(join(root, 'package-lock.json'));
  const installed = lock(join(root, 'node_modules', '.package-lock.json'));
  if (!wanted || !installed || !node24()) return false;
  return Object.entries(wanted).every(
    ([path, { version, optional }]) => path === '' || optional || installed[path]?.version === version,
  );
}

function lock(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8')).packages;
  } catch {
    return null;
  }
}

/**
 * Installs the packages where they are missing or not the ones of package-lock.json.
 * Resolves to false, having said why, where that was not possible.
 */
export async function installPackages() {
  if (packagesAreThere()) return true;
  if (lstatSync(join(root, 'node_modules'), { throwIfNoEntry: false })?.isSymbolicLink()) {
    // npm ci would empty the folder that the link leads to, which belongs to another tree.
    console.error('node_modules is a link, and what it leads to is not what package-lock.json asks for.');
    console.error('Remove the link, then start the same command again.');
    return false;
  }
  console.log('Getting the packages (about 300 MB on the disk, once) …');
  const began = Date.now();
  const progress = setInterval(() => {
    const seconds = Math.round((Date.now() - began) / 1000);
    console.log(`  ${seconds} s, ${count(join(root, 'node_modules'))} packages`);
  }, 5000);
  const { code, said } = await installed();
  clearInterval(progress);
  if (code === 0 && packagesAreThere()) {
    console.log(`The packages are there (${Math.round((Date.now() - began) / 1000)} s).`);
    return true;
  }
  if (/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|ERR_SOCKET/.test(said))
    console.error('The packages could not be downloaded: the network, or npm’s registry, cannot be reached.');
  else console.error('The packages could not be installed; npm’s words above say why.');
  console.error('Once that is mended, start the same command again.');
  return false;
}

/**
 * npm ci, with the install scripts of those packages alone that ask for one. Of better-sqlite3, which brings its programs
 * along, npm would run a build of its own accord (its lock file does not keep “gypfile: false”), and that wants a
 * compiler, Python and the network.
 */
async function installed() {
  const quiet = ['--no-audit', '--no-fund', '--loglevel=error'];
  const unpacked = await npm(['ci', '--ignore-scripts', ...quiet]);
  if (unpacked.code !== 0) return unpacked;
  // The lock file of the project marks those that ask; the one npm leaves in node_modules marks the builds, too.
  const wanting = Object.entries(lock(join(root, 'package-lock.json')) ?? {}).filter(
    ([path, { hasInstallScript }]) => hasInstallScript && existsSync(join(root, path)),
  );
  const names = wanting.map(([path]) => path.replace(/^.*node_modules\//, ''));
  return names.length === 0 ? unpacked : npm(['rebuild', ...names, ...quiet]);
}

function count(folder) {
  try {
    const names = readdirSync(folder).filter((name) => !name.startsWith('.'));
    return names.reduce(
      (sum, name) => sum + (name.startsWith('@') ? readdirSync(join(folder, name)).length : 1),
      0,
    );
  } catch {
    return 0;
  }
}

/** Runs npm, passing on what it says. */
function npm(args) {
  const inside = process.env.npm_execpath;
  const [program, first] = inside?.endsWith('.js') ? [process.execPath, [inside]] : ['npm', []];
  return new Promise((resolve) => {
    const child = spawn(program, [...first, ...args], {
      cwd: root,
      stdio: ['ignore', 'inherit', 'pipe'],
      shell: process.platform === 'win32' && program === 'npm',
    });
    let said = '';
    child.stderr.on('data', (chunk) => {
      said += chunk;
      process.stderr.write(chunk);
    });
    child.on('error', (error) => resolve({ code: 1, said: String(error) }));
    child.on('close', (code) => resolve({ code: code ?? 1, said }));
  });
}

/**
 * Runs a program to its end; resolves to its exit code. It is ended with us, whatever ends us.
 * @param {readonly string[]} args
 */
export function run(program, args, { env = {}, stdio = 'inherit' } = {}) {
  return new Promise((resolve) => {
    const child = spawn(program, args, { cwd: root, stdio, env: { ...process.env, ...env } });
    const pass = (signal) => child.kill(signal);
    process.on('SIGINT', pass);
    process.on('SIGTERM', pass);
    const done = (code) => {
      process.off('SIGINT', pass);
      process.off('SIGTERM', pass);
      resolve(code);
    };
    child.on('error', (error) => {
      console.error(`${program}: ${error.message}`);
      done(1);
    });
    child.on('close', (code, signal) => done(code ?? (signal === 'SIGINT' ? 130 : 1)));
  });
}
