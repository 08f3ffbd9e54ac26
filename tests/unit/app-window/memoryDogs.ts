import type { KeptDog } from '../../../src/host/contract/shapes.ts';
import { isDeepStrictEqual } from 'node:util';
import type { Dog } from '../../../src/line/dog.ts';

const refused = (code: string, text: string): Error => Object.assign(new Error(text), { code });

/** The dogs of a host in memory. What the library does with names and revisions is tested on the library itself. */
export function memoryDogs(changed: () => void) {
  let dogs: readonly KeptDog[] = [];
  const before: (readonly KeptDog[])[] = [];
  const set = (next: readonly KeptDog[]): number => {
    before.push(dogs);
    dogs = next;
    changed();
    return before.length;
  };
  const put = (dog: Dog): { act: number; revision: number } => {
    const revision = (dogs.find((k) => k.id === dog.id)?.revision ?? 0) + 1;
    const kept = { id: dog.id, name: dog.name, revision, dog };
    const there = dogs.some((k) => k.id === dog.id);
    return { act: set(there ? dogs.map((k) => (k.id === dog.id ? kept : k)) : [...dogs, kept]), revision };
  };
  /** Files by the path under which the window is handed them, or all uploads by one. */
  const files = new Map<string, Dog>();
  return {
    file: (path: string, dog: Dog): void => void files.set(path, dog),
    /** As another window would keep her. */
    put: (dog: Dog): void => void put(dog),
    event: () => ({ dogs }),
    answers: {
      'dog.save': ({ dog, basedOn }: { readonly dog: Dog; readonly basedOn: number | null }) => {
        const there = dogs.find((k) => k.id === dog.id);
        if ((there?.revision ?? null) !== basedOn) throw refused('conflict', 'She was changed since.');
        return { was: there ? 'changed' : 'new', dog, ...put(dog) };
      },
      'dog.remove': ({ id }: { readonly id: string }) => ({ act: set(dogs.filter((k) => k.id !== id)) }),
      'dog.take': (args: { readonly source: object; readonly replace: boolean }) => {
        const path = 'path' in args.source ? String(args.source.path) : '';
        const dog = files.get(path);
        if (!dog) throw refused('badInput', `“${path}” was not taken in. This is not the file of a dog.`);
        const there = dogs.find((k) => k.id === dog.id);
        const told = { dog, there: there?.name ?? null, act: null };
        if (isDeepStrictEqual(there?.dog, dog)) return { ...told, was: 'same' };
        if (there && !args.replace) return { ...told, was: 'other' };
        return { ...told, was: there ? 'replaced' : 'new', act: put(dog).act };
      },
      'dog.write': ({ id }: { readonly id: string }) => ({
        ...{ mediaId: `dog-${id}`, path: `/home/coach/Walkback/reports/${id}.dog.json` },
        ...{ name: `${id}.dog.json`, bytes: 900 },
      }),
      'dog.takeBack': ({ act }: { readonly act: number }) => {
        set((before[act - 1] ?? dogs).map((k) => ({ ...k, revision: k.revision + 2 })));
        return {};
      },
    },
  };
}
