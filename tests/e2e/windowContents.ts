import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { countedCourse } from '../../src/course/course.ts';
import { Header, ReviewDocument } from '../../src/review/document.ts';
import { memoryHost, type MemoryHost } from '../unit/app-window/memoryHost.ts';

const demoFolder = resolve(import.meta.dirname, '../../fixtures/demo');

/** Ids of the demo's reviews that the tests open. */
export const demoReview = 'demo-first-evening';
/** The one that is planned and not run yet: without footage. */
export const plannedReview = 'demo-course-to-plan';

/** A host that holds the demo's reviews. */
export async function demoHost(): Promise<MemoryHost> {
  const host = memoryHost();
  for (const name of ['a-course-to-plan', 'first-evening', 'a-month-later', 'mark-it-yourself']) {
    const text = await readFile(resolve(demoFolder, `${name}.walkback.json`), 'utf8');
    const { footage, format: _, version: __, header, ...state } = ReviewDocument.parse(JSON.parse(text));
    for (const { name: clipName, clip } of footage) {
      host.addClip(
        {
          id: clip.sha256.slice(0, 8),
          name: clipName,
          sha256: clip.sha256,
          frames: clip.pts.length,
          mediaId: clipName,
        },
        clip.pts,
      );
    }
    host.addReview({
      ...state,
      title: header.title,
      header,
      footage: footage.map(({ clip, clipId: ___, ...use }) => ({ ...use, clipId: clip.sha256.slice(0, 8) })),
    });
  }
  return host;
}

const dogs = ['Fen', 'Wren', 'Tansy', 'Moss', 'Juniper'];
const handlers = ['Ilse', 'Marek', 'Ada', 'Jonas'];
const longTitle =
  'Long evening, ring two, third attempt after the rain with the very long name that a coach gave it';

/** A host with a hundred reviews, forty clips in every state, and work under way. */
export function hundredHost(): MemoryHost {
  const host = memoryHost();
  const stateOf = (i: number) =>
    i === 4 ? 'missing' : i === 7 ? 'needsCopy' : i % 5 === 0 ? 'workingCopy' : 'ready';
  for (let i = 0; i < 40; i++) {
    host.addClip({
      id: `k${i}`,
      name: `IMG_${4200 + i}.MOV`,
      codec: i % 3 ? 'h264' : 'hevc',
      state: stateOf(i),
      seconds: 38 + i * 7,
      bytes: 48_000_000 + i * 9_000_000,
    });
  }
  for (let i = 0; i < 100; i++) {
    const title = i === 98 ? longTitle : `Long evening, run ${i + 1}`;
    const day = `2026-${String(1 + (i % 11)).padStart(2, '0')}-${String(1 + (i % 27)).padStart(2, '0')}`;
    host.addReview({
      id: `r${i}`,
      title,
      header: Header.parse({
        title,
        dog: dogs[i % 5],
        handler: handlers[i % 4],
        day: i % 9 === 0 ? '' : day,
      }),
      course: countedCourse(16 + (i % 5)),
      footage:
        i % 8 === 0
          ? []
          : [
              {
                id: `f${i}`,
                clipId: `k${i % 40}`,
                name: `IMG_${4200 + (i % 40)}.MOV`,
                speed: [],
                offset: 0,
                rate: 1,
              },
            ],
    });
  }
  const job = { total: null, trouble: null, result: null, done: 0, subject: null } as const;
  host.addJob({
    ...job,
    id: 'j1',
    name: 'clip.workingCopy',
    about: 'IMG_4207.MOV',
    subject: 'k7',
    done: 430,
    total: 1000,
    state: 'running',
  });
  host.addJob({ ...job, id: 'j2', name: 'clip.import', about: 'evening.mts', state: 'waiting' });
  host.addJob({
    ...job,
    id: 'j3',
    name: 'clip.import',
    about: 'notes.mp4',
    state: 'failed',
    trouble: {
      code: 'noVideo',
      message: '“notes.mp4” has no video in it. Choose a file that a camera wrote.',
    },
  });
  return host;
}
