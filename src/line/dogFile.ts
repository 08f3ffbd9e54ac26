import { z } from 'zod';
import { readHandedIn, type NotHandedIn } from '../course/file/handedIn.ts';
import { dogFileWords } from '../words/dogFile.ts';
import { Dog } from './dog.ts';

export const dogFormat = 'walkback.dog';
export const dogVersion = 1;

/** The largest file of a dog that is read, characters. A dog with full notes takes some twenty thousand. */
export const largestDogFile = 256 * 1024;

/** A dog as she is handed over: JSON that anybody may read and write. */
export const DogFile = z.strictObject({
  format: z.literal(dogFormat),
  version: z.literal(dogVersion),
  dog: Dog,
});

export type DogReading = { readonly ok: true; readonly dog: Dog } | NotHandedIn;

/** A dog as the text of a file that `readDogFile` reads back to the same dog. */
export const dogFileOf = (dog: Dog): string =>
  `${JSON.stringify({ format: dogFormat, version: dogVersion, dog }, null, 2)}\n`;

/** Reads a file of a dog that somebody wrote; see `readHandedIn`. */
export function readDogFile(text: string): DogReading {
  const reading = readHandedIn(text, {
    format: dogFormat,
    version: dogVersion,
    largest: largestDogFile,
    schema: DogFile,
    words: { ...dogFileWords, notThis: () => dogFileWords.notDog },
  });
  return reading.ok ? { ok: true, dog: reading.value.dog } : reading;
}
