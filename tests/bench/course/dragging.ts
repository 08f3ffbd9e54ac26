import type { CDPSession, Page } from 'playwright';
import { countedCourse, type Course } from '../../../src/course/course.ts';
import { withPiece } from '../../../src/course/drawing/pieces.ts';
import { nextNumber, numbered } from '../../../src/course/drawing/numbering.ts';
import { obstacleKinds } from '../../../src/course/kinds.ts';

const kinds = obstacleKinds.filter((kind) => kind !== 'unknown');

/** A course of so many pieces in rows over its ring, the first of them numbered. */
export function courseOf(count: number, numbers = 20): Course {
  const columns = Math.ceil(Math.sqrt(count * 2));
  const rows = Math.ceil(count / columns);
  let course: Course = { ...countedCourse(0), ring: { width: columns * 5 + 7, length: rows * 5 + 7 } };
  for (let i = 0; i < count; i++) {
    const stand = {
      x: 6 + (i % columns) * 5,
      y: 6 + Math.floor(i / columns) * 5,
      headingDegrees: (i * 37) % 360,
    };
    course = withPiece(course, { id: `p${i}`, kind: kinds[i % kinds.length] ?? 'barJump', stand });
    const number = nextNumber(course);
    if (number !== null && number <= numbers) course = numbered(course, number, `p${i}`, 'forward');
  }
  return course;
}

export const fine = (value: number): string => `${value.toFixed(2)} ms`;

/** Work while something goes on, milliseconds per animation frame. */
export interface FrameCost {
  /** Of the page's main thread. */
  readonly main: number;
  /** CPU time of every process of the browser: painting, putting sheets together and bringing them to the screen too. */
  readonly all: number;
}

/**
 * What something costs a frame.
 * @param session of the page, with Performance enabled
 * @param whole of the browser
 */
export async function costOf(
  session: CDPSession,
  whole: CDPSession,
  page: Page,
  go: () => Promise<void>,
): Promise<FrameCost> {
  const taken = async (): Promise<FrameCost> => {
    const { metrics } = await session.send('Performance.getMetrics');
    const { processInfo } = await whole.send('SystemInfo.getProcessInfo');
    return {
      main: (metrics.find((m) => m.name === 'TaskDuration')?.value ?? NaN) * 1000,
      all: processInfo.reduce((sum, p) => sum + p.cpuTime, 0) * 1000,
    };
  };
  const counted = (): Promise<number> =>
    page.evaluate(() => (window as unknown as { frames: number }).frames);
  const [from, before] = [await counted(), await taken()];
  await go();
  const [to, after] = [await counted(), await taken()];
  const frames = to - from;
  return { main: (after.main - before.main) / frames, all: (after.all - before.all) / frames };
}

/** Counts animation frames from now on: each is an empty one, but for the counting. */
export const countFrames = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const w = window as unknown as { frames: number };
    w.frames = 0;
    const tick = (): void => {
      w.frames += 1;
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });

/**
 * Drags what is at a place, the pointer moving once a frame, as the page itself sees it: events are made in the page, so that no message from
 * outside is measured along with the work.
 */
export const drag = (page: Page, frames: number, x: number, y: number): Promise<void> =>
  page.evaluate(
    ([count, cx, cy]) => {
      const box = document.querySelector('[role="application"]');
      if (!box) throw new Error('there is no board');
      const send = (kind: string, at: number): void => {
        const common = { bubbles: true, cancelable: true, pointerId: 1, isPrimary: true };
        box.dispatchEvent(
          new PointerEvent(kind, {
            ...common,
            clientX: cx + 40 * Math.sin(at / 9),
            clientY: cy + 30 * Math.sin(at / 7),
            buttons: 1,
          }),
        );
      };
      Element.prototype.setPointerCapture = () => undefined;
      send('pointerdown', 0);
      return new Promise<void>((done) => {
        let n = 0;
        const step = (): void => {
          n += 1;
          send('pointermove', n);
          if (n < count) requestAnimationFrame(step);
          else {
            send('pointerup', n);
            done();
          }
        };
        requestAnimationFrame(step);
      });
    },
    [frames, x, y] as const,
  );

/** Where the first piece of a course stands on the screen: 6 m from two sides of a ring that is seen whole. */
export async function firstPiece(page: Page, { ring }: Course): Promise<readonly [number, number]> {
  const box = await page.getByRole('application').boundingBox();
  if (!box) throw new Error('there is no board');
  const { width, length } = ring ?? { width: 1, length: 1 };
  const scale = Math.min((box.width - 58) / width, (box.height - 58) / length);
  return [box.x + box.width / 2 + (6 - width / 2) * scale, box.y + box.height / 2 - (6 - length / 2) * scale];
}
