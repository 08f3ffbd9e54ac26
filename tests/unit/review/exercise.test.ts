import { describe, expect, it } from 'vitest';
import { Exercise, ExerciseList, exerciseFor } from '../../../src/review/exercise.ts';
import { workThemes } from '../../../src/review/workOn.ts';
import { exerciseCautions, usualExercises, workThemeWords } from '../../../src/words/exercises.ts';

describe('exercises', () => {
  it('there is a usual one for everything that a run may ask for, and each can be kept', () => {
    const list = usualExercises;
    for (const theme of workThemes) {
      expect(exerciseFor(theme, list), theme).not.toBeNull();
      expect(workThemeWords[theme]).not.toBe('');
    }
    expect(ExerciseList.parse(list)).toEqual(list);
    expect(new Set(list.map((e) => e.id)).size).toBe(list.length);
  });

  it('the first of the list that names it counts; a list of the coach’s own may be empty', () => {
    const mine: Exercise = { id: 'mine', themes: ['bar'], title: 'My row', how: '' };
    expect(exerciseFor('bar', [mine, ...usualExercises])).toBe(mine);
    expect(exerciseFor('stay', [mine])).toBeNull();
    expect(ExerciseList.parse([])).toEqual([]);
    expect(ExerciseList.parse(undefined)).toBeUndefined();
  });

  it('what cannot be one is refused', () => {
    for (const bad of [
      { id: 'a', themes: [], title: 'x' },
      { id: 'a', themes: ['flying'], title: 'x' },
      { id: 'a', themes: ['bar'], title: '   ' },
      { id: '', themes: ['bar'], title: 'x' },
      { id: 'a', themes: ['bar'], title: 'x', how: 'y'.repeat(2001) },
    ])
      expect(Exercise.safeParse(bad).success).toBe(false);
  });

  it('every exercise stands over the usual cautions', () => {
    const said = exerciseCautions.join(' ');
    for (const must of ['Warm up', 'veterinar', 'Growing dogs', 'rules', 'lameness'])
      expect(said).toContain(must);
  });
});
