import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { composeReport, reportRoom, writeReport, type StillOf } from '../../../src/host/report.ts';
import { Preferences } from '../../../src/host/contract/shapes.ts';
import { clocksOf } from '../../../src/review/readDocument.ts';
import { onePixel, sample } from '../report/sample.ts';

const jpeg = Buffer.from(onePixel, 'base64');
const { document, review: state, analysis, clips } = sample();
/** The report as HTML. */
async function made(asked: Parameters<typeof composeReport>[0]): Promise<string> {
  const [file] = await composeReport(asked, ['html']);
  return String(file?.content);
}

const pictures = (html: string): number => html.match(/<img /g)?.length ?? 0;

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'walkback-report-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe('making the report', () => {
  test('asks for each frame once, whatever lies on it, and tells how far it is', async () => {
    const asked: string[] = [];
    const told: [number, number][] = [];
    const stillOf: StillOf = async ({ footageId, pts }) => {
      asked.push(`${footageId}/${pts}`);
      return jpeg;
    };
    const html = await made({
      state,
      analysis,
      clips,
      stillOf,
      progress: (done, total) => told.push([done, total]),
    });
    expect(new Set(asked).size).toBe(asked.length);
    // The late cue's frame carries a mark and a drawing, the blind cross's cue lies on the take-off frame.
    expect(pictures(html)).toBeGreaterThan(asked.length);
    expect(told.at(-1)).toEqual([asked.length, asked.length]);
  });

  test('a frame that cannot be had costs its picture, not the report', async () => {
    let n = 0;
    const stillOf: StillOf = async () => {
      n += 1;
      if (n === 2) throw new Error('the decoder does not give it out');
      if (n === 3) return Buffer.from('no JPEG');
      return n === 4 ? null : jpeg;
    };
    const html = await made({ state, analysis, clips, stillOf });
    expect(html).toMatch(/\d+ pictures could not be made\./);
    expect(pictures(html)).toBeGreaterThan(3);
  });

  test('stops when told to, and writes nothing', async () => {
    const stop = new AbortController();
    const stillOf: StillOf = async () => {
      stop.abort();
      return jpeg;
    };
    const asked = { state, analysis, clips, stillOf, folder, signal: stop.signal };
    await expect(writeReport(asked)).rejects.toThrow();
    expect(await readdir(folder)).toEqual([]);
  });

  test('an id with signs of markup in it is known again', async () => {
    const odd = { ...state, id: '"><b>&\'' };
    const asked = { state: odd, analysis, clips, stillOf: async () => null, folder };
    const one = await writeReport(asked, ['html', 'pdf']);
    const again = await writeReport(asked, ['html', 'pdf']);
    expect(again.map((f) => f.path)).toEqual(one.map((f) => f.path));
    expect((await readdir(folder)).length).toBe(2);
    for (const { path, bytes } of again) expect(Buffer.byteLength(await readFile(path))).toBe(bytes);
  });
});

describe('the report room of the host', () => {
  const room = (still: Parameters<typeof reportRoom.write>[0]['still']) =>
    reportRoom.write({
      review: state,
      form: 'html',
      short: false,
      copy: 'student',
      book: undefined,
      frames: new Map([...clocksOf(document)].map(([, c]) => [state.footage[0]?.clipId ?? '', c.table])),
      clips: new Map(),
      preferences: Preferences.parse({ dialect: 'american' }),
      still,
      picture: async () => null,
      signal: new AbortController().signal,
      progress: () => undefined,
    });

  test('analyses with the frames it is given, asks by clip and frame, and speaks the coach’s dialect', async () => {
    const asked: [string, number, number][] = [];
    const { name, content } = await room(async (...args) => {
      asked.push(args);
      return jpeg;
    });
    expect(name).toBe('Tansy-second-evening-on-the-long-course-coaching-report.html');
    expect(content).toContain('36.667 s');
    expect(content).toContain('teeter');
    expect(content).not.toContain('see-saw');
    const frames = new Set(analysis.crosses.flatMap((c) => c.cues.map((cue) => cue.begins.frame)));
    expect(asked.some(([, frame]) => frames.has(frame))).toBe(true);
    expect(asked.every(([clipId, , width]) => clipId === state.footage[0]?.clipId && width === 960)).toBe(
      true,
    );
  });
});
