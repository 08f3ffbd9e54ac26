import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { shell } from '../unit/app-cli/cli.ts';
import { valueAt } from '../unit/report/figuresIn.ts';
import { sample } from '../unit/report/sample.ts';
import { violations } from './violations.ts';

const hostileTitle = `<script>document.title='taken'</script> "><img src=x onerror="document.title='taken'"> \u202Eflip`;

let browser: Browser;
let place = '';
const files = { demo: '', measured: '', short: '', hostile: '', empty: '' };

async function reportOf(review: string, ...options: string[]): Promise<string> {
  const ran = await shell('"$@"', ['report', review, '--out', join(place, 'reports'), ...options]);
  expect(ran.code, ran.err).toBe(0);
  return ran.out.replace(/ \([^)]*\)\n$/, '');
}

async function written(name: string, document: object): Promise<string> {
  const path = join(place, name);
  await writeFile(path, JSON.stringify(document));
  return path;
}

beforeAll(async () => {
  place = await mkdtemp(join(tmpdir(), 'walkback-cli-e2e-'));
  const copied = await shell('"$@"', ['demo', '--out', join(place, 'demo')]);
  expect(copied.code, copied.err).toBe(0);
  const { document } = sample();
  files.demo = await reportOf(join(place, 'demo', 'first-evening.walkback.json'));
  files.measured = await reportOf(join(place, 'demo', 'a-month-later.walkback.json'));
  files.short = await reportOf(join(place, 'demo', 'a-month-later.walkback.json'), '--short');
  files.empty = await reportOf(
    await written('empty.json', { format: document.format, version: 1, id: 'e', header: { title: 'Empty' } }),
  );
  files.hostile = await reportOf(
    await written('hostile.json', {
      ...document,
      id: 'h',
      header: {
        ...document.header,
        title: hostileTitle.slice(0, 200),
        dog: '<b>Bo</b>',
        words: {
          wentWell: '<svg onload=alert(1)>',
          toTrain: 'כלב 🐕',
          notes: 'a\n\nb',
          leaveNamesOut: false,
        },
      },
    }),
  );
  browser = await chromium.launch({
    executablePath: process.env['WALKBACK_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu'],
  });
});
afterAll(async () => {
  await browser.close();
  await rm(place, { recursive: true, force: true });
});

async function open(file: string, options: BrowserContextOptions = {}) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, ...options });
  const page = await context.newPage();
  const seen = { asked: [] as string[], said: [] as string[] };
  page.on('request', (r) => !r.url().startsWith('data:') && seen.asked.push(r.url()));
  page.on('console', (m) => seen.said.push(m.text()));
  page.on('dialog', (d) => {
    seen.said.push(`dialog: ${d.message()}`);
    void d.dismiss();
  });
  await page.goto(pathToFileURL(resolve(file)).href);
  return { page, seen, close: () => context.close() };
}

const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe('the report in Chromium', () => {
  const looks = (['demo', 'short', 'hostile', 'empty'] as const).flatMap((name) =>
    (['light', 'dark'] as const).flatMap((colorScheme) =>
      [390, 1280].map((width) => [name, colorScheme, width] as const),
    ),
  );
  test.each(looks)(
    '%s, %s, %i px: axe finds nothing, and nothing is wider than the page',
    async (...look) => {
      const [name, colorScheme, width] = look;
      const { page, close } = await open(files[name], { colorScheme, viewport: { width, height: 844 } });
      expect(await violations(page)).toEqual([]);
      expect(await overflow(page)).toBe(0);
      await close();
    },
  );

  test('holds on the narrowest page and at twice the text size (WCAG 2.2, 1.4.10 and 1.4.4)', async () => {
    for (const file of [files.demo, files.measured, files.short]) {
      const { page, close } = await open(file, { viewport: { width: 320, height: 640 } });
      expect(await overflow(page), file).toBe(0);
      await page.setViewportSize({ width: 640, height: 800 });
      // The policy lets no script in; a style set from outside stands for the reader's own setting.
      await page.addStyleTag({ content: 'html { font-size: 200% !important }' });
      expect(await overflow(page), file).toBe(0);
      await close();
    }
  });

  test('asks for nothing but itself and says nothing', async () => {
    const { page, seen, close } = await open(files.demo);
    expect(seen.asked).toEqual([pathToFileURL(files.demo).href]);
    expect(seen.said).toEqual([]);
    const broken = await page.evaluate(
      () => [...document.images].filter((i) => !i.complete || i.naturalWidth === 0).length,
    );
    expect(broken).toBe(0);
    expect(await page.evaluate(() => document.images.length)).toBeGreaterThan(10);
    await close();
  });

  test.each([
    ['first-evening', 'demo'],
    ['a-month-later', 'measured'],
  ] as const)('shows the figures of analyse --json of %s, as Chromium reads them', async (name, file) => {
    const review = join(place, 'demo', `${name}.walkback.json`);
    const told: unknown = JSON.parse((await shell('"$@"', ['analyse', review, '--json'])).out);
    const { page, close } = await open(files[file]);
    const figures = await page.$$eval('[data-figure]', (all) =>
      all.map((e) => ({ data: { ...(e as HTMLElement).dataset }, text: e.textContent })),
    );
    expect(figures.length).toBeGreaterThan(80);
    for (const { data, text } of figures) {
      expect(valueAt(told, data['figure'] ?? ''), data['figure']).toEqual({
        value: Number(data['value']),
        plusMinus: Number(data['plusMinus']),
        unit: data['unit'],
      });
      expect(text).toMatch(/\d/);
    }
    await close();
  });

  test('shows hostile words as written, and they do nothing', async () => {
    const { page, seen, close } = await open(files.hostile);
    const shown = hostileTitle.slice(0, 200).replace('\u202E', '');
    expect(await page.title()).toBe(`${shown} · Coaching report`);
    expect(await page.textContent('h1')).toBe(shown);
    expect(await page.textContent('.team')).toContain('<b>Bo</b>');
    expect(await page.textContent('.well')).toContain('<svg onload=alert(1)>');
    expect(seen.asked).toHaveLength(1);
    expect(seen.said).toEqual([]);
    await close();
  });

  test('prints in paper colours whatever the theme, on pages of its own', async () => {
    const { page, close } = await open(files.demo, { colorScheme: 'dark' });
    await page.emulateMedia({ media: 'print' });
    const colours = await page.evaluate(() => {
      const { backgroundColor, color } = getComputedStyle(document.body);
      return { backgroundColor, color };
    });
    expect(colours).toEqual({ backgroundColor: 'rgba(0, 0, 0, 0)', color: 'rgb(43, 36, 32)' });
    const pdf = await page.pdf({ format: 'A4', printBackground: true });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    expect(pages).toBeGreaterThan(3);
    expect(pages).toBeLessThan(12);
    await close();
  });

  test('in short prints on one page, in paper colours', async () => {
    const { page, close } = await open(files.short, { colorScheme: 'dark' });
    const pdf = await page.pdf({ format: 'A4', printBackground: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await close();
  });
});
