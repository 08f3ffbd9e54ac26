import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import packageFile from '../../../package.json' with { type: 'json' };
import { sample } from '../report/sample.ts';
import { cli, demo, folder, shell } from './cli.ts';

const first = join(demo, 'first-evening.walkback.json');

describe('help and usage', () => {
  test('--version and --help end with 0', async () => {
    const version = await shell('"$@"', ['--version']);
    expect(version).toEqual({ code: 0, out: `${packageFile.version}\n`, err: '' });
    const help = await shell('"$@"', ['--help']);
    expect(help.code).toBe(0);
    for (const name of ['demo', 'frames', 'analyse', 'report', 'import', 'list', 'rules', 'schema'])
      expect(help.out).toMatch(new RegExp(`^  ${name} `, 'm'));
    expect((await cli('report', '--help')).code).toBe(0);
  });

  test.each([
    [[]],
    [['nonsense']],
    [['analyse']],
    [['analyse', 'a', 'b']],
    [['report', 'x.json']],
    [['frames', '--yaml', 'x.mp4']],
    [['demo']],
    [['import']],
  ])('%j is a matter of usage: 2, said on the error stream', async (args) => {
    const ran = await shell('"$@"', args);
    expect(ran.code).toBe(2);
    expect(ran.out).toBe('');
    expect(ran.err.trim()).not.toBe('');
    expect(ran.err).not.toMatch(/\n\s+at /);
  });
});

describe('analyse', () => {
  test('--json names its format and gives every figure as value, plus or minus, unit', async () => {
    const { code, out, err } = await cli('analyse', first, '--json');
    expect([code, err]).toEqual([0, '']);
    const told = JSON.parse(out) as Record<string, never>;
    expect(told).toMatchObject({ format: 'walkback.analysis', version: 1, countedTry: 2, tries: [1, 2] });
    expect(Object.keys(told)).toEqual(
      expect.arrayContaining(['splits', 'crosses', 'events', 'startLine', 'clock', 'warnings', 'taken']),
    );
    const figures: object[] = [];
    const strays: string[] = [];
    // Identities and places are plain numbers; all else that is a number belongs to a figure.
    const plain = /^(version|obstacles|countedTry|tries\.\d+|.*\.(try|place|from|to|pts|frame))$/;
    const walk = (value: unknown, path: string): void => {
      if (typeof value === 'number' && !plain.test(path)) strays.push(path);
      if (typeof value !== 'object' || value === null) return;
      if ('plusMinus' in value) figures.push(value);
      else
        for (const [key, inner] of Object.entries(value)) walk(inner, path === '' ? key : `${path}.${key}`);
    };
    walk(told, '');
    expect(strays.filter((s) => s !== 'review.obstacles')).toEqual([]);
    expect(figures.length).toBeGreaterThan(100);
    for (const f of figures) {
      expect(Object.keys(f).sort()).toEqual(['plusMinus', 'unit', 'value']);
      expect(JSON.stringify(f)).not.toContain('null');
    }
  });

  test('without --json is text that reads the same figures', async () => {
    const { code, out } = await cli('analyse', first);
    expect(code).toBe(0);
    expect(out).toMatch(/^First evening: a cue too late\nInes and Bramble · 18 April 2026 · Training run\n/);
    expect(out).toContain('41.67 s ± 0.04 from the first take-off to the last landing');
    expect(out).toMatch(/^ {3}7 {2}weave poles, the poles +8\.40 s ± 0\.04 +18\.20 s ± 0\.04$/m);
    expect(out).toContain('Try 1: broke the stay.');
    expect(out).toContain('the judge’s call stands');
  });

  test('a review with nothing marked, and one with no course, are read all the same', async () => {
    expect((await cli('analyse', join(demo, 'mark-it-yourself.walkback.json'))).code).toBe(0);
    const path = join(await folder(), 'bare.json');
    await writeFile(
      path,
      JSON.stringify({ format: 'walkback.review', version: 1, id: 'r', header: { title: 'Bare' } }),
    );
    const ran = await cli('analyse', path);
    expect(ran.code).toBe(0);
    expect(ran.out).toContain('No split can be given yet');
    const told = JSON.parse((await cli('analyse', path, '--json')).out) as object;
    expect(told).toMatchObject({ clock: null, splits: [], crosses: [] });
  });

  test('what could act on a terminal does not reach it', async () => {
    const path = join(await folder(), 'r.json');
    const { document } = sample();
    const title = 'a\u001b[2Jb\u009bc\u202Ed';
    await writeFile(path, JSON.stringify({ ...document, header: { ...document.header, title } }));
    const ran = await shell('"$@"', ['analyse', path]);
    expect(ran.out).toContain('a\uFFFD[2Jb\uFFFDc\uFFFDd');
    const json = await shell('"$@"', ['analyse', path, '--json']);
    for (const acts of ['\u001b', '\u009b']) expect(json.out).not.toContain(acts);
    expect((JSON.parse(json.out) as { review: { title: string } }).review.title).toBe(title);
  });
});

describe('schema', () => {
  // Independent of the library that wrote it: Ajv, JSON Schema draft 2020-12.
  const compiled = async () => {
    const { code, out } = await cli('schema');
    expect(code).toBe(0);
    const schema = JSON.parse(out) as Record<string, unknown>;
    expect(schema).toMatchObject({ $id: expect.any(String) as string, title: expect.any(String) as string });
    return new Ajv2020({ strict: false, validateFormats: false }).compile(schema);
  };

  test('takes the demo’s review files and the sample', async () => {
    const fits = await compiled();
    for (const name of ['a-course-to-plan', 'first-evening', 'a-month-later', 'mark-it-yourself']) {
      const text = await readFile(join(demo, `${name}.walkback.json`), 'utf8');
      expect(fits(JSON.parse(text)), `${name}: ${JSON.stringify(fits.errors)}`).toBe(true);
    }
    expect(fits(JSON.parse(JSON.stringify(sample().document)))).toBe(true);
  });

  test('refuses what is not one', async () => {
    const fits = await compiled();
    const good = JSON.parse(JSON.stringify(sample().document)) as Record<string, unknown>;
    for (const change of [
      { format: 'walkback.plan' },
      { version: 99 },
      { header: {} },
      { marks: [{ kind: 'jump' }] },
      { extra: 1 },
    ]) {
      expect(fits({ ...good, ...change }), JSON.stringify(change)).toBe(false);
    }
  });
});

describe('a reader that goes away', () => {
  test('ends the program quietly', async () => {
    const ran = await shell('set -o pipefail; "$@" | head -c 10 >/dev/null', ['schema']);
    expect(ran.err).toBe('');
    const long = await shell('"$@" | true; echo "${PIPESTATUS[0]}"', ['analyse', first, '--json']);
    expect(long).toEqual({ code: 0, out: '0\n', err: '' });
  });
});
