import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright';
import { inTurn } from '../../scripts/clips/inTurn.ts';

const root = resolve(import.meta.dirname, '../..');
const node = process.execPath;

/** Builds the window where its sources have changed; what stands in `.build` is what the shell serves. */
export async function buildWindow(): Promise<void> {
  const script = `const { build } = await import(${JSON.stringify(join(root, 'scripts/building.mjs'))});
    process.exitCode = (await build()) ? 0 : 1;`;
  const cache = join(root, '.cache');
  mkdirSync(cache, { recursive: true });
  await inTurn(join(cache, 'window.making'), () =>
    finished(spawn(node, ['--input-type=module', '-e', script], { cwd: root, stdio: 'ignore' })),
  );
}

/** Runs the command line to its end. Rejects where it exits with anything but 0. */
export function commandLine(...args: readonly string[]): Promise<void> {
  return finished(spawn(node, [join(root, 'app/cli/main.ts'), ...args], { cwd: root, stdio: 'ignore' }));
}

function finished(child: ChildProcess): Promise<void> {
  return new Promise((done, fail) => {
    child.once('error', fail);
    child.once('exit', (code) => {
      if (code === 0) done();
      else fail(new Error(`it ended with ${code}`));
    });
  });
}

/** The loopback shell as `npm start -- --no-open` runs it. */
export interface RunningShell {
  readonly address: string;
  stop(): Promise<void>;
}

/** Starts the shell and waits for the address it prints. */
export function startShell(...options: readonly string[]): Promise<RunningShell> {
  const child = spawn(node, [join(root, 'app/local/main.ts'), '--no-open', ...options], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const ended = new Promise<void>((done) => {
    child.once('exit', () => {
      done();
    });
  });
  return new Promise((started, fail) => {
    let said = '';
    const listen = (bytes: Buffer): void => {
      said += bytes.toString();
      const address = /http:\/\/127\.0\.0\.1:\d+\/\S*token=[\w-]+/.exec(said)?.[0];
      if (address === undefined) return;
      started({
        address,
        stop() {
          child.kill('SIGTERM');
          return ended;
        },
      });
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
    void ended.then(() => {
      fail(new Error(`the shell ended before it was there: ${said}`));
    });
  });
}

/** Opens the window of a shell in a context of its own, on the Library or where a start leads. Uncaught errors of the page fail the caller's `errors`. */
export async function openWindow(
  browser: Browser,
  shell: RunningShell,
  start?: 'start',
): Promise<{ readonly page: Page; readonly errors: string[] }> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  // Choosing files is caught from the start: asked for later, a key pressed at once may be quicker.
  page.on('filechooser', () => undefined);
  await page.goto(start ? `${shell.address}&start=1` : shell.address);
  return { page, errors };
}

/** The review screen as the hands and the eye have it. */
export interface ReviewHands {
  readonly page: Page;
  /** Keys pressed so far. */
  readonly presses: () => number;
  press(...keys: readonly string[]): Promise<void>;
  /** The frame that the line of time says is shown. */
  frame(): Promise<number>;
  /** Waits until the run has played to a frame. */
  playedTo(frame: number): Promise<void>;
  /** Goes to a frame by tens and ones. */
  stepTo(frame: number): Promise<void>;
  /** The text of a page of the panel. */
  read(tab: string): Promise<string>;
  /** What undo would take back. */
  undoes(): Promise<string>;
  /** Waits until the host has everything. */
  kept(): Promise<void>;
}

/** Takes the review screen in hand, once its picture is there. */
export async function takeInHand(page: Page): Promise<ReviewHands> {
  const line = page.getByRole('slider', { name: 'Line of time' });
  await page.locator('[data-shown="true"]').waitFor({ state: 'attached', timeout: 60_000 });
  let count = 0;
  const press = async (...keys: readonly string[]): Promise<void> => {
    for (const key of keys) {
      count++;
      await page.keyboard.press(key);
    }
  };
  const frame = async (): Promise<number> => Number(await line.getAttribute('aria-valuenow'));
  return {
    page,
    presses: () => count,
    press,
    frame,
    async playedTo(wanted) {
      await page.waitForFunction(
        (n) => Number(document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow')) >= n,
        wanted,
        { timeout: 90_000, polling: 'raf' },
      );
    },
    async stepTo(wanted) {
      // A run that is just being stopped comes to rest a frame or two on: steps are counted from where it rests.
      await page.getByRole('button', { name: /^Play(\s|$)/ }).waitFor();
      for (let before = -1, now = await frame(); now !== before; now = await frame()) {
        before = now;
        await page.waitForTimeout(100);
      }
      let left = wanted - (await frame());
      for (; Math.abs(left) >= 10; left -= 10 * Math.sign(left)) await press(left > 0 ? '.' : ',');
      for (; left !== 0; left -= Math.sign(left)) await press(left > 0 ? 'ArrowRight' : 'ArrowLeft');
      await page.waitForFunction(
        (n) => Number(document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow')) === n,
        wanted,
      );
    },
    async read(tab) {
      await page.getByRole('tab', { name: tab }).click();
      return page.getByRole('tabpanel').innerText();
    },
    undoes: () => page.getByRole('button', { name: /^(Undo|Nothing to undo)/ }).innerText(),
    async kept() {
      await page.getByText('Saved', { exact: true }).waitFor();
    },
  };
}
