import { z } from 'zod';
import { assumedRunner, type Assumed, type Runner } from './runner.ts';
import { DogSkills } from './skills.ts';

export type RunnerFigure = keyof Runner;

/** The figures of a runner, in the order in which they are told. */
export const runnerFigures = Object.keys(assumedRunner) as readonly RunnerFigure[];

/**
 * Between which a figure of a real dog may be stated. Wider than what is assumed: a small or careful dog may lie
 * outside that. Beyond these it is a slip of the keys or another unit (common sense; no published source).
 */
const limits = {
  topSpeed: [1, 15],
  pickUp: [0.5, 20],
  braking: [0.5, 20],
  grip: [1, 20],
  leastRadius: [0.2, 5],
  takeOff: [0.1, 5],
  landing: [0.1, 5],
  sliceMost: [0, 80],
  besideWing: [0.05, 1.5],
  tunnelSpeed: [0.5, 15],
  weaveSpeed: [0.3, 8],
  aFrameSpeed: [0.3, 10],
  dogWalkSpeed: [0.3, 10],
  seeSawSpeed: [0.2, 10],
  seeSawWait: [0, 10],
  committedAt: [0, 20],
  tableWait: [0, 30],
} as const satisfies Record<RunnerFigure, readonly [least: number, most: number]>;

/** A figure as it may be stated of a dog: assumed values, their unit and reason, and the widest that is believed. */
export interface FigureBounds extends Assumed {
  readonly lowest: number;
  readonly highest: number;
}

export function figureBounds(figure: RunnerFigure): FigureBounds {
  const [lowest, highest] = limits[figure];
  return { ...assumedRunner[figure], lowest, highest };
}

const KnownRunner = z.strictObject(
  Object.fromEntries(
    runnerFigures.map((figure) => {
      const [lowest, highest] = limits[figure];
      return [figure, z.number().min(lowest).max(highest).exactOptional()];
    }),
  ) as { readonly [K in RunnerFigure]: z.ZodExactOptional<z.ZodNumber> },
);

/** Longest name of a dog; as long as a review's header has it. */
export const longestDogName = 80;

/** Most names by which a dog is found beside her own. */
export const mostAlsoCalled = 20;

const Name = z
  .string()
  .max(longestDogName)
  .refine((name) => dogKey(name) !== '', 'a dog needs a name');

/** A dog of the library: what is known of how she runs and what she can do. What is absent is as assumed, or not known. */
export const Dog = z
  .strictObject({
    id: z.string().min(1).max(80),
    name: Name,
    /** Names by which reviews may call her too: those she had before. */
    alsoCalled: z.array(Name).max(mostAlsoCalled).default([]),
    /** Her own figures, in the units of `assumedRunner`. */
    runner: KnownRunner.default({}),
    skills: DogSkills.default(DogSkills.parse({})),
    notes: z.string().max(8000).default(''),
  })
  .refine(
    (dog) => new Set(dogKeys(dog)).size === dog.alsoCalled.length + 1,
    'a name stands twice; keep it once',
  );
export type Dog = z.infer<typeof Dog>;

/** What tells names apart: neither case nor spaces, nor how an accented letter is written. */
export const dogKey = (name: string): string => name.normalize('NFKC').toLowerCase().replaceAll(/\s+/gu, '');

/** Every key by which a dog is found. */
export const dogKeys = (dog: { readonly name: string; readonly alsoCalled: readonly string[] }): string[] =>
  [dog.name, ...dog.alsoCalled].map(dogKey);

/** The dog that a review means by the name in its header; undefined where it names none, or none is known by it. */
export function dogNamed<D extends Pick<Dog, 'name' | 'alsoCalled'>>(
  dogs: readonly D[],
  name: string,
): D | undefined {
  const key = dogKey(name);
  return key === '' ? undefined : dogs.find((dog) => dogKeys(dog).includes(key));
}

/** The dog under another name. Her name so far is kept among those she is found by; of many, the latest. */
export function renamed(dog: Dog, name: string): Dog {
  const key = dogKey(name);
  const before = key === dogKey(dog.name) ? [] : [dog.name];
  const others = [...dog.alsoCalled.filter((n) => dogKey(n) !== key), ...before];
  return { ...dog, name, alsoCalled: others.slice(-mostAlsoCalled) };
}

/** The dog with one figure of her own, or as assumed again. */
export function withFigure(dog: Dog, figure: RunnerFigure, value: number | undefined): Dog {
  const { [figure]: _was, ...others } = dog.runner;
  return { ...dog, runner: value === undefined ? others : { ...others, [figure]: value } };
}
