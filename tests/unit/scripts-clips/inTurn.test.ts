import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { inTurn } from '../../../scripts/clips/inTurn.ts';

let folder: string;
let lock: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'walkback-turn-'));
  lock = join(folder, 'making');
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('work that is done in turn', () => {
  it('never goes on twice at once, and gives each its own result', async () => {
    let under = 0;
    let most = 0;
    const work = async (n: number): Promise<number> => {
      most = Math.max(most, ++under);
      await wait(20);
      under--;
      return n;
    };
    const results = await Promise.all([1, 2, 3].map((n) => inTurn(lock, () => work(n))));
    expect(results).toEqual([1, 2, 3]);
    expect(most).toBe(1);
    expect(existsSync(lock)).toBe(false);
  });

  it('lets the next one in where it fails', async () => {
    await expect(inTurn(lock, () => Promise.reject(new Error('no room')))).rejects.toThrow('no room');
    expect(await inTurn(lock, () => Promise.resolve('done'))).toBe('done');
  });

  it('is taken over from a process that ended in the middle of it', async () => {
    const { pid } = spawnSync(process.execPath, ['--version']);
    writeFileSync(lock, String(pid));
    expect(await inTurn(lock, () => Promise.resolve('done'))).toBe('done');
    expect(existsSync(lock)).toBe(false);
  });

  it('says what is wrong where the lock cannot be written', async () => {
    await expect(inTurn(join(folder, 'none', 'making'), () => Promise.resolve())).rejects.toThrow(/ENOENT/);
  });
});
