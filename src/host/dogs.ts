import { isDeepStrictEqual } from 'node:util';
import type { Dogs } from '../library/dogs.ts';
import { dogKeys, dogNamed, mostAlsoCalled, type Dog } from '../line/dog.ts';
import type { CallResult } from './contract/calls.ts';

/** The dog of a library that goes by a name; undefined where there is none that can be read. */
export function dogCalled(dogs: Dogs, name: string): Dog | undefined {
  return dogNamed(
    dogs.list().flatMap(({ body }) => body ?? []),
    name,
  );
}

/**
 * Takes a dog that was handed over into the library. One of her id, else one of her names, is the same dog: she keeps
 * the id and the names that she has here, since reviews find her by them. `other`: what is known of her here differs
 * and was left as it is; ask again with `replace`. Throws LibraryTrouble; whatever throws has changed nothing.
 */
export function takeDog(dogs: Dogs, given: Dog, replace: boolean): CallResult<'dog.take'> {
  const all = dogs.list().map((kept) => ({ kept, keys: dogKeys(kept.body ?? { ...kept, alsoCalled: [] }) }));
  const hers = new Set(dogKeys(given));
  const there =
    all.find(({ kept }) => kept.id === given.id) ?? all.find(({ keys }) => keys.some((key) => hers.has(key)));
  if (!there) {
    const { act, dog } = dogs.save(given, null);
    return { was: 'new', act, dog, there: null };
  }
  const { kept } = there;
  const names = kept.body ? [kept.name, ...kept.body.alsoCalled] : [kept.name];
  const more = names.filter((name) => dogKeys({ name, alsoCalled: [] }).every((key) => !hers.has(key)));
  const alsoCalled = [...given.alsoCalled, ...more].slice(0, mostAlsoCalled);
  const dog = { ...given, id: kept.id, alsoCalled };
  if (isDeepStrictEqual(dog, kept.body)) return { was: 'same', act: null, dog, there: kept.name };
  if (!replace) return { was: 'other', act: null, dog, there: kept.name };
  const saved = dogs.save(dog, kept.revision);
  return { was: 'replaced', act: saved.act, dog: saved.dog, there: kept.name };
}
