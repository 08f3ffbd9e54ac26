import { describe, expect, test } from 'vitest';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { categoryOf } from '../../../src/course/rules/categories.ts';
import { book, ours } from '../../unit/course/rules/books.ts';

const categories = (of: Parameters<typeof categoryOf>[0], heights: readonly number[]) =>
  heights.map((h) => {
    const c = categoryOf(of, h);
    return c.found ? c.category.id : c.why;
  });

describe('height categories', () => {
  test('FCI 2023 (Singapore Kennel Club, skc.org.sg/rules-1), at their edges', () => {
    expect(categories(fci2023, [34.99, 35, 42.99, 43, 47.99, 48])).toEqual(['S', 'M', 'M', 'I', 'I', 'L']);
  });

  test('five national classes (Finnish Agility Association), as a book of its own', () => {
    const finnish = book({
      categories: {
        value: [
          { id: 'XS', name: 'XS', from: 0, below: 28 },
          { id: 'S', name: 'S', from: 28, below: 35 },
          { id: 'M', name: 'M', from: 35, below: 43 },
          { id: 'SL', name: 'SL', from: 43, below: 50 },
          { id: 'L', name: 'L', from: 50, below: null },
        ],
        source: ours,
      },
    });
    expect(categories(finnish, [27.99, 28, 34.99, 35, 42.99, 43, 49.99, 50])).toEqual([
      'XS',
      'S',
      'S',
      'M',
      'M',
      'SL',
      'SL',
      'L',
    ]);
  });

  test('bars of the four categories (agilitynow.eu)', () => {
    expect(fci2023.bars?.value.map((b) => [b.category, b.least, b.most])).toEqual([
      ['S', 25, 30],
      ['M', 35, 40],
      ['I', 45, 50],
      ['L', 55, 60],
    ]);
  });
});
