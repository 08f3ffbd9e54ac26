import { describe, expect, test } from 'vitest';
import { Course } from '../../../src/course/course.ts';
import { courseMap } from '../../../src/course/courseMap.ts';
import { sample } from '../report/sample.ts';

describe('the map in the report', () => {
  test('is drawn to scale in metres, every number on it, nothing outside', () => {
    const map = courseMap(sample().review.course);
    expect(map).toMatchObject({ width: 20, height: 40, toScale: true, numbers: 20 });
    const numbers = map?.shapes.flatMap((s) => (s.shape === 'number' ? [s] : [])) ?? [];
    expect(numbers.map((n) => n.text)).toEqual(Array.from({ length: 20 }, (_, i) => String(i + 1)));
    for (const n of numbers) {
      expect(n.x).toBeGreaterThan(0);
      expect(n.x).toBeLessThan(20);
      expect(n.y).toBeGreaterThan(0);
      expect(n.y).toBeLessThan(40);
    }
  });

  test('puts a number on the side the dog comes from', () => {
    const course = (direction: 'forward' | 'reverse') =>
      Course.parse({
        ring: { width: 20, length: 20 },
        obstacles: [
          { id: 'a', kind: 'barJump', stand: { x: 10, y: 10, headingDegrees: 90 } },
          { id: 'b', kind: 'barJump', stand: { x: 4, y: 4, headingDegrees: 0 } },
        ],
        steps: [{ number: 1, obstacleId: 'a', direction }],
      });
    const y = (direction: 'forward' | 'reverse'): number =>
      courseMap(course(direction))?.shapes.flatMap((s) => (s.shape === 'number' ? [s.y] : []))[0] ?? NaN;
    // The dog runs up the page: it comes from below, where y on the page is larger.
    expect(y('forward')).toBeGreaterThan(10);
    expect(y('reverse')).toBeLessThan(10);
  });

  test('is only numbers where they were clicked on a picture, and nothing where nothing stands', () => {
    const picture = { pictureId: 'p', name: 'map.jpg', width: 800, height: 600 };
    const steps = [1, 2].map((number) => ({
      number,
      obstacleId: `o${number}`,
      onPicture: { x: number / 4, y: 0.5 },
    }));
    const obstacles = [1, 2].map((n) => ({ id: `o${n}`, kind: 'unknown' }));
    const map = courseMap(Course.parse({ obstacles, steps, mapPicture: picture }));
    expect(map).toMatchObject({ width: 100, height: 75, toScale: false, numbers: 2 });
    expect(courseMap(Course.parse({ obstacles, steps }))).toBeNull();
    expect(courseMap(Course.parse({}))).toBeNull();
  });
});
