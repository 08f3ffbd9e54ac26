import { describe, expect, test } from 'vitest';
import {
  Dog,
  dogKey,
  dogNamed,
  figureBounds,
  renamed,
  runnerFigures,
  withFigure,
} from '../../../src/line/dog.ts';
import { runnerWith } from '../../../src/line/runner.ts';

const fen = Dog.parse({ id: 'd1', name: 'Fen' });

describe('what is kept of a dog', () => {
  test('a name is enough; the rest is as assumed, or not known', () => {
    expect(fen).toEqual({
      id: 'd1',
      name: 'Fen',
      alsoCalled: [],
      runner: {},
      skills: { weaveEntries: [], neverMet: [], verbalTurns: {} },
      notes: '',
    });
    expect(runnerWith(fen.runner)).toEqual(runnerWith());
  });

  test.each(runnerFigures)('%s: the assumed lies within what is believed, beyond it is refused', (figure) => {
    const { lowest, least, usual, most, highest } = figureBounds(figure);
    expect([lowest, least, usual, most, highest].toSorted((a, b) => a - b)).toEqual([
      lowest,
      least,
      usual,
      most,
      highest,
    ]);
    for (const value of [lowest, highest])
      expect(Dog.parse(withFigure(fen, figure, value)).runner).toEqual({ [figure]: value });
    for (const value of [lowest - 0.01, highest + 0.01, NaN, Infinity, -Infinity, '3', null])
      expect(Dog.safeParse({ ...fen, runner: { [figure]: value } }).success).toBe(false);
  });

  test.each<[string, unknown]>([
    ['no name', { ...fen, name: ' \n ' }],
    ['a name of a page', { ...fen, name: 'F'.repeat(81) }],
    ['no id', { ...fen, id: '' }],
    ['a figure that no dog has', { ...fen, runner: { wings: 2 } }],
    ['a name kept twice', { ...fen, alsoCalled: ['Moss', 'm o s s'] }],
    ['her own name as an older one', { ...fen, alsoCalled: ['FEN'] }],
    ['more done than tried', { ...fen, skills: { ...fen.skills, stay: { done: 4, tried: 3 } } }],
    ['something of nobody', { ...fen, wings: 2 }],
    ['nothing', null],
  ])('%s is refused', (_name, value) => {
    expect(Dog.safeParse(value).success).toBe(false);
  });
});

describe('which dog a review means', () => {
  const moss = Dog.parse({ id: 'd2', name: 'Moss of the Hill', alsoCalled: ['Mossie'] });

  test('neither case nor spaces nor the way an accent is written tell names apart', () => {
    expect(dogKey(' Blue  Bell')).toBe(dogKey('bluebell'));
    expect(dogKey('Zo\u00e9')).toBe(dogKey('zoe\u0301'));
    expect(dogNamed([fen, moss], 'moss OF the  hill')).toBe(moss);
    expect(dogNamed([fen, moss], 'mossie')).toBe(moss);
    expect(dogNamed([fen, moss], 'Mo')).toBeUndefined();
    expect(dogNamed([fen, moss], ' ')).toBeUndefined();
  });

  test('a new name leaves her to be found by the older one, and the older one can be had again', () => {
    const tarn = renamed(fen, 'Tarn');
    expect(tarn).toMatchObject({ name: 'Tarn', alsoCalled: ['Fen'] });
    expect(dogNamed([tarn], 'fen')).toBe(tarn);
    expect(Dog.parse(renamed(tarn, 'FEN'))).toMatchObject({ name: 'FEN', alsoCalled: ['Tarn'] });
    expect(renamed(fen, 'fen')).toMatchObject({ name: 'fen', alsoCalled: [] });
    let often = fen;
    for (let n = 0; n < 30; n++) often = renamed(often, `Name ${n}`);
    expect(Dog.parse(often).alsoCalled.at(-1)).toBe('Name 28');
  });
});

test('a figure of her own stands beside the assumed ones, and goes again', () => {
  const long = withFigure(fen, 'landing', 2.4);
  expect(runnerWith(long.runner)).toEqual({ ...runnerWith(), landing: 2.4 });
  expect(withFigure(long, 'landing', undefined)).toEqual(fen);
});
