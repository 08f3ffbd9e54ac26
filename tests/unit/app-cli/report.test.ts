import { execFileSync } from 'node:child_process';
import { chmod, copyFile, mkdir, readdir, readFile, rename, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { figuresIn, valueAt } from '../report/figuresIn.ts';
import { sample } from '../report/sample.ts';
import { cli, demo, folder, shell } from './cli.ts';

const name = 'First-evening-a-cue-too-late-coaching-report.html';

async function demoIn(place: string): Promise<string> {
  const path = join(place, 'first-evening.walkback.json');
  await copyFile(join(demo, 'first-evening.walkback.json'), path);
  await copyFile(join(demo, 'run-a.mp4'), join(place, 'run-a.mp4'));
  return path;
}

const pictures = (html: string): number => html.match(/<img /g)?.length ?? 0;

describe('report', () => {
  test('is written whole, with the stills of the footage beside it, and every figure is that of analyse', async () => {
    const place = await folder();
    const path = await demoIn(place);
    const out = join(place, 'new', 'folder');
    const ran = await cli('report', path, '--out', out);
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toContain(join(out, name));
    expect(await readdir(out)).toEqual([name]);
    const html = await readFile(join(out, name), 'utf8');
    expect(pictures(html)).toBeGreaterThan(10);
    expect(html).not.toContain('could not be made');
    const told: unknown = JSON.parse((await cli('analyse', path, '--json')).out);
    const figures = figuresIn(html);
    expect(figures.length).toBeGreaterThan(80);
    for (const { path: at, value, plusMinus, unit } of figures)
      expect(valueAt(told, at), at).toEqual({ value, plusMinus, unit });
  });

  test('is a PDF, or both, where that is asked for; a second time it takes the same place', async () => {
    const place = await folder();
    const path = await demoIn(place);
    const out = join(place, 'out');
    const pdf = name.replace(/html$/, 'pdf');
    expect(await cli('report', path, '--out', out, '--to', 'pdf')).toMatchObject({ code: 0, err: '' });
    expect(await readdir(out)).toEqual([pdf]);
    expect(await cli('report', path, '--out', out, '--to', 'both')).toMatchObject({ code: 0, err: '' });
    expect((await readdir(out)).sort()).toEqual([name, pdf]);
    expect((await cli('report', path, '--out', out, '--to', 'film')).code).toBe(2);
  });

  test('finds footage by content under another name, and not by name alone', async () => {
    const place = await folder();
    const path = await demoIn(place);
    await rename(join(place, 'run-a.mp4'), join(place, 'holiday.MP4'));
    const found = await cli('report', path, '--out', join(place, 'a'));
    expect(found).toMatchObject({ code: 0, err: '' });
    expect(pictures(await readFile(join(place, 'a', name), 'utf8'))).toBeGreaterThan(10);
    // The right name, the right size, one other byte.
    const bytes = await readFile(join(place, 'holiday.MP4'));
    bytes[bytes.length - 1] = (bytes.at(-1) ?? 0) ^ 1;
    await writeFile(join(place, 'run-a.mp4'), bytes);
    await rename(join(place, 'holiday.MP4'), join(place, 'holiday.txt'));
    const other = await cli('report', path, '--out', join(place, 'b'));
    expect(other.code).toBe(0);
    expect(other.err).toMatch(/is not the footage .* its content differs/);
    expect(pictures(await readFile(join(place, 'b', name), 'utf8'))).toBe(0);
  });

  test('without its footage it is written all the same, and says what is missing', async () => {
    const place = await folder();
    const path = join(place, 'first-evening.walkback.json');
    await copyFile(join(demo, 'first-evening.walkback.json'), path);
    const ran = await cli('report', path, '--out', place);
    expect(ran.code).toBe(0);
    expect(ran.err).toMatch(/was not found beside the review file/);
    const html = await readFile(join(place, name), 'utf8');
    expect(pictures(html)).toBe(0);
    expect(html).toContain('The footage was not at hand');
  });

  test('replaces the report of the same review only', async () => {
    const place = await folder();
    const { document } = sample(() => ({ footage: [], marks: [], crosses: [], drawings: [] }));
    const write = async (file: string, id: string) => {
      await writeFile(join(place, file), JSON.stringify({ ...document, id }));
      expect((await cli('report', join(place, file), '--out', join(place, 'out'))).code).toBe(0);
      return (await readdir(join(place, 'out'))).sort();
    };
    const stem = 'Tansy-second-evening-on-the-long-course-coaching-report';
    expect(await write('a.json', 'one')).toEqual([`${stem}.html`]);
    expect(await write('a.json', 'one')).toEqual([`${stem}.html`]);
    expect(await write('b.json', 'two')).toEqual([`${stem}-2.html`, `${stem}.html`]);
    await writeFile(join(place, 'out', `${stem}.html`), 'a page of somebody’s own');
    expect(await write('a.json', 'one')).toEqual([`${stem}-2.html`, `${stem}-3.html`, `${stem}.html`]);
    expect(await readFile(join(place, 'out', `${stem}.html`), 'utf8')).toBe('a page of somebody’s own');
  });
});

describe('a report that cannot be written: exit 1, one line, nothing half-written', () => {
  const small = async (place: string): Promise<string> => {
    const path = join(place, 'r.walkback.json');
    const { document } = sample((raw) => ({
      footage: raw.footage.map((f) => ({ ...f, name: 'gone.mp4', clip: { ...f.clip, path: 'gone.mp4' } })),
    }));
    await writeFile(path, JSON.stringify(document));
    return path;
  };
  const lastLine = (err: string): string => err.trimEnd().split('\n').at(-1) ?? '';

  test('no room left (a limit on file size stands in for a full disk)', async () => {
    const place = await folder();
    const out = join(place, 'out');
    const ran = await shell('ulimit -f 8; "$@"', ['report', await small(place), '--out', out]);
    expect(ran.code).toBe(1);
    expect(lastLine(ran.err)).toMatch(/was not written: the system allows no file of that size/);
    expect(ran.err).not.toMatch(/\n\s+at /);
    expect(await readdir(out)).toEqual([]);
  });

  test('an earlier report outlives a failed one', async () => {
    const place = await folder();
    const path = await small(place);
    const out = join(place, 'out');
    expect((await cli('report', path, '--out', out)).code).toBe(0);
    const [file = ''] = await readdir(out);
    const before = await readFile(join(out, file), 'utf8');
    const ran = await shell('ulimit -f 8; "$@"', ['report', path, '--out', out]);
    expect(ran.code).toBe(1);
    expect(await readdir(out)).toEqual([file]);
    expect(await readFile(join(out, file), 'utf8')).toBe(before);
  });

  test('the folder is a file, or lies in one', async () => {
    const place = await folder();
    const path = await small(place);
    for (const out of [path, join(path, 'deeper')]) {
      const ran = await cli('report', path, '--out', out);
      expect(ran.code).toBe(1);
      expect(lastLine(ran.err)).toMatch(/not a folder/);
    }
  });

  test.runIf(process.platform === 'linux')('the folder can never be made', async () => {
    const path = await small(await folder());
    const ran = await cli('report', path, '--out', '/proc/walkback/deeper');
    expect(ran.code).toBe(1);
    expect(lastLine(ran.err)).toMatch(/\/proc\/walkback.* cannot be made/);
    expect(await cli('demo', '--out', '/proc/walkback')).toMatchObject({ code: 1, out: '' });
  });

  test('the folder may not be written to', async () => {
    const place = await folder();
    const path = await small(place);
    const out = join(place, 'locked');
    await mkdir(out);
    await chmod(out, 0o555);
    const root = process.getuid?.() === 0;
    if (root) execFileSync('chmod', ['755', place]);
    const ran = await shell(
      '"$@"',
      ['report', path, '--out', out],
      root ? { uid: 65534, gid: 65534 } : undefined,
    );
    expect(ran.code).toBe(1);
    expect(lastLine(ran.err)).toMatch(/may not be written to/);
    expect(await readdir(out)).toEqual([]);
  });
});

describe('demo', () => {
  test('lays out review files, clips and the truth; a second time changes nothing', async () => {
    const out = join(await folder(), 'demo');
    expect(await cli('demo', '--out', out)).toMatchObject({ code: 0, err: '' });
    const names = (await readdir(out)).sort();
    expect(names.filter((n) => n.endsWith('.walkback.json')).length).toBeGreaterThanOrEqual(2);
    expect(names).toEqual(expect.arrayContaining(['run-a.mp4', 'run-b.mp4', 'truth.json']));
    const truth: unknown = JSON.parse(await readFile(join(out, 'truth.json'), 'utf8'));
    expect(truth).toMatchObject({ format: 'walkback.demo-truth', version: 1 });
    expect(Object.keys((truth as { runs: object }).runs).sort()).toEqual(['run-a.mp4', 'run-b.mp4']);
    const { mtimeMs } = await stat(join(out, 'run-a.mp4'));
    expect(await cli('demo', '--out', out)).toMatchObject({ code: 0, err: '' });
    expect((await stat(join(out, 'run-a.mp4'))).mtimeMs).toBe(mtimeMs);
  });

  test('never overwrites another file, and then copies nothing', async () => {
    const out = await folder();
    await writeFile(join(out, 'truth.json'), 'mine');
    const ran = await cli('demo', '--out', out);
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/truth\.json is there already/);
    expect(await readdir(out)).toEqual(['truth.json']);
    expect(await readFile(join(out, 'truth.json'), 'utf8')).toBe('mine');
  });

  test('a full disk leaves whole files only', async () => {
    const out = join(await folder(), 'demo');
    const ran = await shell('ulimit -f 1000; "$@"', ['demo', '--out', out]);
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/run-a\.mp4 was not written/);
    for (const name of await readdir(out)) {
      expect(name).not.toMatch(/part|mp4/);
      expect(await readFile(join(out, name), 'utf8')).toBe(await readFile(join(demo, name), 'utf8'));
    }
  });
});
