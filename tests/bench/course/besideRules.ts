import type { Course } from '../../../src/course/course.ts';
import { CourseHead } from '../../../src/course/course.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import type { WindowStand } from '../../e2e/libraryWindow.ts';
import { memoryHost } from '../../unit/app-window/memoryHost.ts';
import { atMost, median } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';
import { costOf, countFrames, courseOf, drag, fine, firstPiece } from './dragging.ts';

/** Dragging beside the page of rules, which goes along, against the same drag beside the page of numbers. */
export async function besideRules(stand: WindowStand): Promise<BenchLine[]> {
  const course: Course = {
    ...courseOf(60, 60),
    ruleBook: fci2023.id,
    head: CourseHead.parse({ heightCategory: 'L' }),
  };
  const host = memoryHost();
  host.addReview({ id: 'ruled', title: 'Bench', course });
  const page = await stand.open(host, '#/course/ruled');
  const [x, y] = await firstPiece(page, course);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const whole = await stand.browser.newBrowserCDPSession();
  await countFrames(page);
  await drag(page, 60, x, y);
  await page.keyboard.press('z');
  const costs = { Numbers: [] as number[], Rules: [] as number[] };
  let looks = 0;
  for (let i = 0; i < 5; i++) {
    for (const tab of ['Numbers', 'Rules'] as const) {
      await page.getByRole('tab', { name: tab }).click();
      await page.waitForTimeout(300);
      const text = (): Promise<string> => page.locator('#course-page').innerText();
      const before = await text();
      costs[tab].push((await costOf(session, whole, page, () => drag(page, 120, x, y))).main);
      if (tab === 'Rules') {
        await page.waitForTimeout(500);
        if ((await text()) !== before) looks += 1;
      }
      await page.keyboard.press('z');
      await page.waitForTimeout(100);
    }
  }
  const [ruled, bare] = [median(costs.Rules), median(costs.Numbers)];
  await page.context().close();
  return [
    {
      figure: 'drags that the page of rules went along with',
      asked: '5',
      measured: String(looks),
      holds: looks === 5,
    },
    atMost(
      'dragging in a course of 60 numbers with its rules beside it, over the same with its numbers beside it',
      ruled / bare,
      1.25,
      `${fine(ruled)} of the main thread a frame, against ${fine(bare)}`,
    ),
  ];
}
