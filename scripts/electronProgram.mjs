// Electron's own program: where it is, whether it can be used here, and how it is fetched. Runs on Node 20.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { node24, root } from './packages.mjs';

const electron = join(root, 'node_modules', 'electron');
const memory = join(root, '.cache', 'electron.json');
const aDay = 24 * 60 * 60 * 1000;

/** Path of Electron's program; null where it has not been fetched. */
export function electronProgram() {
  try {
    const program = join(electron, 'dist', readFileSync(join(electron, 'path.txt'), 'utf8'));
    return existsSync(program) ? program : null;
  } catch {
    return null;
  }
}

/** Why no desktop window can be opened on this machine, whatever is fetched; null where it can. */
export function desktopHindrance({ platform, env, root: isRoot }) {
  if (platform !== 'linux') return null;
  if (!env.DISPLAY && !env.WAYLAND_DISPLAY) return 'there is no display';
  if (isRoot) return 'it does not run as root, where its sandbox cannot work';
  return null;
}

/** What hinders on this machine. */
export const hindranceHere = () =>
  desktopHindrance({ platform: process.platform, env: process.env, root: process.getuid?.() === 0 });

/**
 * Fetches Electron's program, with progress. Gives up after `patience` milliseconds without a byte, and remembers
 * that for a day. Resolves to null where the program is there, else to the reason.
 */
export async function fetchElectron({ insist = false, patience = 10_000 } = {}) {
  if (electronProgram()) return null;
  const failure = remembered();
  if (failure && !insist) return `${failure} (tried within the last day; --desktop tries again)`;
  console.log('Getting Electron’s program for the desktop window (about 120 MB, once) …');
  const why = await fetchIt(patience);
  if (why === null && electronProgram()) {
    rmSync(memory, { force: true });
    return null;
  }
  const reason = why ?? 'Electron’s program is not where it was put';
  mkdirSync(join(root, '.cache'), { recursive: true });
  writeFileSync(memory, JSON.stringify({ version: version(), failedAt: Date.now(), reason }));
  return reason;
}

function version() {
  return JSON.parse(readFileSync(join(electron, 'package.json'), 'utf8')).version;
}

function remembered() {
  try {
    const { version: of, failedAt, reason } = JSON.parse(readFileSync(memory, 'utf8'));
    const age = Date.now() - failedAt;
    return of === version() && age >= 0 && age < aDay ? String(reason) : null;
  } catch {
    return null;
  }
}

/** Runs the fetching in a process of its own, so that nothing of it can hold up the start. */
function fetchIt(patience) {
  return new Promise((resolve) => {
    const child = spawn(node24(), [join(root, 'scripts', 'fetchElectron.mjs')], {
      cwd: root,
      stdio: ['ignore', 'inherit', 'ignore', 'ipc'],
    });
    let timer;
    const wait = () => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        child.kill('SIGKILL');
        done(`no byte of Electron’s program came within ${patience / 1000} s`);
      }, patience);
    };
    const done = (reason) => {
      clearTimeout(timer);
      resolve(reason);
    };
    const stop = (signal) => child.kill(signal);
    process.once('SIGINT', stop);
    wait();
    child.on('message', (message) => {
      if (message.bytes) wait();
      if (message.reason) done(message.reason);
    });
    child.on('close', (code) => {
      process.off('SIGINT', stop);
      done(code === 0 ? null : 'Electron’s program could not be downloaded');
    });
  });
}
