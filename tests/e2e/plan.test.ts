import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { countedCourse } from '../../src/course/course.ts';
import { Dog } from '../../src/line/dog.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { memoryHost, type MemoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';
import { demoHost, demoReview, plannedReview } from './windowContents.ts';

/** The pages of the Course screen that read a course and plan its handling, in the real window. */
let stand: WindowStand;
let page: Page;
let host: MemoryHost;
let errors: string[];
beforeAll(async () => {
  stand = await windowStand();
});
afterEach(async () => {
  expect(errors).toEqual([]);
  await page.context().close();
});
afterAll(async () => {
  await stand.close();
});

async function open(tab: 'Read' | 'Plan', of = demoHost(), path = `#/course/${demoReview}`): Promise<void> {
  host = await of;
  page = await stand.open(host, path);
  errors = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.getByRole('tab', { name: tab, exact: true }).click();
}

const plan = (): Plan => {
  const held = host.review(demoReview)?.plan;
  if (!held) throw new Error('the review is gone');
  return held;
};
const soon = <T>(held: () => T) => expect.poll(held, { timeout: 10_000 });
const told = () => page.locator('#course-page').innerText();

/** Screen places of ground places while the ring of 40 by 20 m is seen whole, 28 px from the nearer sides. */
async function onScreen(): Promise<(at: { x: number; y: number }) => readonly [number, number]> {
  const box = await page.getByRole('application').boundingBox();
  if (!box) throw new Error('there is no board');
  const [width, height] = [box.width - 2, box.height - 2];
  const scale = Math.min((width - 56) / 40, (height - 56) / 20);
  return ({ x, y }) => [box.x + 1 + width / 2 + (x - 20) * scale, box.y + 1 + height / 2 - (y - 10) * scale];
}

/** The number in hand by the keys that go through them. */
async function goTo(number: number): Promise<void> {
  for (let i = 0; i < number; i++) await page.keyboard.press('.');
}

describe('reading a course', () => {
  it('says what lies at a number, and answers anew while her landing is dragged and after', async () => {
    await open('Read');
    await page.getByText('Worth talking about').waitFor();
    await goTo(3);
    await page.getByRole('heading', { name: 'At 3, the yellow one' }).waitFor();
    expect(await told()).toMatch(/From 3 \(the yellow one\) she lands 1\.4 m past it/);
    // By keys: the landing in hand after those of 1 and 2, a metre further on.
    for (let i = 0; i < 3; i++) await page.keyboard.press("'");
    await page.getByText('Landing after 3 is in hand').waitFor();
    for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowRight');
    await soon(() => plan().landings?.map((l) => l.number)).toEqual([3]);
    const [moved] = plan().landings ?? [];
    if (!moved) throw new Error('no landing was kept');
    await page
      .getByText(/From 3 \(the yellow one\) she lands 2\.4 m past it/)
      .first()
      .waitFor();
    // By hand: what is read answers before it is let go.
    const at = await onScreen();
    await page.mouse.move(...at(moved.at));
    await page.mouse.down();
    await page.mouse.move(...at({ x: moved.at.x + 0.6, y: moved.at.y }), { steps: 4 });
    await page
      .getByText(/From 3 \(the yellow one\) she lands (2\.9|3\.0) m past it/)
      .first()
      .waitFor();
    expect(plan().landings?.[0]?.at).toEqual(moved.at);
    await page.mouse.up();
    await soon(() => (plan().landings?.[0]?.at.x ?? 0) - moved.at.x).toBeGreaterThan(0.4);
    await page.getByRole('button', { name: 'Land as computed' }).click();
    await soon(() => plan().landings).toEqual([]);
    await soon(told).toMatch(/From 3 \(the yellow one\) she lands 1\.4 m past it/);
  });

  it('draws the wanted line from the computed one, moves a node, and goes back', async () => {
    await open('Read');
    await page.getByText('Worth talking about').waitFor();
    await page.keyboard.press('F9');
    await soon(() => (plan().wantedLine?.nodes.length ?? 0) > 30).toBe(true);
    const own = page.getByRole('listitem').filter({ hasText: 'Wanted line' });
    const length = await own.innerText();
    expect(length).toMatch(/1[3-7]\d\.\d m/);
    await page.getByLabel('How tight it bends').fill('0');
    await page.getByLabel('How tight it bends').blur();
    await soon(() => plan().wantedLine?.tension).toBe(0);
    await soon(() => own.innerText()).not.toBe(length);
    await page.keyboard.press('F9');
    await soon(() => plan().wantedLine).toBeUndefined();
  });

  it('says what a course of bare numbers would need', async () => {
    const bare = memoryHost();
    bare.addReview({ id: 'bare', title: 'Only numbers', course: countedCourse(5) });
    await open('Read', Promise.resolve(bare), '#/course/bare');
    await page.getByText('A reading needs a drawn course.').waitFor();
    await page.getByText('Say what stands at 1 to 5').waitFor();
    await page.getByRole('tab', { name: 'Plan', exact: true }).click();
    await page.getByText('Needs a drawn course: the line tells when the dog is where.').waitFor();
  });
});

describe('planning the handling', () => {
  it('keeps spots, supports and sides, says where sides and crosses disagree, and tells the time to spare', async () => {
    await open('Plan');
    await page.getByRole('button', { name: 'Line up 1 and 2' }).click();
    await soon(() => plan().wait !== undefined).toBe(true);
    await page.getByText('From here 1 and 2 stand in one line for her').waitFor();
    await page.getByRole('button', { name: 'Place: Where I release her' }).click();
    await soon(() => plan().leadOut !== undefined).toBe(true);
    const first = plan().leadOut;
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowUp');
    await soon(() => Math.round(((plan().leadOut?.y ?? 0) - (first?.y ?? 0)) * 10)).toBe(5);
    await goTo(5);
    await page.keyboard.press('`');
    await soon(() => plan().supports.map((s) => s.place)).toEqual([5]);
    await page
      .getByRole('button', { name: /^front cross at 3$/ })
      .or(page.getByText('front cross at 3'))
      .first()
      .click();
    await page.getByText(/Front cross at 3: \d+\.\d s (too late|to spare)/).waitFor();
    // The handler leads out to the left of her dog, whom the front cross at 3 puts on the left.
    const after4 = page.getByRole('button', { name: /^After 4:/ });
    for (let i = 0; i < 2; i++) await after4.click();
    await soon(() => plan().sides).toEqual([{ after: 4, side: 'right' }]);
    await page.getByText(/After 4 you state the dog on your right, but the front cross at 3/).waitFor();
    await after4.click();
    await page.getByText('Sides and crosses agree.').waitFor();
  });

  it('keeps plans side by side, takes another one up, and plays it on the map', async () => {
    await open('Plan');
    await page.getByRole('button', { name: 'Another plan from this one' }).click();
    await soon(() => plan().others.length).toBe(1);
    await page.getByLabel('Name of this plan').fill('rear at 3');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Use Plan without a name' }).click();
    await soon(() => [plan().name, plan().others[0]?.name]).toEqual(['', 'rear at 3']);
    await page.getByRole('tab', { name: 'Plan', exact: true }).focus();
    await page.keyboard.press('Space');
    const moment = page.getByLabel('Moment of the plan');
    await soon(async () => Number(await moment.inputValue())).toBeGreaterThan(0.3);
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Remove rear at 3' }).click();
    await soon(() => plan().others.length).toBe(0);
  });
});

describe('a course that is planned before it is run', () => {
  it('shows a way into the poles that opens, a back jump, and a second choice that has the time; and has no film', async () => {
    await open('Read', demoHost(), `#/course/${plannedReview}`);
    await page.getByText(/From 5 .* a wing of the birch one \(17\) hides the first two poles/).waitFor();
    await page
      .getByText(/Ahead of her from 13 .* the white one \(1\) the wrong way round, a back jump/)
      .waitFor();
    await page.getByText(/Ahead of her from 15 .* stands the wrong end of the poles \(6\)/).waitFor();
    // Landing after 5 in hand, behind those of 1, 2 and 3: two thirds of a metre farther out.
    await goTo(5);
    for (let i = 0; i < 4; i++) await page.keyboard.press("'");
    await page.getByText('Landing after 5 is in hand').waitFor();
    for (let i = 0; i < 7; i++) await page.keyboard.press('ArrowUp');
    await page.getByText(/From 5 .* with the first two poles clear before her/).waitFor();
    const landings = () => host.review(plannedReview)?.plan.landings?.map((l) => l.number);
    await soon(landings).toEqual([5]);
    await page.getByRole('button', { name: 'Land as computed' }).click();
    await page
      .getByText(/From 5 .* hides the first two poles/)
      .first()
      .waitFor();

    await page.getByRole('tab', { name: 'Plan', exact: true }).click();
    await page.getByRole('row', { name: /Two fronts in use 3 −\d\.\d s/ }).waitFor();
    await page.getByRole('row', { name: /Rear at 13 3 \+0\.\d s/ }).waitFor();
    await page.getByRole('button', { name: /−\d\.\d s front cross at 13/ }).click();
    await page.getByText(/Front cross at 13: \d\.\d s too late. .* the entry is at/).waitFor();
    await page.getByText(/Rear cross at 13: 0\.\d s to spare/).waitFor();
    // What she can do argues with the plan at once, from whatever window it is noted.
    const name = host.review(plannedReview)?.header.dog ?? '';
    host.dogs.put(Dog.parse({ id: 'd1', name, skills: { verbalTurns: { right: true } } }));
    await page.getByText('She turns right on a word: said before she goes in, it is cue enough.').waitFor();
    await page.getByRole('button', { name: /s front cross at 3$/ }).click();
    await page.getByText(/From 3 to 4 .* a rear cross on the landing side of 3 costs no entry/).waitFor();

    await page.keyboard.press('F4');
    await page.getByText('This review has no footage yet.').waitFor();
    await page.getByText('Nothing to watch yet').waitFor();
    await page.getByRole('button', { name: 'To the course and the plan' }).click();
    await page.waitForFunction((id) => location.hash === `#/course/${id}`, plannedReview);
    await page.keyboard.press('F6');
    await page.getByText('This run has no footage yet').waitFor();
  });
});
