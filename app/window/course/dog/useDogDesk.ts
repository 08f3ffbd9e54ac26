import type { KeptDog } from '../../../../src/host/contract/shapes.ts';
import { dogKey, renamed, type Dog } from '../../../../src/line/dog.ts';
import type { DogSkills } from '../../../../src/line/skills.ts';
import { dogWords as words } from '../../../../src/words/dog.ts';
import { useDogOf } from '../../stores/dogOf.ts';
import { useDogs, useReview, useWorkbench } from '../../stores/react.ts';

/** The dog of the open review, with the acts that change her and which dog it is. */
export interface DogDesk {
  /** Name in the review's header. */
  readonly named: string;
  readonly dogs: readonly KeptDog[];
  readonly kept: KeptDog | undefined;
  readonly dog: Dog | undefined;
  /** Names another dog in the review, or none (''). */
  name(name: string): void;
  /** Adds a dog to the library and names her in the review. */
  add(name: string): Promise<boolean>;
  /** Asks for a dog's file and takes her in; names her where the review names none. */
  take(): void;
  rename(name: string): Promise<void>;
  change(label: string, change: (dog: Dog) => Dog): void;
  changeSkills(label: string, change: (skills: DogSkills) => DogSkills): void;
}

export function useDogDesk(): DogDesk {
  const { shell, review, dogs: store, notices } = useWorkbench();
  const state = useReview((view) => view.state);
  if (!state) throw new Error('The dog’s page was drawn without an open review.');
  const dogs = useDogs((view) => view.dogs);
  const { kept, dog } = useDogOf(state);
  const id = kept?.id ?? '';
  const name = (next: string): void => {
    const { id: reviewId, header } = review.getState().state ?? state;
    if (header.dog === next) return;
    void review.apply(words.labels.header(next), [
      { kind: 'header', id: reviewId, body: { ...header, dog: next } },
    ]);
  };
  const change = (label: string, how: (dog: Dog) => Dog): void => {
    void store.change(id, label, how);
  };
  return {
    named: state.header.dog,
    dogs,
    kept,
    dog,
    name,
    async add(text) {
      const added = await store.add(text);
      if (added) name(text.trim());
      return added;
    },
    take() {
      shell
        .chooseFiles('dog', false)
        .then(async ([file]) => {
          const taken = file && (await store.take(file));
          if (taken && (review.getState().state ?? state).header.dog === '') name(taken.name);
        })
        .catch((error: unknown) => {
          notices.getState().trouble(error);
        });
    },
    async rename(text) {
      const next = text.trim();
      if (dogKey(next) === '') {
        notices.getState().say(words.noName);
        return;
      }
      await store.change(id, words.labels.name, (d) => renamed(d, next));
      // Only where the library took the name: another dog may go by it.
      if (store.getState().dogs.some((k) => k.id === id && k.name === next)) name(next);
    },
    change,
    changeSkills(label, how) {
      change(label, (d) => ({ ...d, skills: how(d.skills) }));
    },
  };
}
