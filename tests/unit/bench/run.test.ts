import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runBench } from '../../bench/run.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'walkback-bench-'));
  const bench = (holds: boolean): string =>
    `export const bench = async () => [
      { figure: 'a', asked: 'at most 2', measured: '1', holds: true },
      { figure: 'longer', asked: '3', measured: '4', holds: ${holds} },
    ];`;
  await writeFile(join(folder, 'good.ts'), bench(true));
  await writeFile(join(folder, 'short.ts'), bench(false));
  await writeFile(join(folder, 'none.ts'), 'export const bench = async () => [];');
  await writeFile(join(folder, 'odd.ts'), 'export const other = 1;');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function run(...args: string[]) {
  const lines: string[] = [];
  const code = await runBench(args, folder, (line) => lines.push(line));
  return { code, lines };
}

describe('the bench runner', () => {
  test('prints a table whose columns line up, and ends with 0 where all hold', async () => {
    expect(await run('good')).toEqual({
      code: 0,
      lines: [
        'figure  asked      measured',
        'a       at most 2  1         holds',
        'longer  3          4         holds',
      ],
    });
  });

  test('ends with 1 where one falls short, or nothing was measured', async () => {
    const { code, lines } = await run('short');
    expect(code).toBe(1);
    expect(lines.at(-1)).toMatch(/falls short$/);
    expect((await run('none')).code).toBe(1);
    await expect(run('odd')).rejects.toThrow(/exports no bench/);
  });

  test('ends with 2 and names the benches where the name is unknown, missing, or one too many', async () => {
    for (const args of [['nope'], [], ['good', 'short'], ['../run']]) {
      const { code, lines } = await run(...args);
      expect(code).toBe(2);
      expect(lines.at(-1)).toBe('Benches: good, none, odd, short');
    }
  });
});
