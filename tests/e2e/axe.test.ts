import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countedCourse } from '../../src/course/course.ts';
import { ReadingThresholds } from '../../src/line/reading/thresholds.ts';
import { book } from '../unit/course/rules/books.ts';
import { memoryHost, type MemoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';
import { violations, wcag } from './violations.ts';
import { demoHost, demoReview, hundredHost, plannedReview } from './windowContents.ts';

/**
 * Each screen with nothing, with the demo and with a hundred of everything, in both themes: no violation by
 * axe-core's rules for WCAG 2.0 to 2.2, A and AA, and its best practices; no target under 24 px; no text under 13 px.
 */
let stand: WindowStand;
beforeAll(async () => {
  stand = await windowStand();
});
afterAll(async () => {
  await stand.close();
});

/** Controls that are too small to touch and text that is too small to read, as they really are on the page. */
async function tooSmall(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const problems: string[] = [];
    const seen = (el: Element): boolean => {
      const box = el.getBoundingClientRect();
      return box.width > 1 && box.height > 1 && getComputedStyle(el).visibility !== 'hidden';
    };
    const controls = 'button, select, textarea, input:not([type=checkbox]):not([type=radio]), [role=button]';
    for (const el of document.querySelectorAll(controls)) {
      const { width, height } = el.getBoundingClientRect();
      if (seen(el) && (width < 24 || height < 24))
        problems.push(`target ${width}x${height}: ${el.outerHTML.slice(0, 120)}`);
    }
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const el = node.parentElement;
      if (!el || node.textContent?.trim() === '' || !seen(el)) continue;
      const size = parseFloat(getComputedStyle(el).fontSize);
      if (size < 13 && !el.closest('svg')) problems.push(`text of ${size} px: ${node.textContent ?? ''}`);
    }
    return problems;
  });
}

/** Looks at a page in both themes; it goes over from one to the other as the system does. `within` narrows it to a part. */
async function expectGood(page: Page, within?: string): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await page.waitForFunction((theme) => getComputedStyle(document.body).colorScheme === theme, colorScheme);
    expect({
      colorScheme,
      found: await violations(page, { tags: wcag, ...(within !== undefined && { within }) }),
    }).toEqual({ colorScheme, found: [] });
  }
  expect(await tooSmall(page)).toEqual([]);
}

/** Settings with a figure that is not the usual one. */
const settled = (): MemoryHost => {
  const host = memoryHost();
  host.setPreferences({ reading: ReadingThresholds.parse({ viewHalf: 60 }) });
  return host;
};

const bare = (): MemoryHost => {
  const host = memoryHost();
  host.addReview({ id: 'bare', title: 'Only numbers', course: countedCourse(20) });
  host.addReview({ id: 'nothing', title: 'Nothing yet' });
  return host;
};

const differing = async (): Promise<MemoryHost> => {
  const host = await demoHost();
  host.addReview({ id: 'bare', title: 'Only numbers', course: countedCourse(12) });
  return host;
};

const screens: readonly (readonly [string, () => MemoryHost | Promise<MemoryHost>, string])[] = [
  ['an empty library', memoryHost, '#/library'],
  ['the library with the demo', demoHost, '#/library'],
  ['a library of a hundred', hundredHost, '#/library'],
  ['a drawn course', demoHost, `#/course/${demoReview}`],
  ['a course of bare numbers', bare, '#/course/bare'],
  ['a course with nothing', bare, '#/course/nothing'],
  ['the review of the demo', demoHost, `#/review/${demoReview}`],
  ['a review with nothing', bare, '#/review/nothing'],
  ['the report of the demo', demoHost, `#/report/${demoReview}`],
  ['the report of nothing', bare, '#/report/nothing'],
  ['the choice of runs', demoHost, `#/compare/${demoReview}`],
  ['two runs side by side', demoHost, `#/compare/${demoReview}/demo-a-month-later`],
  ['runs of different courses', differing, `#/compare/${demoReview}/bare`],
  ['a run that is gone', demoHost, `#/compare/${demoReview}/gone`],
  ['settings', settled, '#/settings'],
  ['an address of nothing', memoryHost, '#/elsewhere'],
  ['a review that is not there', memoryHost, '#/review/gone'],
];

describe('in both themes', () => {
  it.each(screens)('%s can be used by everybody', async (_, host, path) => {
    const page = await stand.open(await host(), path);
    await page.waitForLoadState('networkidle');
    await expectGood(page);
    await page.context().close();
  });

  it.each(['Draw', 'Course', 'Check', 'Read', 'Plan'])(
    'the page “%s” of a drawn course can be used by everybody',
    async (name) => {
      const page = await stand.open(await demoHost(), `#/course/${plannedReview}`);
      await page.getByRole('tab', { name, exact: true }).click();
      await page.getByRole('application').focus();
      await page.keyboard.press('j');
      await page.keyboard.press('n');
      await expectGood(page);
      await page.context().close();
    },
  );

  it('the page “Ground” where there is nothing to fit says what it takes, and can be used by everybody', async () => {
    const page = await stand.open(hundredHost(), '#/review/r1');
    await page.getByRole('tab', { name: 'Ground' }).click();
    await page.getByText('This course is numbers only.').waitFor();
    await expectGood(page, 'aside');
    await page.evaluate(() => (location.hash = '#/review/r8'));
    await page.getByText('No footage yet').last().waitFor();
    await page.getByRole('tab', { name: 'Ground' }).click();
    await page.getByText('it takes a clip of the run').waitFor();
    await page.context().close();
  });

  it('a picture that is being laid, and a drawing over one, can be used by everybody', async () => {
    const host = bare();
    const course = countedCourse(3);
    const mapPicture = { pictureId: 'picture-1', name: 'map.png', width: 900, height: 1200 };
    const steps = course.steps.map((s) => ({ ...s, onPicture: { x: s.number / 4, y: 0.5 } }));
    host.addReview({ id: 'laid', title: 'Laid', course: { ...course, mapPicture, steps } });
    const page = await stand.open(host, '#/course/laid');
    await page.getByRole('button', { name: /^Lay it under/ }).click();
    await expectGood(page);
    // By keys alone: each corner is moved a little and so is set.
    for (const n of [1, 2, 3, 4]) {
      await page.getByRole('button', { name: `Corner ${n}` }).focus();
      await page.keyboard.press('ArrowUp');
    }
    await page.getByRole('button', { name: 'Lay it', exact: true }).click();
    await page.getByText(/^Stand 3 obstacles/).click();
    await expectGood(page);
    await page.context().close();
  });

  it('the rules beside a course, before and after a book is chosen, can be used by everybody', async () => {
    const page = await stand.open(await demoHost(), `#/course/${demoReview}`);
    await page.getByRole('tab', { name: 'Rules' }).click();
    await page.getByText('Choose the rule book').waitFor();
    await expectGood(page);
    await page.getByRole('button', { name: /^Use “/ }).click();
    await page.getByLabel('Height category').selectOption('L');
    for (const folded of await page.locator('summary').all()) await folded.click();
    await expectGood(page);
    await page.context().close();
  });

  it('a look into a rule book, and the question whether one gives way, can be used by everybody', async () => {
    const host = memoryHost();
    host.ruleBooks.put(book({ name: 'Our evening' }));
    host.ruleBooks.file('/home/coach/ours.json', book({ name: 'Our longer evening' }));
    const page = await stand.open(host, '#/settings');
    await page.evaluate(() => {
      const file = { path: '/home/coach/ours.json', name: 'ours.json', bytes: 900 };
      (window as unknown as Record<string, unknown>)['filesToChoose'] = [file];
    });
    await page.getByRole('button', { name: 'Take in a rule book' }).click();
    await page.getByRole('button', { name: 'Replace it' }).waitFor();
    await expectGood(page, '[role=alert]');
    await page.getByRole('button', { name: 'Look into “FCI' }).click();
    await page.getByText('Height categories of dogs').waitFor();
    await expectGood(page, 'dialog');
    await page.context().close();
  });

  it('the sheet of keys, the form for a new review and a notice can be used by everybody', async () => {
    const page = await stand.open(hundredHost(), '#/library');
    await page.getByTitle('Open a review in the Library first.').first().click({ force: true });
    await page.keyboard.press('?');
    await page.getByRole('dialog').waitFor();
    await expectGood(page);
    await page.keyboard.press('Escape');
    await page.keyboard.press('n');
    await page.getByRole('dialog').waitFor();
    await expectGood(page);
    await page.context().close();
  });
});

describe('at the sizes that are asked for', () => {
  const sizes = [
    { name: '1280x800', viewport: { width: 1280, height: 800 } },
    { name: '1920x1080', viewport: { width: 1920, height: 1080 } },
    { name: '1280x800 at 200 %', viewport: { width: 640, height: 400 }, deviceScaleFactor: 2 },
  ];
  const paths = ['#/library', `#/course/${demoReview}`, `#/report/${demoReview}`, '#/settings'];
  it.each(sizes)('no screen is cut off at the side: $name', async ({ name: _, ...size }) => {
    const host = await demoHost();
    const page = await stand.open(host, '#/library', size);
    for (const path of paths) {
      await page.evaluate((to) => (location.hash = to), path);
      await page.waitForSelector('h1');
      await page.waitForTimeout(200);
      const cut = await page.evaluate(() => {
        const { innerWidth } = window;
        return [
          ...document.querySelectorAll(
            'main button, main input, main select, main textarea, main p, main h1',
          ),
        ]
          .filter((el) => !el.closest('[aria-hidden=true]'))
          .filter((el) => el.getBoundingClientRect().right > innerWidth + 1)
          .map((el) => el.outerHTML.slice(0, 120));
      });
      expect({ path, cut }).toEqual({ path, cut: [] });
    }
    await page.context().close();
  });
});
