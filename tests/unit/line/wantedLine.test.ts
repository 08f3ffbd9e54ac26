import { describe, expect, test } from 'vitest';
import { apart, passingsOf, wantedLength, wantedLine } from '../../../src/line/wantedLine.ts';

const bend = [
  { x: 0, y: 0 },
  { x: 10, y: 0 },
  { x: 10, y: 10 },
];

describe('the wanted line', () => {
  test('without tension goes straight from node to node', () => {
    expect(wantedLine(bend, 0)).toEqual(bend);
    expect(wantedLength(bend, 0)).toBe(20);
    expect(wantedLength(bend.slice(0, 2), 0.7)).toBe(10);
  });
  test('passes through its nodes, and its points come to its length', () => {
    const line = wantedLine(bend, 0.5);
    for (const node of bend)
      expect(line.some((p) => Math.hypot(p.x - node.x, p.y - node.y) < 1e-9)).toBe(true);
    const sum = line.reduce((all, p, i) => {
      const last = line[i - 1] ?? p;
      return all + Math.hypot(p.x - last.x, p.y - last.y);
    }, 0);
    expect(sum).toBeCloseTo(wantedLength(bend, 0.5), 1);
    expect(wantedLength(bend, 1)).toBeGreaterThan(wantedLength(bend, 0.5));
  });
  test('nodes on one spot and no nodes at all make no trouble', () => {
    const spot = { x: 1, y: 1 };
    expect(wantedLength([spot, spot, spot], 0.5)).toBe(0);
    expect(wantedLine([], 0.5)).toEqual([]);
    expect(passingsOf([], [spot])).toEqual([]);
  });
});

describe('where a line passes places', () => {
  test('there and back: the same place twice is passed twice', () => {
    const line = [
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: 0, y: 0 },
    ];
    const passed = passingsOf(line, [
      { x: 4, y: 1 },
      { x: 10, y: 0 },
      { x: 4, y: 1 },
    ]);
    expect(passed.map((p) => p.metres.toFixed(1))).toEqual(['4.0', '10.0', '16.0']);
    expect(passed[0]?.aside).toBeCloseTo(1, 6);
  });
});

describe('how far two lines lie apart', () => {
  const line = [
    { x: 0, y: 0 },
    { x: 10, y: 0 },
  ];
  test('one beside the other', () => {
    const other = line.map(({ x, y }) => ({ x, y: y + 2 }));
    expect(apart(line, other).mean).toBeCloseTo(2, 9);
    expect(apart(line, line)).toEqual({ mean: 0, most: 0 });
  });
  test('a line that goes further than the other is seen from that one', () => {
    expect(apart(line, [...line, { x: 13, y: 0 }]).most).toBeCloseTo(3, 9);
    expect(apart(line, [])).toEqual({ mean: Infinity, most: Infinity });
  });
});
