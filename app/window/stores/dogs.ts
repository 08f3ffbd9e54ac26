import { createStore, type StoreApi } from 'zustand/vanilla';
import { HostTrouble, type Link } from '../../../src/host/contract/link.ts';
import type { PickedFile } from '../../../src/host/contract/shell.ts';
import type { KeptDog } from '../../../src/host/contract/shapes.ts';
import { Dog, dogKey } from '../../../src/line/dog.ts';
import { dogWords as words } from '../../../src/words/dog.ts';
import { dogFileWords as fileWords } from '../../../src/words/dogFile.ts';
import type { NoticesStore } from './notices.ts';

/** A change of a dog that the library has kept, and that can be taken back. */
interface DogAct {
  readonly act: number;
  readonly label: string;
}

/** The dogs of the library as the host last told, with what was changed here and is not confirmed yet. */
export interface DogsView {
  /** False until the host has answered the first time. */
  readonly known: boolean;
  readonly dogs: readonly KeptDog[];
  /** What was changed in this window, by dog, oldest first. */
  readonly acts: ReadonlyMap<string, readonly DogAct[]>;
}

export interface DogsStore extends StoreApi<DogsView> {
  /** Adds a dog by her name. False where she cannot be kept; why is told as a notice. */
  add(name: string): Promise<boolean>;
  /** Shown at once, kept one after the other; made anew where another window was quicker. */
  change(id: string, label: string, change: (dog: Dog) => Dog): Promise<void>;
  /** Takes the last change of this window back. */
  undo(id: string): Promise<void>;
  remove(kept: KeptDog): Promise<void>;
  /**
   * Takes in the dog in a file, and says what became of it. Where what is known of her here differs, she is left as
   * she is and the notice offers the file's instead. Null where the file cannot be read.
   */
  take(file: PickedFile): Promise<Dog | null>;
}

interface Waiting {
  readonly label: string;
  readonly change: (dog: Dog) => Dog;
}

/** How often a change is made anew on what another window has kept meanwhile. */
const mostTries = 3;

/** Follows the dogs for as long as the window lives. */
export function createDogs(
  host: Link,
  notices: NoticesStore,
  newId: () => string = () => crypto.randomUUID(),
): DogsStore {
  const store = createStore<DogsView>()(() => ({ known: false, dogs: [], acts: new Map() }));
  let told: readonly KeptDog[] = [];
  const waiting = new Map<string, readonly Waiting[]>();
  const under = new Map<string, Promise<void>>();
  const tell = (error: unknown): void => void notices.getState().trouble(error);

  const show = (): void => {
    const dogs = told.map((kept) => {
      const dog = (waiting.get(kept.id) ?? []).reduce<Dog | null>((d, w) => d && w.change(d), kept.dog);
      return dog === kept.dog ? kept : { ...kept, name: dog?.name ?? kept.name, dog };
    });
    store.setState({ dogs });
  };
  const setActs = (id: string, acts: readonly DogAct[]): void => {
    store.setState((view) => ({ acts: new Map(view.acts).set(id, acts) }));
  };
  const actsOf = (id: string): readonly DogAct[] => store.getState().acts.get(id) ?? [];

  const keep = async (id: string, { label, change }: Waiting): Promise<void> => {
    for (let tries = 1; ; tries++) {
      const kept = told.find((k) => k.id === id);
      if (!kept?.dog) return;
      try {
        const saved = await host.call('dog.save', { dog: change(kept.dog), basedOn: kept.revision });
        const { dog, revision, act } = saved;
        told = told.map((k) =>
          k.id === id && k.revision < revision ? { id, name: dog.name, revision, dog } : k,
        );
        if (act !== null) setActs(id, [...actsOf(id), { act, label }]);
        return;
      } catch (error) {
        const now = told.find((k) => k.id === id)?.revision ?? 0;
        const overtaken = error instanceof HostTrouble && error.code === 'conflict' && now > kept.revision;
        if (!overtaken || tries === mostTries) {
          tell(error);
          return;
        }
      }
    }
  };
  const work = async (id: string): Promise<void> => {
    for (let next = waiting.get(id)?.[0]; next; next = waiting.get(id)?.[0]) {
      await keep(id, next);
      waiting.set(id, (waiting.get(id) ?? []).slice(1));
      show();
    }
    under.delete(id);
  };

  host.subscribe('dogs', {}, ({ dogs }) => {
    told = dogs;
    store.setState({ known: true });
    show();
  });

  const takeBack = async (act: number, name: string): Promise<boolean> => {
    try {
      await host.call('dog.takeBack', { act });
      notices.getState().say(words.undone(name));
      return true;
    } catch (error) {
      tell(error);
      return false;
    }
  };

  const takeFile = async (file: PickedFile, replace: boolean): Promise<Dog | null> => {
    try {
      const source = await file.source();
      const { was, act, dog, there } = await host.call('dog.take', { source, replace });
      const back =
        act === null ? undefined : { label: fileWords.undo, run: () => void takeBack(act, dog.name) };
      if (was === 'other') {
        const run = (): void => void takeFile(file, true);
        notices
          .getState()
          .say(fileWords.other(there ?? dog.name, file.name), { label: fileWords.replace, run });
      } else {
        const said = { new: fileWords.taken, replaced: fileWords.replaced, same: fileWords.same }[was];
        notices.getState().say(said(dog.name), back);
      }
      return dog;
    } catch (error) {
      tell(error);
      return null;
    }
  };

  return Object.assign(store, {
    take: (file: PickedFile) => takeFile(file, false),
    async add(name: string) {
      if (dogKey(name) === '') {
        notices.getState().say(words.noName);
        return false;
      }
      try {
        await host.call('dog.save', { dog: Dog.parse({ id: newId(), name: name.trim() }), basedOn: null });
        notices.getState().say(words.added(name.trim()));
        return true;
      } catch (error) {
        tell(error);
        return false;
      }
    },
    change(id: string, label: string, change: (dog: Dog) => Dog) {
      waiting.set(id, [...(waiting.get(id) ?? []), { label, change }]);
      show();
      const working = under.get(id) ?? work(id);
      under.set(id, working);
      return working;
    },
    async undo(id: string) {
      await under.get(id);
      const acts = actsOf(id);
      const last = acts.at(-1);
      const name = told.find((k) => k.id === id)?.name ?? '';
      if (!last) return;
      // Where it was changed elsewhere since, what came before cannot be taken back either.
      setActs(id, (await takeBack(last.act, name)) ? acts.slice(0, -1) : []);
    },
    async remove({ id, name }: KeptDog) {
      try {
        await under.get(id);
        const { act } = await host.call('dog.remove', { id });
        setActs(id, []);
        const run = (): void => void takeBack(act, name);
        notices.getState().say(words.removed(name), { label: words.undo, run });
      } catch (error) {
        tell(error);
      }
    },
  });
}
