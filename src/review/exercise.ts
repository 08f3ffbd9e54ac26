import { z } from 'zod';
import { workThemes, type WorkTheme } from './workOn.ts';

/** Something to train at home or in class. The list is the coach's: she changes, adds and takes out. */
export const Exercise = z.strictObject({
  id: z.string().min(1).max(80),
  /** What it helps with. */
  themes: z.array(z.enum(workThemes)).min(1).max(workThemes.length),
  title: z.string().trim().min(1).max(120),
  how: z.string().max(2000).default(''),
});
export type Exercise = z.infer<typeof Exercise>;

/** Most exercises that are kept. */
export const mostExercises = 200;

/** The coach's list; absent: the usual one. */
export const ExerciseList = z.array(Exercise).max(mostExercises).optional();

/** The exercise for a theme: the first of the list that names it; null where none does. */
export const exerciseFor = (theme: WorkTheme, list: readonly Exercise[]): Exercise | null =>
  list.find((e) => e.themes.includes(theme)) ?? null;
