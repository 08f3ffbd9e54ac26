import { describe, expect, it } from 'vitest';
import { builtBy } from '../../../src/course/builtBy.ts';
import { checkCourse } from '../../../src/course/checkCourse.ts';
import { emptyCourse, type Course } from '../../../src/course/course.ts';
import { equipment, equipmentBy } from '../../../src/course/equipment.ts';
import { obstacleKinds, type ObstacleKind } from '../../../src/course/kinds.ts';
import { equipmentShapes, reach } from '../../../src/course/planShapes.ts';
import { RuleBook } from '../../../src/course/rules/book.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';

const source = { text: 'the club’s own sheet', kind: 'own', edition: 'current' };
const size = (least: number, most = least) => ({ value: { least, most }, source, status: 'seen' });

/** The worked book with other equipment. */
function bookWith(parts: object): RuleBook {
  const whole = JSON.parse(JSON.stringify(fci2023)) as { equipment: Record<string, object> };
  for (const [kind, entries] of Object.entries(parts))
    whole.equipment[kind] = { ...whole.equipment[kind], ...(entries as object) };
  const entry = fci2023.equipment.barJump?.barLength;
  if (!entry) throw new Error('the worked book has no bar');
  const sources = JSON.stringify(whole).replaceAll(JSON.stringify(source), JSON.stringify(entry.source));
  return RuleBook.parse(JSON.parse(sources));
}

const one = (kind: ObstacleKind, sizes?: object): Course => ({
  ...emptyCourse(),
  obstacles: [
    { id: 'a', kind, nickname: '', stand: { x: 5, y: 5, headingDegrees: 0 }, ...(sizes ? { sizes } : {}) },
  ],
});
const pieceOf = (course: Course) => {
  const [piece] = course.obstacles;
  if (!piece?.stand) throw new Error('nothing stands');
  return { piece, stand: piece.stand };
};

describe('equipment built by a rule book', () => {
  it('is the table itself for the worked book and large dogs', () => {
    expect(equipmentBy(fci2023.equipment, 'L')).toEqual(
      Object.fromEntries(
        Object.entries(equipment).map(([name, d]) => [
          name,
          d.status === 'derived' ? { ...d, source: expect.any(String) as string } : d,
        ]),
      ),
    );
  });

  it('follows the height category where the book tells them apart', () => {
    expect(equipmentBy(fci2023.equipment, 'S').spreadDepth.value).toBeLessThan(equipment.spreadDepth.value);
    // A category that the book does not have: its last one counts.
    expect(equipmentBy(fci2023.equipment, 'elsewhere').spreadDepth.value).toBe(equipment.spreadDepth.value);
  });

  it('draws an A-frame as long as its ramps make it (sides 3, 4 and 5: 1.80 m high, ramps of 3.00 m)', () => {
    const book = bookWith({ aFrame: { apex: size(180), rampLength: size(300) } });
    const { piece, stand } = pieceOf(builtBy(one('aFrame'), book));
    expect(2 * reach(piece)).toBeCloseTo(4.8, 9);
    const plank = equipmentShapes(piece, stand).find((s) => s.as === 'plank');
    expect(plank?.shape === 'path' && plank.points).toEqual([
      [expect.closeTo(2.6, 9), 5],
      [expect.closeTo(7.4, 9), 5],
    ]);
    expect(2 * reach(pieceOf(one('aFrame')).piece)).toBeCloseTo(4.195, 3);
  });

  it('keeps what it draws within what the book allows, and a piece’s own sizes before the book’s', () => {
    const book = bookWith({ tunnel: { length: size(600, 800) }, weavePoles: { spacing: size(55) } });
    expect(pieceOf(builtBy(one('tunnel'), book)).piece.sizes?.tunnelLength).toBe(6);
    expect(pieceOf(builtBy(one('tunnel', { tunnelLength: 4 }), book)).piece.sizes?.tunnelLength).toBe(4);
    const poles = pieceOf(builtBy(one('weavePoles', { poles: 6 }), book)).piece;
    expect(2 * reach(poles)).toBeCloseTo(5 * 0.55, 9);
  });

  it('falls back to the table where ramps could not stand or the book says nothing', () => {
    const leaning = bookWith({ aFrame: { apex: size(300), rampLength: size(200) } });
    expect(equipmentBy(leaning.equipment).aFrameFootprint).toEqual(equipment.aFrameFootprint);
    expect(equipmentBy({})).toEqual(equipment);
  });

  it('builds every kind without a size that is no number', () => {
    for (const kind of obstacleKinds) {
      const { piece, stand } = pieceOf(builtBy(one(kind), fci2023));
      expect(JSON.stringify(equipmentShapes(piece, stand)), kind).not.toContain('null');
    }
  });

  it('builds the same course once, and leaves the one that is kept as it is', () => {
    const course = one('table');
    const before = JSON.stringify(course);
    expect(builtBy(course, fci2023)).toBe(builtBy(course, fci2023));
    expect(JSON.stringify(course)).toBe(before);
    expect(builtBy(course, undefined)).toBe(course);
  });

  it('counts in what is checked: distances run from the book’s own equipment', () => {
    const course: Course = {
      ...emptyCourse(),
      obstacles: [
        { id: 'a', kind: 'aFrame', nickname: '', stand: { x: 5, y: 5, headingDegrees: 0 } },
        { id: 'b', kind: 'barJump', nickname: '', stand: { x: 13, y: 5, headingDegrees: 0 } },
      ],
      steps: [
        { number: 1, obstacleId: 'a', direction: 'forward' },
        { number: 2, obstacleId: 'b', direction: 'forward' },
      ],
    };
    const measured = (book: RuleBook): unknown =>
      checkCourse(course, book, { category: 'L' }).findings.find((f) => f.numbers.join() === '1,2')
        ?.judgement;
    const long = bookWith({ aFrame: { apex: size(180), rampLength: size(300) } });
    expect(measured(fci2023)).toMatchObject({ measured: expect.closeTo(8 - 4.195 / 2, 2) as number });
    expect(measured(long)).toMatchObject({ measured: expect.closeTo(8 - 4.8 / 2, 2) as number });
  });
});
