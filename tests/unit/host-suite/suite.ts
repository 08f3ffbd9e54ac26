import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FileSource, JobReport, TopicEvent } from '../../../src/host/contract/calls.ts';
import { HostTrouble, runJob, type Link } from '../../../src/host/contract/link.ts';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { Dog } from '../../../src/line/dog.ts';
import type { Change } from '../../../src/review/entities.ts';
import { standInVideo, type StandInVideo } from './standIns.ts';

/** A line to a host with an empty library and the stand-in rooms, however it travels. */
export interface Connected {
  readonly link: Link;
  /** An empty folder whose files the window may name by path. */
  readonly files: string;
  /** One more window at the same host. */
  another(): Promise<{ readonly link: Link; leave(): void }>;
  /** The bytes behind a media id, or null, as this shell serves them. */
  read(mediaId: string): Promise<Buffer | null>;
  /** Sends a file in, as this shell does. */
  send(name: string, bytes: Buffer): Promise<FileSource>;
  close(): Promise<void>;
}

const note = (id: string, pts: number): Change => ({
  kind: 'mark',
  id,
  body: { id, kind: 'event', event: 'note', footageId: 'f', pts, unsure: 0, note: '' },
});

const newId = (): string => crypto.randomUUID();

/** The tests that every way to the host must pass: in process, over a process border, loopback, desktop. */
export function hostSuite(name: string, connect: () => Promise<Connected>): void {
  describe(`the host, ${name}`, () => {
    let line: Connected;
    let host: Link;
    beforeAll(async () => {
      line = await connect();
      host = line.link;
    });
    afterAll(async () => {
      await line.close();
    });

    const create = async (title = 'A run', clipIds: string[] = []): Promise<string> =>
      (await host.call('review.create', { title, obstacles: 3, clipIds })).reviewId;

    const apply = (reviewId: string, label: string, changes: Change[], actId = newId()) =>
      host.call('review.apply', { reviewId, actId, label, changes });

    const library = () => first<TopicEvent<'library'>>((on) => host.subscribe('library', {}, on));

    /** Writes a stand-in video that no other test has, and tells where. */
    const video = async (file: string, what: Partial<StandInVideo> = {}): Promise<string> => {
      const path = join(line.files, file);
      await writeFile(path, standInVideo({ mark: newId(), ...what }));
      return path;
    };

    const clipIn = async (wanted: (clip: ClipSummary) => boolean): Promise<ClipSummary> => {
      let found: ClipSummary | undefined;
      const stop = host.subscribe('library', {}, ({ clips }) => (found = clips.find(wanted)));
      await until(() => found !== undefined);
      stop();
      return found as unknown as ClipSummary;
    };

    test('tells about itself', async () => {
      const about = await host.call('library.about', {});
      expect(about.folder).not.toBe('');
      expect(about.ffmpeg).toContain('stand-in');
    });

    describe('reviews', () => {
      test('are created, listed, changed, undone and redone', async () => {
        const reviewId = await create('First run');
        const done = await apply(reviewId, 'Mark a note', [note('m1', 5)]);
        expect(done).toMatchObject({ canUndo: 'Mark a note', canRedo: null });
        const undone = await host.call('review.undo', { reviewId });
        expect(undone).toMatchObject({ act: done.act + 1, canUndo: null, canRedo: 'Mark a note' });
        const again = await host.call('review.redo', { reviewId });
        expect(again).toMatchObject({ act: done.act + 2, canUndo: 'Mark a note', canRedo: null });
        const mine = (await library()).reviews.find((r) => r.id === reviewId);
        expect(mine).toMatchObject({ title: 'First run', obstacles: 3, marks: 1, lastAct: again.act });
      });

      test('a repeat after a lost answer is answered and not done twice', async () => {
        const reviewId = await create();
        const actId = newId();
        const once = await apply(reviewId, 'x', [note('m1', 1)], actId);
        expect(await apply(reviewId, 'x', [note('m1', 1)], actId)).toEqual(once);
        expect(await failure(apply(reviewId, 'x', [note('m1', 2)], actId))).toMatchObject({
          code: 'conflict',
        });
      });

      test('are heard of as a whole first, then act by act, in every window', async () => {
        const reviewId = await create();
        const other = await line.another();
        const events: TopicEvent<'review'>[][] = [[], []];
        const stops = [host, other.link].map((window, i) =>
          window.subscribe('review', { reviewId }, (e) => events[i]?.push(e)),
        );
        await until(() => events.every((e) => e.length > 0));
        await apply(reviewId, 'one', [note('m1', 1)]);
        await other.link.call('review.undo', { reviewId });
        await until(() => events.every((e) => e.length >= 3));
        for (const stop of stops) stop();
        for (const [whole, ...acts] of events) {
          expect(whole).toMatchObject({ type: 'whole', state: { id: reviewId, marks: [] } });
          expect(acts).toMatchObject([
            { type: 'act', label: 'one', changes: [note('m1', 1)], canUndo: 'one' },
            { type: 'act', label: 'one', changes: [{ kind: 'mark', id: 'm1', body: null }], canRedo: 'one' },
          ]);
        }
        await apply(reviewId, 'two', [note('m2', 1)]);
        expect(events[0]).toHaveLength(3);
        other.leave();
      });

      test('a window that asks again gets the whole again', async () => {
        const reviewId = await create();
        const window = await line.another();
        const events: TopicEvent<'review'>[] = [];
        window.link.subscribe('review', { reviewId }, (e) => events.push(e));
        await apply(reviewId, 'one', [note('m1', 1)]);
        await until(() => events.length === 2);
        window.link.resume();
        await until(() => events.length === 3);
        expect(events[2]).toMatchObject({ type: 'whole', state: { marks: [{ id: 'm1' }] }, canUndo: 'one' });
        window.leave();
      });

      test('what is not there is told, to calls and to listeners', async () => {
        expect(await failure(host.call('review.undo', { reviewId: 'nobody' }))).toMatchObject({
          code: 'notFound',
        });
        const trouble = await new Promise<HostTrouble>((resolve) => {
          host.subscribe('review', { reviewId: 'nobody' }, () => undefined, resolve);
        });
        expect(trouble.code).toBe('notFound');
      });

      test('are removed and brought back', async () => {
        const reviewId = await create('To be removed');
        await host.call('review.remove', { reviewId });
        expect((await library()).reviews.some((r) => r.id === reviewId)).toBe(false);
        expect(await failure(apply(reviewId, 'x', [note('m', 1)]))).toMatchObject({ code: 'conflict' });
        await host.call('review.restore', { reviewId });
        expect((await library()).reviews.some((r) => r.id === reviewId)).toBe(true);
      });

      test('cannot use footage that is not there', async () => {
        const reviewId = await create();
        const body = { id: 'f', clipId: 'none', name: 'n', speed: [], offset: 0, rate: 1 };
        expect(await failure(apply(reviewId, 'x', [{ kind: 'footage', id: 'f', body }]))).toMatchObject({
          code: 'badInput',
        });
      });

      test('go out as a document and come in again, with their footage', async () => {
        const path = await video('travels.mp4', { frames: 20 });
        const { clip } = await runJob(host, 'clip.import', { source: { path } });
        const reviewId = await create('Travels', [clip.id]);
        const state = (await wholeOf(host, reviewId)).state;
        const mark = { ...note('m1', 3), body: { ...note('m1', 3).body, footageId: state.footage[0]?.id } };
        await apply(reviewId, 'x', [mark as Change]);
        const { json } = await host.call('review.document', { reviewId });
        const file = join(line.files, 'travels.walkback.json');
        await writeFile(file, json);
        const back = await runJob(host, 'review.import', { source: { path: file } });
        expect(back.reviewId).not.toBe(reviewId);
        const before = (await wholeOf(host, reviewId)).state;
        const after = (await wholeOf(host, back.reviewId)).state;
        expect({ ...after, id: '' }).toEqual({ ...before, id: '' });
      });

      test('a file that is no review is refused with what is wrong, and nothing is changed', async () => {
        const before = await library();
        const file = join(line.files, 'wrong.json');
        await writeFile(file, '{"format": "walkback.review", "version": 1, "marks": [{"pts": -1.5}]}');
        const error = await failure(runJob(host, 'review.import', { source: { path: file } }));
        expect(error).toMatchObject({ code: 'badInput' });
        expect(error.message).toContain('wrong.json');
        expect(await library()).toEqual(before);
      });
    });

    describe('clips', () => {
      test('come in by path, with every frame and their bytes', async () => {
        const path = await video("The coach's “best” übung.mp4", { frames: 12 });
        const { clip } = await runJob(host, 'clip.import', { source: { path } });
        expect(clip).toMatchObject({ name: "The coach's “best” übung.mp4", frames: 12, state: 'ready' });
        const frames = await host.call('clip.frames', { clipId: clip.id });
        expect(frames).toEqual({
          clipId: clip.id,
          timeBase: [1, 30],
          pts: Array.from({ length: 12 }, (_, i) => i),
        });
        expect(await line.read(clip.mediaId ?? '')).toEqual(await readFile(path));
      });

      test('come in by sending, and stay when the upload is gone', async () => {
        const bytes = Buffer.from(standInVideo({ mark: newId() }));
        const source = await line.send('sent.mov', bytes);
        const { clip } = await runJob(host, 'clip.import', { source });
        expect(clip).toMatchObject({ name: 'sent.mov', state: 'ready', bytes: bytes.length });
        expect(await line.read(clip.mediaId ?? '')).toEqual(bytes);
        expect(await failure(runJob(host, 'clip.import', { source }))).toMatchObject({ code: 'notFound' });
      });

      test('the same content twice is the same clip', async () => {
        const path = await video('one.mp4');
        const one = await runJob(host, 'clip.import', { source: { path } });
        const other = join(line.files, 'other name.mp4');
        await writeFile(other, await readFile(path));
        const two = await runJob(host, 'clip.import', { source: { path: other } });
        expect(two.clip).toEqual(one.clip);
      });

      test('what is no video is refused, and nothing is kept', async () => {
        const before = await library();
        const path = join(line.files, 'text.mp4');
        await writeFile(path, 'Dear diary');
        expect(await failure(runJob(host, 'clip.import', { source: { path } }))).toMatchObject({
          code: 'noVideo',
        });
        await writeFile(path, '');
        expect(await failure(runJob(host, 'clip.import', { source: { path } }))).toMatchObject({
          code: 'badInput',
        });
        expect(
          await failure(runJob(host, 'clip.import', { source: { path: join(line.files, 'not there.mp4') } })),
        ).toMatchObject({ code: 'notFound' });
        expect(await library()).toEqual(before);
      });

      test('one that needs a working copy gets it by itself; work can start meanwhile', async () => {
        const go = join(line.files, `go-${newId()}`);
        const path = await video('hevc.mp4', { needsCopy: 'codec', copyWaitsFor: go });
        const { clip } = await runJob(host, 'clip.import', { source: { path } });
        expect(clip).toMatchObject({ state: 'needsCopy', why: 'codec', mediaId: null });
        const reviewId = await create('Meanwhile', [clip.id]);
        await apply(reviewId, 'x', [note('m1', 1)]);
        expect((await host.call('clip.frames', { clipId: clip.id })).pts).toHaveLength(30);
        await writeFile(go, '');
        const copied = await clipIn((c) => c.id === clip.id && c.state === 'workingCopy');
        expect((await line.read(copied.mediaId ?? ''))?.toString()).toContain('copy of');
      });

      test('the making of a copy shows its progress, goes on without the window, and can be stopped', async () => {
        const path = await video('stopped.mp4', {
          needsCopy: 'codec',
          copyWaitsFor: join(line.files, 'never'),
        });
        const window = await line.another();
        const { clip } = await runJob(window.link, 'clip.import', { source: { path } });
        window.leave();
        let job: JobReport | undefined;
        const stop = host.subscribe('jobs', {}, ({ jobs }) => {
          job = jobs.find((j) => j.name === 'clip.workingCopy' && j.about === 'stopped.mp4');
        });
        await until(() => job?.state === 'running' && job.done === 1);
        expect(job).toMatchObject({ total: 30, trouble: null });
        await host.call('job.cancel', { jobId: job?.id ?? '' });
        await until(() => job?.state === 'cancelled');
        stop();
        expect((await library()).clips.find((c) => c.id === clip.id)).toMatchObject({ state: 'needsCopy' });
      });

      test('a job that is not there cannot be stopped', async () => {
        expect(await failure(host.call('job.cancel', { jobId: 'none' }))).toMatchObject({ code: 'notFound' });
      });
    });

    test('a picture of the map is kept by content', async () => {
      // The smallest PNG: one pixel (W3C, Portable Network Graphics, chunk layout).
      const png = Buffer.from(
        'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNkYAAAAAYAAjCB0C8AAAAASUVORK5CYII=',
        'base64',
      );
      const kept = await host.call('picture.keep', { source: await line.send('map.png', png) });
      expect(kept).toMatchObject({ name: 'map.png', width: 1, height: 1 });
      expect(await line.read(kept.mediaId)).toEqual(png);
      const again = await host.call('picture.keep', { source: await line.send('copy.png', png) });
      expect(again.pictureId).toBe(kept.pictureId);
      const { mediaId } = await host.call('picture.media', { pictureId: kept.pictureId });
      expect(await line.read(mediaId)).toEqual(png);
      const source = await line.send('map.png', Buffer.from('<svg/>'));
      expect(await failure(host.call('picture.keep', { source }))).toMatchObject({ code: 'badInput' });
    });

    test('rule books of the user are taken in, heard of, handed over, replaced, removed and brought back', async () => {
      const rules = (most: number, name = 'Our evening'): Buffer =>
        Buffer.from(
          JSON.stringify({
            ...{ format: 'walkback.rules', version: 1, id: 'ours', name },
            course: { obstacles: { value: { most }, source: { text: 'our own sheet' } } },
          }),
        );
      const told: TopicEvent<'ruleBooks'>[] = [];
      const stop = host.subscribe('ruleBooks', {}, (e) => told.push(e));
      const ids = (): string[] => told.at(-1)?.books.map((b) => b.id) ?? [];
      await until(() => told.length === 1);
      expect(told[0]?.books).toMatchObject([{ id: 'fci-2023', worked: true }]);

      const take = async (bytes: Buffer, replace?: boolean) =>
        host.call('ruleBook.take', {
          source: await line.send('ours.rules.json', bytes),
          ...(replace === undefined ? {} : { replace }),
        });
      const first = await take(rules(12));
      expect(first).toMatchObject({ was: 'new', book: { id: 'ours', worked: false, entries: 1 } });
      await until(() => ids().includes('ours'));
      expect(await take(rules(12))).toMatchObject({ was: 'same', act: null });
      expect(await take(rules(14))).toMatchObject({ was: 'other', act: null });
      const one = await host.call('ruleBook.read', { id: 'ours' });
      expect(one.book.course.obstacles?.value).toEqual({ most: 12 });
      expect(one.content).toBe(first.book.content);

      const file = await host.call('ruleBook.write', { id: 'ours' });
      const handed = await line.read(file.mediaId);
      expect(file).toMatchObject({ name: 'ours.rules.json', bytes: handed?.length });
      const replaced = await take(rules(14), true);
      expect(replaced).toMatchObject({ was: 'replaced' });
      expect(replaced.book.content).not.toBe(first.book.content);
      expect(await take(handed ?? Buffer.alloc(0), true)).toMatchObject({
        was: 'replaced',
        book: { content: first.book.content },
      });

      const { act } = await host.call('ruleBook.remove', { id: 'ours' });
      await until(() => !ids().includes('ours'));
      await host.call('ruleBook.takeBack', { act });
      await until(() => ids().includes('ours'));
      expect(await failure(host.call('ruleBook.takeBack', { act }))).toMatchObject({ code: 'conflict' });
      await host.call('ruleBook.remove', { id: 'ours' });
      stop();
    });

    test('dogs are kept, told to every window, changed on what was there, removed and brought back', async () => {
      const fen = Dog.parse({ id: 'd1', name: 'Fen', runner: { landing: 2.2 } });
      const other = await line.another();
      const told: TopicEvent<'dogs'>[] = [];
      const stop = other.link.subscribe('dogs', {}, (e) => told.push(e));
      await until(() => told.at(-1)?.dogs.length === 0);
      expect(await host.call('dog.save', { dog: fen, basedOn: null })).toMatchObject({ was: 'new' });
      await until(() => told.at(-1)?.dogs[0]?.dog?.runner.landing === 2.2);
      const skilled = { ...fen, skills: { ...fen.skills, stay: { done: 3, tried: 10 } } };
      const saved = await other.link.call('dog.save', { dog: skilled, basedOn: 1 });
      expect(saved).toMatchObject({ was: 'changed', revision: 2, dog: skilled });
      const late = host.call('dog.save', { dog: { ...fen, notes: 'late' }, basedOn: 1 });
      expect(await failure(late)).toMatchObject({ code: 'conflict' });
      const twin = host.call('dog.save', { dog: { ...fen, id: 'd2', name: ' FEN ' }, basedOn: null });
      expect(await failure(twin)).toMatchObject({ code: 'conflict' });
      const absurd = host.call('dog.save', { dog: { ...fen, runner: { landing: 1e9 } }, basedOn: 2 });
      await expect(absurd).rejects.toThrow();
      const { act } = await host.call('dog.remove', { id: 'd1' });
      await until(() => told.at(-1)?.dogs.length === 0);
      await host.call('dog.takeBack', { act });
      await until(() => told.at(-1)?.dogs[0]?.dog?.skills.stay?.done === 3);
      expect(await failure(host.call('dog.takeBack', { act }))).toMatchObject({ code: 'conflict' });
      await host.call('dog.remove', { id: 'd1' });
      stop();
      other.leave();
    });

    test('a dog goes out as a file and comes in again; another of her name gives way only when asked', async () => {
      const fen = Dog.parse({ id: 'd7', name: 'Fen', runner: { landing: 2.2 }, notes: 'Careful with her.' });
      await host.call('dog.save', { dog: fen, basedOn: null });
      const file = await host.call('dog.write', { id: 'd7' });
      const handed = (await line.read(file.mediaId)) ?? Buffer.alloc(0);
      expect(file).toMatchObject({ name: 'Fen.dog.json', bytes: handed.length });
      const take = async (replace = false) =>
        host.call('dog.take', { source: await line.send('Fen.dog.json', handed), replace });
      expect(await take()).toMatchObject({ was: 'same', act: null });
      await host.call('dog.remove', { id: 'd7' });
      expect(await take()).toEqual({ was: 'new', act: expect.any(Number) as number, dog: fen, there: null });
      await host.call('dog.remove', { id: 'd7' });
      const here = Dog.parse({ id: 'd8', name: 'FEN', alsoCalled: ['Fenella'] });
      await host.call('dog.save', { dog: here, basedOn: null });
      expect(await take()).toMatchObject({ was: 'other', act: null, there: 'FEN' });
      const taken = await take(true);
      expect(taken).toMatchObject({ was: 'replaced', dog: { ...fen, id: 'd8', alsoCalled: ['Fenella'] } });
      await host.call('dog.takeBack', { act: taken.act ?? 0 });
      expect(await take()).toMatchObject({ was: 'other', there: 'FEN' });
      await host.call('dog.remove', { id: 'd8' });
    });

    test('the worked rule book is always there and stays as it is', async () => {
      const { book } = await host.call('ruleBook.read', { id: 'fci-2023' });
      expect(book.bars?.value).toHaveLength(4);
      expect(await failure(host.call('ruleBook.remove', { id: 'fci-2023' }))).toMatchObject({
        code: 'conflict',
      });
      const file = await host.call('ruleBook.write', { id: 'fci-2023' });
      const bytes = (await line.read(file.mediaId)) ?? Buffer.alloc(0);
      const take = async (text: string) =>
        host.call('ruleBook.take', { source: await line.send('fci.json', Buffer.from(text)), replace: true });
      expect(await take(bytes.toString())).toMatchObject({ was: 'same', act: null });
      const changed = bytes.toString().replace('FCI agility, 2023', 'Not it');
      expect((await failure(take(changed))).message).toContain('another “id”');
      expect(await failure(host.call('ruleBook.read', { id: 'nobody' }))).toMatchObject({ code: 'notFound' });
    });

    test('the report is one file', async () => {
      const reviewId = await create('Reported');
      const report = await runJob(host, 'report.write', { reviewId });
      const bytes = await line.read(report.mediaId);
      expect(bytes?.toString()).toContain('<title>Reported</title>');
      expect(report.bytes).toBe(bytes?.length);
    });

    test('the figures are one file', async () => {
      const reviewId = await create('Counted');
      const figures = await host.call('report.figures', { reviewId });
      expect(figures.bytes).toBe((await line.read(figures.mediaId))?.length);
      expect(await failure(host.call('report.figures', { reviewId: 'nobody' }))).toMatchObject({
        code: 'notFound',
      });
    });

    test('the list of files shows folders and what can be brought in', async () => {
      await video('shown.mkv');
      await writeFile(join(line.files, 'hidden.txt'), 'x');
      const { entries } = await host.call('files.list', { folder: line.files });
      const names = entries.map((e) => e.name);
      expect(names).toContain('shown.mkv');
      expect(names).not.toContain('hidden.txt');
      expect((await host.call('files.roots', {})).folders.every((f) => f.folder)).toBe(true);
    });

    test('preferences are kept', async () => {
      const preferences = await host.call('preferences.get', {});
      const changed = { ...preferences, theme: 'dark' as const, keys: { 'review.mark': 'm' } };
      expect(await host.call('preferences.set', { preferences: changed })).toEqual(changed);
      expect(await host.call('preferences.get', {})).toEqual(changed);
    });

    test('preferences that one window changes are heard of in every other', async () => {
      const other = await line.another();
      const heard: TopicEvent<'preferences'>[] = [];
      const stop = other.link.subscribe('preferences', {}, (event) => heard.push(event));
      await until(() => heard.length > 0);
      const { reading, ...preferences } = await host.call('preferences.get', {});
      await host.call('preferences.set', {
        preferences: { ...preferences, reading: { ...reading, viewHalf: 61 } },
      });
      await until(() => heard.at(-1)?.reading.viewHalf === 61);
      stop();
      const wrong = { ...preferences, reading: { ...reading, viewHalf: NaN } };
      await expect(host.call('preferences.set', { preferences: wrong })).rejects.toThrow();
      expect((await host.call('preferences.get', {})).reading.viewHalf).toBe(61);
    });

    test('media ids cannot be guessed or made', async () => {
      expect(await line.read('0')).toBeNull();
      expect(await line.read('..%2Fwalkback.sqlite')).toBeNull();
    });
  });
}

async function wholeOf(host: Link, reviewId: string) {
  const event = await first<TopicEvent<'review'>>((on) => host.subscribe('review', { reviewId }, on));
  if (event.type !== 'whole') throw new Error('An act came before the whole');
  return event;
}

/** What a promise is rejected with. */
async function failure(work: Promise<unknown>): Promise<HostTrouble> {
  const error = await work.then(
    () => null,
    (e: unknown) => e,
  );
  if (error instanceof HostTrouble) return error;
  throw new Error(`A trouble was expected, not ${String(error)}`);
}

/** The first event of a subscription, which is then stopped. */
function first<E>(subscribe: (on: (event: E) => void) => () => void): Promise<E> {
  return new Promise((resolve) => {
    const stop = subscribe((event) => {
      queueMicrotask(() => stop());
      resolve(event);
    });
  });
}

/** Waits until something holds; a test that never gets there ends at its own time limit. */
async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 5));
}
