import { basename, join } from 'node:path';
import { dogFileOf, largestDogFile, readDogFile } from '../../line/dogFile.ts';
import type { Dog } from '../../line/dog.ts';
import { dogFileWords } from '../../words/dogFile.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import type { CallHandler } from '../desk.ts';
import { takeDog } from '../dogs.ts';
import { safeFileName } from '../fileName.ts';
import { given, type Given } from '../fileSource.ts';
import { givenText } from '../givenText.ts';
import { trouble } from '../troubles.ts';
import { writeWhole } from '../wholeFile.ts';

export const dogSave: CallHandler<'dog.save'> = (desk, { dog, basedOn }) => {
  const saved = desk.library.dogs.save(dog, basedOn);
  if (saved.act !== null) desk.hub.dogsChanged();
  return saved;
};

export const dogRemove: CallHandler<'dog.remove'> = (desk, { id }) => {
  const act = desk.library.dogs.remove(id);
  desk.hub.dogsChanged();
  return { act };
};

export const dogTakeBack: CallHandler<'dog.takeBack'> = (desk, { act }) => {
  desk.library.dogs.takeBack(act);
  desk.hub.dogsChanged();
  return {};
};

/** Takes in the dog in a file. Read and checked as a whole before anything is kept. */
export const dogTake: CallHandler<'dog.take'> = async (desk, { source, replace }) => {
  const file = await given(desk, source);
  try {
    const taken = takeDog(desk.library.dogs, await read(file), replace);
    if (taken.act !== null) desk.hub.dogsChanged();
    return taken;
  } finally {
    if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
  }
};

async function read(file: Given): Promise<Dog> {
  // A character of UTF-8 takes four bytes at the most; the reader counts characters.
  if (file.bytes > 4 * largestDogFile)
    throw trouble(
      'badInput',
      hostTroubles.dogFile(file.name, [dogFileWords.tooLarge(file.bytes, largestDogFile)]),
    );
  const reading = readDogFile(await givenText(file));
  if (!reading.ok) throw trouble(reading.code, hostTroubles.dogFile(file.name, reading.problems));
  return reading.dog;
}

/**
 * Writes a dog into the library's folder of things to hand over, as a file that can be taken in elsewhere. A file of
 * an earlier writing gives way; it belongs to the library and is named after the dog.
 */
export const dogWrite: CallHandler<'dog.write'> = async (desk, { id }) => {
  const dog = desk.library.dogs.read(id);
  const path = join(
    desk.library.layout.reports,
    safeFileName(`${Array.from(dog.name).slice(0, 50).join('')}.dog.json`),
  );
  const bytes = await writeWhole(path, dogFileOf(dog));
  return { mediaId: desk.media.idFor(path), path, name: basename(path), bytes };
};
