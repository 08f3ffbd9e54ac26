import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { countedCourse, courseProblems } from '../../src/course/course.ts';
import { drawingFindings } from '../../src/course/drawingFindings.ts';
import { memoryHost, type MemoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';

/** The drawing board in the real window, by mouse and by keys. */
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

async function open(count = 0): Promise<void> {
  host = memoryHost();
  host.addReview({ id: 'r', title: 'Evening', ...(count > 0 ? { course: countedCourse(count) } : {}) });
  page = await stand.open(host, '#/course/r');
  errors = [];
  page.on('pageerror', (error) => errors.push(error.message));
}

const course = () => {
  const held = host.review('r')?.course;
  if (!held) throw new Error('the review is gone');
  return held;
};
const soon = <T>(held: () => T) => expect.poll(held, { timeout: 10_000 });
const board = () => page.getByRole('application');

/** Screen places of ground places while the usual ring of 40 by 20 m is seen whole, 28 px from the nearer sides. */
async function onScreen(): Promise<(x: number, y: number) => readonly [number, number]> {
  const box = await board().boundingBox();
  if (!box) throw new Error('there is no board');
  // The frame has an edge of one pixel.
  const [width, height] = [box.width - 2, box.height - 2];
  const scale = Math.min((width - 56) / 40, (height - 56) / 20);
  return (x, y) => [box.x + 1 + width / 2 + (x - 20) * scale, box.y + 1 + height / 2 - (y - 10) * scale];
}

describe('drawing a course', () => {
  it('places twenty obstacles and numbers them in 84 presses and movements, on the grid', async () => {
    await open();
    const at = await onScreen();
    const keys = ['1', '2', '1', '7', '1', '8', '1', '9', '1', '6'] as const;
    const began = Date.now();
    let hands = 0;
    for (let row = 0; row < 2; row++)
      for (const [i, key] of keys.entries()) {
        await page.mouse.move(...at(3 + i * 3.7, row === 0 ? 5 : 15));
        await page.keyboard.press(key);
        await page.keyboard.press('q');
        await page.keyboard.press('Enter');
        hands += 4;
      }
    await soon(() => course().steps.length).toBe(20);
    hands += 4;
    expect(hands).toBe(84);
    expect(courseProblems(course())).toEqual([]);
    expect(course().obstacles.filter((o) => o.stand).length).toBe(20);
    for (const o of course().obstacles) {
      expect((o.stand?.x ?? NaN) % 0.5).toBe(0);
      expect((o.stand?.y ?? NaN) % 0.5).toBe(0);
    }
    // A hand takes about a second for each: well under four minutes. The program itself must not hold it up.
    expect((Date.now() - began) / hands).toBeLessThan(400);
  });

  it('numbers by clicking in order, on the numbers that waited, and can be undone to the first', async () => {
    await open(4);
    const at = await onScreen();
    for (const [key, x] of [
      ['1', 6],
      ['3', 12],
      ['7', 20],
    ] as const) {
      await page.mouse.move(...at(x, 10));
      await page.keyboard.press(key);
    }
    await page.keyboard.press('n');
    await page.getByText('Click the obstacle that is 1.').waitFor();
    await page.mouse.click(...at(6, 10));
    await page.mouse.click(...at(12, 10));
    await page.mouse.click(...at(22.4, 10));
    await page.mouse.click(...at(6, 10));
    await page.getByText('Click the obstacle that is 5.').waitFor();
    await soon(() => course().obstacles.length).toBe(3);
    await soon(() => course().steps.map((s) => `${s.number}${s.direction === 'reverse' ? '<' : ''}`)).toEqual(
      ['1', '2', '3<', '4<'],
    );
    for (let i = 0; i < 7; i++) await page.keyboard.press('z');
    await soon(() => course()).toEqual(countedCourse(4));
  });

  it('drags a piece, moves it by keys as one act, undoes, and is the same after a reload', async () => {
    await open();
    const at = await onScreen();
    await page.mouse.move(...at(6, 10));
    await page.keyboard.press('1');
    await soon(() => course().obstacles[0]?.stand?.x).toBe(6);
    await page.mouse.move(...at(6, 10.5));
    await page.mouse.down();
    await page.mouse.move(...at(9, 12), { steps: 5 });
    await page.mouse.move(...at(12, 14.5), { steps: 5 });
    await page.mouse.up();
    await soon(() => course().obstacles[0]?.stand).toMatchObject({ x: 12, y: 14 });
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
    await soon(() => course().obstacles[0]?.stand).toMatchObject({ x: 13.5 });
    await page.keyboard.press('z');
    await soon(() => course().obstacles[0]?.stand).toMatchObject({ x: 12, y: 14 });
    expect(host.asked.filter((a) => a.name === 'review.apply').length).toBe(3);
    await page.keyboard.press('z');
    await soon(() => course().obstacles[0]?.stand).toMatchObject({ x: 6, y: 10 });
    await page.keyboard.press('y');
    await soon(() => course().obstacles[0]?.stand).toMatchObject({ x: 12, y: 14 });
    await page.reload();
    await board().waitFor();
    await page.keyboard.press('j');
    await page.getByText('bar jump, at 12.0 m by 14.0 m, heading 0°').waitFor();
  });

  it('finds what does not fit and leads to it', async () => {
    await open();
    const at = await onScreen();
    for (const [x, y] of [
      [10, 10],
      [10, 10.5],
      [20, 19.5],
    ] as const) {
      await page.mouse.move(...at(x, y));
      await page.keyboard.press('4');
    }
    await page.getByRole('tab', { name: 'Check 2' }).click();
    await page.getByText('wall and wall stand on the same ground.').waitFor();
    await page.getByText('wall reaches out of the ring.').waitFor();
    expect(drawingFindings(course()).length).toBe(2);
    await page.getByRole('button', { name: 'Show' }).first().click();
    await page.getByText('2 pieces').last().waitFor();
    await page.keyboard.press('Delete');
    await page.getByRole('tab', { name: 'Check 1' }).waitFor();
  });

  it('holds a course against the rule book that is chosen, each finding with its entry', async () => {
    await open();
    await page.getByRole('button', { name: 'Start from an exercise' }).click();
    await page.getByRole('button', { name: 'Square of four' }).click();
    await page.getByRole('tab', { name: 'Check' }).click();
    await page.getByText('Nothing to look at').waitFor();
    await page.getByRole('tab', { name: 'Rules' }).click();
    await page.getByLabel('Rule book').selectOption({ index: 1 });
    await page.getByText('Obstacles: 4; too little').waitFor();
    await page.getByText('Length, straight from centre to centre: 21.21 m.').waitFor();
    await page.getByLabel('Height category').selectOption({ label: 'L, Large' });
    await soon(() => course().head?.heightCategory).toBe('L');
    expect(course().ruleBookChosen?.content.length).toBe(64);
  });

  it('starts from an exercise, in feet, with the head of the map filled in', async () => {
    await open();
    await page.getByRole('button', { name: 'Start from an exercise' }).click();
    await page.getByRole('button', { name: 'Straight line' }).click();
    await soon(() => course().steps.length).toBe(4);
    await page.getByLabel('Class').fill('agility');
    await page.getByLabel('Judge').fill('R. Fell');
    await page.getByLabel('Date').fill('2026-05-02');
    await page.getByLabel('feet').check();
    await page.getByLabel('Width, ft').fill('100');
    await page.keyboard.press('Enter');
    await soon(() => course().ring?.width).toBeCloseTo(30.48, 6);
    expect(course().head).toMatchObject({ class: 'agility', judge: 'R. Fell', date: '2026-05-02' });
    await page.getByLabel('Width, ft').fill('a hundred');
    await page.keyboard.press('Enter');
    await page.getByText('A ring measures 3 ft to 1,640 ft each way.').waitFor();
    expect(course().unit).toBe('feet');
  });

  it('shows the sizes of what is chosen and takes others', async () => {
    await open();
    const at = await onScreen();
    await page.getByRole('tab', { name: 'Draw' }).click();
    await page.getByRole('button', { name: 'weave poles' }).click();
    await page.mouse.click(...at(20, 10));
    await page.keyboard.press('Escape');
    await page.getByLabel('Poles', { exact: true }).fill('6');
    await page.keyboard.press('Enter');
    await soon(() => course().obstacles[0]?.sizes).toEqual({ poles: 6 });
    await page.getByLabel('Poles', { exact: true }).fill('600');
    await page.keyboard.press('Enter');
    await page.getByLabel('Kind').selectOption('barJump');
    await soon(() => course().obstacles[0]).not.toHaveProperty('sizes');
  });
});
