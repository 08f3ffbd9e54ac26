import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { countedCourse } from '../../src/course/course.ts';
import { ReadingThresholds } from '../../src/line/reading/thresholds.ts';
import { memoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';
import { demoHost, demoReview, hundredHost } from './windowContents.ts';

/** The window over a host in memory, under the content policy it is served with. */
let stand: WindowStand;
let page: Page;
beforeAll(async () => {
  stand = await windowStand();
});
afterEach(async () => {
  await page.context().close();
});
afterAll(async () => {
  await stand.close();
});

/** What the system's file dialog will answer next. */
const willChoose = (paths: readonly string[]): Promise<void> =>
  page.evaluate(
    (list) => {
      const files = list.map((path) => ({ path, name: path.split('/').at(-1), bytes: 10 }));
      (window as unknown as Record<string, unknown>)['filesToChoose'] = files;
    },
    [...paths],
  );

/** Drops files on the middle of the window. */
const drop = (names: readonly string[]): Promise<void> =>
  page.evaluate(
    (list) => {
      const carried = new DataTransfer();
      for (const name of list) carried.items.add(new File(['x'], name));
      for (const kind of ['dragenter', 'dragover', 'drop']) {
        document.body.dispatchEvent(
          new DragEvent(kind, { dataTransfer: carried, bubbles: true, cancelable: true }),
        );
      }
    },
    [...names],
  );

/** Waits until what the host holds is as expected; the machine may be busy. */
const soon = <T>(held: () => T) => expect.poll(held, { timeout: 20_000 });

const dialog = () => page.getByRole('dialog');

describe('the library', () => {
  it('leads from a video to its open review in two keys and a choice', async () => {
    const host = memoryHost();
    page = await stand.open(host);
    await willChoose(['/home/coach/Videos/evening_run.mp4']);
    await page.keyboard.press('b');
    await dialog().waitFor();
    expect(await page.getByLabel('Title').inputValue()).toBe('evening run');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => location.hash.startsWith('#/review/'));
    const { args } = host.asked.find((a) => a.name === 'review.create') ?? {};
    expect(args).toMatchObject({ title: 'evening run', obstacles: 20 });
    expect((args as { clipIds: string[] }).clipIds.length).toBe(1);
  });

  it('takes several videos that are dropped anywhere, a review for each', async () => {
    const host = memoryHost();
    page = await stand.open(host, '#/settings');
    await drop(['one.mp4', 'two.mov', 'broken.mp4']);
    await dialog().getByText('has no video in it').waitFor();
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => location.hash === '#/library');
    await page.getByRole('link', { name: 'one' }).waitFor();
    expect(await page.getByRole('row').count()).toBe(3);
  });

  it('makes one review of all where they show the same run', async () => {
    const host = memoryHost();
    page = await stand.open(host);
    await drop(['left.mp4', 'right.mp4']);
    await page.getByLabel('the same run').check();
    await page.getByRole('button', { name: 'Make the review' }).click();
    await page.waitForFunction(() => location.hash.startsWith('#/review/'));
    const creates = host.asked.filter((a) => a.name === 'review.create');
    expect(creates.map((a) => (a.args as { clipIds: string[] }).clipIds.length)).toEqual([2]);
  });

  it('says why a video cannot be used, makes nothing of it, and still offers a review without', async () => {
    const host = memoryHost();
    page = await stand.open(host);
    await drop(['broken.mp4']);
    await dialog().getByText('has no video in it').waitFor();
    await page.keyboard.press('Enter');
    await dialog().getByRole('alert').waitFor();
    expect(host.asked.some((a) => a.name === 'review.create')).toBe(false);
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => location.hash.startsWith('#/review/'));
  });

  it('opens a review file that is dropped', async () => {
    page = await stand.open(memoryHost());
    await drop(['handed over.walkback.json']);
    await page.waitForFunction(() => location.hash.startsWith('#/review/'));
  });

  it('opens a demo review in one act and enables the screens that wait for one', async () => {
    page = await stand.open(await demoHost());
    const course = page.getByRole('navigation', { name: 'Screens' }).getByRole('button', { name: 'Course' });
    expect(await course.getAttribute('aria-disabled')).toBe('true');
    await course.click({ force: true });
    await page.getByText('Open a review in the Library first.').first().waitFor();
    await page.getByRole('link', { name: 'First evening: a cue too late' }).click();
    await page.waitForFunction((id) => location.hash === `#/review/${id}`, demoReview);
    await page.keyboard.press('F3');
    await page.getByRole('heading', { name: 'Course', level: 1 }).waitFor();
  });

  it('goes through a hundred by arrow keys and finds one by its words', async () => {
    page = await stand.open(hundredHost());
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    const focused = () => page.evaluate(() => document.activeElement?.textContent);
    expect(await focused()).toBe('Long evening, run 98');
    await page.keyboard.press('/');
    await page.keyboard.type('wren marek run 42');
    await page.getByText('1 of 100 reviews').waitFor();
    await page.keyboard.press('Escape');
    await page.getByText('100 reviews', { exact: true }).waitFor();
    await page.keyboard.type('no such thing');
    await page.getByText('No review has “no such thing”').waitFor();
  });

  it('removes a review and brings it back by the key for undo', async () => {
    const host = hundredHost();
    page = await stand.open(host);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Delete');
    await page.getByText('was removed from the list').waitFor();
    expect(await page.getByRole('link', { name: 'Long evening, run 100' }).count()).toBe(0);
    await page.keyboard.press('Control+z');
    await page.getByRole('link', { name: 'Long evening, run 100' }).waitFor();
  });

  it('gives a missing video its file back', async () => {
    const host = hundredHost();
    page = await stand.open(host);
    await willChoose(['/elsewhere/IMG_4204.MOV']);
    await page.getByRole('button', { name: 'Find the file of IMG_4204.MOV' }).first().click();
    await page.getByText('“IMG_4204.MOV” is linked again.').waitFor();
  });

  it('shows long work with its progress and stops it', async () => {
    const host = hundredHost();
    page = await stand.open(host);
    const bar = page.getByRole('progressbar', { name: 'Making a working copy: IMG_4207.MOV' });
    expect(await bar.getAttribute('value')).toBe('430');
    await page.getByRole('button', { name: 'Stop work on IMG_4207.MOV' }).click();
    await bar.waitFor({ state: 'detached' });
    expect(host.asked.some((a) => a.name === 'job.cancel')).toBe(true);
  });
});

describe('the course', () => {
  it('is filled in by keyboard alone and undone step by step', async () => {
    const host = memoryHost();
    host.addReview({ id: 'r', title: 'Evening' });
    page = await stand.open(host, '#/course/r');
    await page.getByLabel('How many').fill('4');
    await page.keyboard.press('Enter');
    await page.getByLabel('What you call 1').fill('the blue one');
    await page.keyboard.press('Enter');
    await page.keyboard.type('the gate');
    await page.keyboard.press('Enter');
    await page.getByLabel('Kind of 3').selectOption('tunnel');
    await soon(() => host.review('r')?.course.obstacles.map((o) => `${o.kind}/${o.nickname}`)).toEqual([
      'unknown/the blue one',
      'unknown/the gate',
      'tunnel/',
      'unknown/',
    ]);
    await page.getByRole('button', { name: 'Choose 4' }).click();
    for (let i = 0; i < 2; i++) await page.keyboard.press('Control+z');
    await soon(() => host.review('r')?.course.obstacles[1]?.nickname).toBe('');
    expect(host.review('r')?.course.obstacles[0]?.nickname).toBe('the blue one');
  });

  it('keeps a name that is being typed when one goes to another screen', async () => {
    const host = memoryHost();
    host.addReview({ id: 'r', title: 'Evening', course: countedCourse(3) });
    page = await stand.open(host, '#/course/r');
    await page.getByLabel('What you call 2').fill('the long one');
    await page.keyboard.press('F2');
    await page.getByRole('heading', { name: 'Library' }).waitFor();
    await soon(() => host.review('r')?.course.obstacles[1]?.nickname).toBe('the long one');
  });

  it('takes numbers clicked on a picture, moves them by drag and by arrow keys, and undoes that', async () => {
    const host = memoryHost();
    host.addReview({ id: 'r', title: 'Evening', course: countedCourse(3) });
    page = await stand.open(host, '#/course/r');
    await willChoose(['/home/coach/map.png']);
    await page.keyboard.press('p');
    const picture = page.getByAltText('The judge’s map.');
    await picture.waitFor();
    const box = await picture.boundingBox();
    if (!box) throw new Error('no picture');
    const at = (x: number, y: number) => [box.x + x * box.width, box.y + y * box.height] as const;
    const place = (n: number) => host.review('r')?.course.steps.find((s) => s.number === n)?.onPicture;
    await page.mouse.click(...at(0.2, 0.8));
    await page.mouse.click(...at(0.5, 0.5));
    await page.mouse.click(...at(0.8, 0.2));
    await page.getByText('All numbers stand.').waitFor();
    await soon(() => place(3)?.x).toBeCloseTo(0.8, 1);
    expect(place(1)?.y).toBeCloseTo(0.8, 1);

    await page.mouse.move(...at(0.5, 0.5));
    await page.mouse.down();
    await page.mouse.move(...at(0.6, 0.4), { steps: 4 });
    await page.mouse.up();
    await soon(() => place(2)?.x).toBeCloseTo(0.6, 1);
    const before = place(2)?.x ?? 0;
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowRight');
    await soon(() => place(2)?.x ?? 0).toBeGreaterThan(before + 0.01);
    await page.keyboard.press('Control+z');
    await soon(() => place(2)?.x).toBe(before);
    await page.keyboard.press('Control+z');
    await soon(() => place(2)?.x).toBeCloseTo(0.5, 1);
  });

  it('does not take a number away that marks stand on, and says so', async () => {
    const host = await demoHost();
    page = await stand.open(host, `#/course/${demoReview}`);
    await page.getByRole('button', { name: 'Remove the last' }).click();
    await page.getByText('on numbers above 18').waitFor();
    expect(host.review(demoReview)?.course.steps.length).toBe(19);
  });

  it('plans a cross with a reason and a second choice', async () => {
    const host = await demoHost();
    page = await stand.open(host, `#/course/${demoReview}`);
    await page.getByRole('application', { name: 'Drawing of the course, 19 numbers' }).waitFor();
    await page.getByRole('button', { name: 'Choose 5' }).click();
    await page.getByRole('tab', { name: 'Plan' }).click();
    await page.getByText('Planned at 5, the red tunnel').waitFor();
    await page.keyboard.press('x');
    await page.getByLabel('Cross', { exact: true }).selectOption('blind');
    await page.getByLabel('If I cannot get there').selectOption('rear');
    await page.getByLabel('Why').fill('she comes out fast');
    await page.keyboard.press('Enter');
    await soon(() => host.review(demoReview)?.plan.crosses.find((c) => c.place === 5)).toMatchObject({
      kind: 'blind',
      secondChoice: 'rear',
      reason: 'she comes out fast',
    });
  });
});

describe('the report', () => {
  it('keeps the coach’s words while they are typed, writes, opens and saves', async () => {
    const host = await demoHost();
    page = await stand.open(host, `#/report/${demoReview}`);
    await page.getByText('all 19 taken').waitFor();
    await page.getByLabel('Notes').fill('Bring the long line next week.');
    await soon(() => host.review(demoReview)?.header.words.notes).toBe('Bring the long line next week.');
    await page.getByRole('button', { name: 'Write the report' }).click();
    await page.getByText('/home/coach/Walkback/reports/').waitFor();
    await page.getByText('It shows the review as it is now.').waitFor();
    await page.keyboard.press('o');
    await page.keyboard.press('s');
    await page.getByText('A copy was saved.').waitFor();
    const asked = await page.evaluate(() => (window as unknown as { asked: string[] }).asked);
    expect(asked).toEqual(['open report-1', 'save report-1']);
    await page.getByLabel('Leave names out').check();
    await page.getByText('The review has changed since.').waitFor();
  });

  it('says why a report could not be written', async () => {
    const host = await demoHost();
    host.refuse('report.write', {
      code: 'noSpace',
      message: 'The disk is full: free some space and try again.',
    });
    page = await stand.open(host, `#/report/${demoReview}`);
    await page.keyboard.press('w');
    await page.getByText('The report could not be written. The disk is full').waitFor();
  });

  it('shows the cautions', async () => {
    page = await stand.open(await demoHost(), `#/report/${demoReview}`);
    await page.getByText('Stop at any sign of lameness').waitFor();
  });
});

describe('settings', () => {
  it('change a key, refuse one that is in use, and give the first one back', async () => {
    const host = memoryHost();
    page = await stand.open(host, '#/settings');
    const change = page.getByRole('button', { name: 'Change the key for: Bring in a video' });
    await change.click();
    await page.keyboard.press('n');
    await page.getByText('N does “New review without a video” already.').waitFor();
    await page.keyboard.press('F5');
    await page.getByText('F5 is needed to get about').waitFor();
    await page.keyboard.press('j');
    await page.getByText('“Bring in a video” is now J.').waitFor();
    await page.keyboard.press('F2');
    await page.getByRole('heading', { name: 'Library' }).waitFor();
    await willChoose(['/v/a.mp4']);
    await page.keyboard.press('b');
    expect(await dialog().count()).toBe(0);
    await page.keyboard.press('j');
    await dialog().waitFor();
    expect(await page.getByRole('button', { name: 'Bring in a video' }).textContent()).toContain('J');
    await page.keyboard.press('Escape');
    await page.keyboard.press('F8');
    await page.getByRole('button', { name: 'Give back the first key to: Bring in a video' }).click();
    await soon(() => host.asked.findLast((a) => a.name === 'preferences.set')?.args).toMatchObject({
      preferences: { keys: {} },
    });
  });

  it('open a folder and close it again, and want its path in full', async () => {
    const host = memoryHost();
    page = await stand.open(host, '#/settings');
    const path = page.getByLabel('Path of the folder');
    await path.fill('Videos');
    await page.keyboard.press('Enter');
    await page.getByText('Write the path in full').waitFor();
    await path.fill('/home/coach/Videos');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Take /home/coach/Videos out' }).click();
    await soon(() => host.asked.findLast((a) => a.name === 'preferences.set')?.args).toMatchObject({
      preferences: { allowedFolders: [] },
    });
  });

  it('say what a course is read by, refuse what is out of bounds, and the page Read answers at once', async () => {
    const host = await demoHost();
    page = await stand.open(host, '#/settings');
    const view = page.getByLabel('Her view ahead, to each side, °');
    const type = async (text: string): Promise<void> => {
      await view.focus();
      await page.keyboard.press('ControlOrMeta+a');
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    };
    await type('400');
    await page.getByRole('alert').getByText('takes a number from 15 to 120°. It was left at 45°.').waitFor();
    expect(await view.inputValue()).toBe('45');
    await type('110');
    await soon(() => host.preferences().reading.viewHalf).toBe(110);
    await page.getByLabel('feet', { exact: true }).check();
    expect(await page.getByLabel('Height of her eyes, ft').inputValue()).toBe('1.64');
    await page.getByRole('button', { name: 'As usual: Her view ahead, to each side' }).press('Enter');
    await soon(() => host.preferences().reading.viewHalf).toBe(45);
    await type('15');
    await soon(() => host.preferences().reading.viewHalf).toBe(15);

    await page.evaluate((id) => (location.hash = `#/course/${id}`), demoReview);
    await page.getByRole('tab', { name: 'Read' }).click();
    const out = page.locator('#course-page').getByText(/out of her view ahead/);
    await out.first().waitFor();
    host.setPreferences({ reading: ReadingThresholds.parse({ viewHalf: 120 }) });
    await soon(() => out.count()).toBe(0);

    await page.keyboard.press('F8');
    await page.getByRole('button', { name: 'All as usual' }).press('Enter');
    await soon(() => host.preferences().reading).toEqual(ReadingThresholds.parse({}));
  });

  it('change the theme and the words at once and keep them', async () => {
    const host = memoryHost();
    host.addReview({ id: 'r', title: 'Evening', course: countedCourse(2) });
    page = await stand.open(host, '#/settings');
    await page.getByLabel('dark', { exact: true }).check();
    expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe('dark');
    await page.getByLabel('teeter, tire').check();
    await page.evaluate(() => (location.hash = '#/course/r'));
    await page.getByLabel('Kind of 1').selectOption({ label: 'teeter' });
    await soon(() => host.review('r')?.course.obstacles[0]?.kind).toBe('seeSaw');
  });
});

describe('the frame', () => {
  it('skips the bar, shows all keys on one key, and gives the focus back', async () => {
    page = await stand.open(await demoHost());
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('main');
    await page.getByRole('link', { name: 'A month later' }).focus();
    await page.keyboard.press('?');
    await dialog().getByText('Go to the Library').waitFor();
    await page.keyboard.press('Escape');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('A month later');
  });

  it('tells of an error that nobody caught, and of an act that could not be kept', async () => {
    const host = await demoHost();
    page = await stand.open(host, `#/course/${demoReview}`);
    await page.evaluate(() => void Promise.reject(new Error('a surprise')));
    await page.getByText('Something went wrong that was not foreseen.').waitFor();
    host.refuse('review.apply', { code: 'noSpace', message: 'The disk is full.' });
    await page.getByLabel('What you call 2').fill('the bluest one');
    await page.keyboard.press('Enter');
    await page.getByText('could not be kept and was taken back. The disk is full.').waitFor();
    expect(await page.getByLabel('What you call 2').inputValue()).toBe('the blue one');
  });

  it('shows a calm page where a screen breaks, and finds the way back', async () => {
    const host = memoryHost();
    host.addReview({
      id: 'bad',
      title: 'Bad',
      course: { name: '', obstacles: [], steps: [null] as unknown as [] },
    });
    page = await stand.open(host, '#/course/bad');
    await page.getByRole('heading', { name: 'This screen has stumbled' }).waitFor();
    await page.getByRole('button', { name: 'To the Library' }).click();
    await page.getByRole('heading', { name: 'Library' }).waitFor();
  });

  it('says when the library has stopped', async () => {
    page = await stand.open(memoryHost());
    await page.evaluate(() => {
      (window as unknown as { endHost(): void }).endHost();
    });
    await page.getByText('The library has stopped.').waitFor();
  });

  it('breaks no rule of its content policy', async () => {
    const host = await demoHost();
    page = await stand.open(host);
    const said: string[] = [];
    page.on('console', (message) => {
      if (/Content.Security.Policy/i.test(message.text())) said.push(message.text());
    });
    for (const path of ['#/library', `#/course/${demoReview}`, `#/report/${demoReview}`, '#/settings']) {
      await page.evaluate((to) => (location.hash = to), path);
      await page.waitForTimeout(300);
    }
    expect(said).toEqual([]);
  });
});
