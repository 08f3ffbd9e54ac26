import { z } from 'zod';
import { dogFileWords } from '../words/dogFile.ts';
import { issueTold, problemWords } from '../words/problems.ts';
import { Dog } from './dog.ts';

export const dogFormat = 'walkback.dog';
export const dogVersion = 1;

/** The largest file of a dog that is read, characters. A dog with full notes takes some twenty thousand. */
export const largestDogFile = 256 * 1024;
/** Problems told at once; a file of ten thousand mistakes is told by its first few. */
const mostProblems = 20;

/** A dog as she is handed over: JSON that anybody may read and write. */
export const DogFile = z.strictObject({
  format: z.literal(dogFormat),
  version: z.literal(dogVersion),
  dog: Dog,
});

export type DogReading =
  | { readonly ok: true; readonly dog: Dog }
  | { readonly ok: false; readonly code: 'badInput' | 'tooNew'; readonly problems: readonly string[] };

/** A dog as the text of a file that `readDogFile` reads back to the same dog. */
export const dogFileOf = (dog: Dog): string =>
  `${JSON.stringify({ format: dogFormat, version: dogVersion, dog }, null, 2)}\n`;

/**
 * Reads a file of a dog that somebody wrote. Never throws: what is wrong comes back as sentences, one a problem.
 * Checked: size, JSON, format and version, schema.
 */
export function readDogFile(text: string): DogReading {
  if (text.length > largestDogFile) return bad([dogFileWords.tooLarge(text.length, largestDogFile)]);
  if (text.trim() === '') return bad([problemWords.empty]);
  let raw: unknown;
  try {
    raw = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch (error) {
    return bad([problemWords.notJson(error instanceof Error ? error.message : String(error))]);
  }
  if (typeof raw !== 'object' || raw === null || !('format' in raw) || raw.format !== dogFormat)
    return bad([dogFileWords.notDog]);
  if ('version' in raw && typeof raw.version === 'number' && raw.version > dogVersion)
    return { ok: false, code: 'tooNew', problems: [dogFileWords.tooNew(raw.version, dogVersion)] };
  const parsed = DogFile.safeParse(raw);
  return parsed.success ? { ok: true, dog: parsed.data.dog } : bad(parsed.error.issues.map(issueTold));
}

function bad(problems: readonly string[]): DogReading {
  const told = problems.slice(0, mostProblems);
  const left = problems.length - told.length;
  return { ok: false, code: 'badInput', problems: left > 0 ? [...told, dogFileWords.more(left)] : told };
}
