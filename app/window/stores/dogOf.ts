import { useMemo } from 'react';
import type { KeptDog } from '../../../src/host/contract/shapes.ts';
import { dogNamed, type Dog } from '../../../src/line/dog.ts';
import type { Header } from '../../../src/review/document.ts';
import { useDogs } from './react.ts';

/** The dog that a review names, as far as this library has her. `dog` is undefined where she is as assumed. */
export function useDogOf({ header }: { readonly header: Header }): {
  readonly kept: KeptDog | undefined;
  readonly dog: Dog | undefined;
} {
  const dogs = useDogs((view) => view.dogs);
  return useMemo(() => {
    const kept = dogIn(dogs, header.dog);
    return { kept, dog: kept?.dog ?? undefined };
  }, [dogs, header.dog]);
}

/** The dog of the library that goes by a name, readable or not. */
export function dogIn(dogs: readonly KeptDog[], name: string): KeptDog | undefined {
  const named = dogs.map((kept) => ({ kept, name: kept.name, alsoCalled: kept.dog?.alsoCalled ?? [] }));
  return dogNamed(named, name)?.kept;
}
