import type { Database } from 'better-sqlite3';
import { isDeepStrictEqual } from 'node:util';
import { Dog, dogKeys } from '../line/dog.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { keptThings, type KeptThings } from './kept.ts';
import { LibraryTrouble } from './trouble.ts';

/** Most dogs that a library holds, so that the list can be told whole at each change. */
export const mostDogs = 300;

/** How saving a dog ended; `act` can be taken back, null where nothing was changed. */
export interface DogSaved {
  readonly was: 'new' | 'changed' | 'same';
  readonly act: number | null;
  readonly dog: Dog;
  readonly revision: number;
}

/** The dogs of the library. Every function throws LibraryTrouble; whatever throws has changed nothing. */
export interface Dogs extends Pick<KeptThings<Dog>, 'list' | 'read' | 'remove' | 'takeBack'> {
  /**
   * Keeps a dog under her id. `basedOn` is the revision that was changed, null for a new dog. Throws `conflict` where
   * she was changed meanwhile, or where another dog goes by one of her names: reviews know a dog by her name alone.
   */
  save(dog: Dog, basedOn: number | null): DogSaved;
}

const words = libraryTroubles.dogs;

export function dogsOf(db: Database, author: string, clock: () => number, newId: () => string): Dogs {
  const { list, read, remove, takeBack, stored, checked, write } = keptThings<Dog>(db, author, clock, newId, {
    table: 'dog',
    kind: 'dog',
    schema: Dog,
    most: mostDogs,
    words,
    beside(dog, others) {
      const keys = new Set(dogKeys(dog));
      for (const { name, body } of others) {
        const taken = dogKeys(body ?? { name, alsoCalled: [] }).some((key) => keys.has(key));
        if (taken) throw new LibraryTrouble('conflict', words.nameTaken(dog.name, name));
      }
    },
  });
  const revisionOf = (id: string): number => stored(id)?.revision ?? 0;
  return {
    list,
    read,
    remove,
    takeBack,
    save: (given, basedOn) =>
      db
        .transaction((): DogSaved => {
          const dog = checked(given);
          const there = stored(dog.id);
          // The same again is no conflict: so a save whose answer was lost can be repeated.
          if (there && isDeepStrictEqual(there.body, dog))
            return { was: 'same', act: null, dog, revision: there.revision };
          if (!there && basedOn !== null) throw new LibraryTrouble('notFound', words.unknown);
          if (there && basedOn !== there.revision) throw new LibraryTrouble('conflict', words.changedSince);
          const act = write(dog.id, dog, there ? 'replace' : 'take');
          return { was: there ? 'changed' : 'new', act, dog, revision: revisionOf(dog.id) };
        })
        .immediate(),
  };
}
