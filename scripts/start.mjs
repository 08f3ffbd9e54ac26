// npm start: installs and builds what is missing, then opens the desktop window, or serves the same window on
// loopback where that cannot be. Runs on Node 20 with nothing installed; everything after that runs on Node 24.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { build } from './building.mjs';
import { electronProgram, fetchElectron, hindranceHere } from './electronProgram.mjs';
import { installPackages, node24, root } from './packages.mjs';

const args = process.argv.slice(2);
const has = (...names) => args.some((arg) => names.includes(arg.split('=')[0]));
/** What is said by Electron's main process once its window is there. */
const windowIsOpen = 'Walkback’s window is open.';

/**
 * Runs a child until it ends, and ends it when this program is told to end, or dies.
 * `onLine` hears what it writes, line by line; it is passed on all the same.
 */
function accompany(program, programArgs, { onLine, ipc, env = {} } = {}) {
  return new Promise((resolve) => {
    const child = spawn(program, programArgs, {
      cwd: process.cwd(),
      stdio: ['inherit', onLine ? 'pipe' : 'inherit', 'inherit', ...(ipc ? ['ipc'] : [])],
      env: { ...process.env, ...env },
    });
    child.stdout?.on('data', (chunk) => {
      process.stdout.write(chunk);
      for (const line of String(chunk).split('\n')) onLine?.(line);
    });
    // The terminal tells the whole group of Ctrl+C already; a signal to this program alone is passed on.
    const pass = (signal) => child.kill(signal);
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, pass);
    // npm hands a signal to the shell between it and this program, and the shell dies without a word: so watch it.
    const parent = process.ppid;
    const watch = setInterval(() => process.ppid !== parent && pass('SIGTERM'), 500);
    child.on('error', (error) => {
      console.error(error.message);
      resolve(1);
    });
    child.on('close', (code) => {
      clearInterval(watch);
      for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.off(signal, pass);
      resolve(code ?? 1);
    });
  });
}

const local = () => accompany(node24(), [join(root, 'app', 'local', 'main.ts'), ...args], { ipc: true });

/** Why the desktop window is not to be had; null once it was open and has been closed. */
async function desktop({ insist }) {
  const hindrance = hindranceHere() ?? (await fetchElectron({ insist }));
  if (hindrance) return { reason: hindrance };
  let opened = false;
  const code = await accompany(electronProgram(), [root, ...args.filter((arg) => arg !== '--desktop')], {
    onLine: (line) => {
      if (line.includes(windowIsOpen)) opened = true;
    },
    // A run inside another Electron program hands this down, and Electron would start as plain Node.
    env: { ELECTRON_RUN_AS_NODE: undefined },
  });
  if (opened || code === 0) return { code };
  return { reason: `Electron ended at once (exit code ${code}); its words above say why` };
}

async function main() {
  if (!(await installPackages())) return 1;
  if (has('--help', '-h')) return local();
  if (!(await build())) return 1;
  if (has('--desktop')) {
    const { code, reason } = await desktop({ insist: true });
    if (code !== undefined) return code;
    console.error(`The desktop window cannot be opened: ${reason}.`);
    return 1;
  }
  // These speak of the loopback server, so it is what is wanted.
  if (has('--local', '--no-open', '--port', '--allow')) return local();
  const { code, reason } = await desktop({ insist: false });
  if (code !== undefined) return code;
  console.log(
    `The desktop window cannot be opened: ${reason}. Serving the same window to your browser instead.`,
  );
  return local();
}

process.exitCode = await main();
