import { expect, test, vi } from 'vitest';
import { createDogs } from '../../../app/window/stores/dogs.ts';
import { createNotices } from '../../../app/window/stores/notices.ts';
import { link } from '../../../src/host/contract/link.ts';
import type { PickedFile } from '../../../src/host/contract/shell.ts';
import { Dog, withFigure } from '../../../src/line/dog.ts';
import { memoryHost } from './memoryHost.ts';

const fen = Dog.parse({ id: 'd1', name: 'Fen' });

const setUp = async () => {
  const host = memoryHost();
  const notices = createNotices();
  let n = 0;
  const store = createDogs(link(host.wire), notices, () => `new ${++n}`);
  host.dogs.put(fen);
  await vi.waitFor(() => expect(store.getState().dogs).toHaveLength(1));
  const runner = () => store.getState().dogs[0]?.dog?.runner;
  const kept = () => host.dogs.event().dogs[0]?.dog;
  const landing = (metres: number) =>
    store.change('d1', 'landing', (dog) => withFigure(dog, 'landing', metres));
  return { host, notices, store, runner, kept, landing };
};

test('changes are shown at once and kept one after the other', async () => {
  const { store, runner, kept, landing } = await setUp();
  const first = landing(2);
  const second = store.change('d1', 'grip', (dog) => withFigure(dog, 'grip', 7));
  expect(runner()).toEqual({ landing: 2, grip: 7 });
  await Promise.all([first, second]);
  expect(kept()?.runner).toEqual({ landing: 2, grip: 7 });
  expect(
    store
      .getState()
      .acts.get('d1')
      ?.map((a) => a.label),
  ).toEqual(['landing', 'grip']);
});

test('what another window keeps meanwhile is not overwritten: the change is made anew on it', async () => {
  const { host, notices, runner, kept, landing } = await setUp();
  host.hold();
  const change = landing(2);
  host.dogs.put({ ...withFigure(fen, 'grip', 9), notes: 'of the other window' });
  host.release();
  await change;
  expect(kept()).toMatchObject({ notes: 'of the other window', runner: { grip: 9, landing: 2 } });
  expect(runner()).toEqual({ grip: 9, landing: 2 });
  expect(notices.getState().list).toEqual([]);
});

test('what cannot be kept is told, and what is kept is shown again', async () => {
  const { host, notices, store, runner, landing } = await setUp();
  host.refuse('dog.save', { code: 'noSpace', message: 'There is no room left.' });
  await landing(2);
  expect(notices.getState().list[0]?.text).toContain('no room');
  expect(runner()).toEqual({});
  host.refuse('dog.save', { code: 'conflict', message: 'Another dog goes by that name.' });
  await store.change('d1', 'name', (dog) => ({ ...dog, name: 'Moss' }));
  expect(host.asked.filter((a) => a.name === 'dog.save')).toHaveLength(2);
  expect(store.getState().dogs[0]?.name).toBe('Fen');
  expect(await store.add('')).toBe(false);
});

test('the last change is taken back, and a dog that was removed comes back by the notice', async () => {
  const { host, notices, store, runner, landing } = await setUp();
  await landing(2);
  await store.undo('d1');
  await vi.waitFor(() => expect(runner()).toEqual({}));
  expect(store.getState().acts.get('d1')).toEqual([]);
  expect(await store.add(' Moss ')).toBe(true);
  const [, moss] = host.dogs.event().dogs;
  expect(moss).toMatchObject({ id: 'new 1', name: 'Moss' });
  if (moss) await store.remove(moss);
  expect(host.dogs.event().dogs).toHaveLength(1);
  notices.getState().list.at(-1)?.act?.run();
  await vi.waitFor(() => expect(store.getState().dogs.map((k) => k.name)).toEqual(['Fen', 'Moss']));
});

test('a file is taken in and can be taken back; where she differs here she is left until it is asked for', async () => {
  const { host, notices, store, kept } = await setUp();
  const given = (name: string): PickedFile => ({
    name,
    bytes: 900,
    source: () => Promise.resolve({ path: `/v/${name}` }),
  });
  const told = () => notices.getState().list.at(-1);
  const moss = Dog.parse({ id: 'd2', name: 'Moss', runner: { landing: 1.9 } });
  host.dogs.file('/v/Moss.dog.json', moss);
  expect(await store.take(given('Moss.dog.json'))).toEqual(moss);
  expect(told()?.text).toContain('Moss is in the library now');
  told()?.act?.run();
  await vi.waitFor(() => expect(store.getState().dogs.map((k) => k.name)).toEqual(['Fen']));

  host.dogs.file('/v/Fen.dog.json', { ...fen, runner: { grip: 7 } });
  await store.take(given('Fen.dog.json'));
  expect(kept()?.runner).toEqual({});
  expect(told()).toMatchObject({ text: expect.stringContaining('left as she was') });
  told()?.act?.run();
  await vi.waitFor(() => expect(kept()?.runner).toEqual({ grip: 7 }));
  await vi.waitFor(() => expect(told()?.text).toContain('as her file has her'));
  await store.take(given('Fen.dog.json'));
  expect(told()?.text).toContain('with the same figures');

  expect(await store.take(given('no dog.dog.json'))).toBeNull();
  expect(told()).toMatchObject({ tone: 'trouble', text: expect.stringContaining('not the file of a dog') });
});
