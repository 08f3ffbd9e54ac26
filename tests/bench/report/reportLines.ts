import { execFile } from 'node:child_process';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import { still } from '../../../src/footage/still.ts';
import { stillWidth, writeReport } from '../../../src/host/report.ts';
import { frameKey, stillsOffered, stillsWanted, type StillWanted } from '../../../src/report/stills.ts';
import { clocksOf } from '../../../src/review/readDocument.ts';
import { frameAt } from '../../../src/time/frameTable.ts';
import { pts } from '../../../src/time/units.ts';
import { measuredSample } from '../../unit/report/measured.ts';
import { atMost, median, ms } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';

const rounds = 7;
const stillCount = 12;
/** Stills made at the same time, by the report and by ffmpeg alone. */
const atOnce = 2;

/** The report of a run of twenty obstacles with twelve stills, in both forms, over ffmpeg alone making the same stills. */
export async function reportLines(): Promise<BenchLine[]> {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-bench-report-'));
  try {
    return [await measured(folder)];
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function measured(folder: string): Promise<BenchLine> {
  const { document, review, analysis, clips, facts } = measuredSample();
  const offered = stillsOffered(review, analysis);
  const frames = new Set<string>();
  const without = offered
    .filter(({ footageId, pts: at }) => {
      if (frames.size < stillCount) frames.add(frameKey(footageId, at));
      return !frames.has(frameKey(footageId, at));
    })
    .map(({ id }) => id);
  const state = { ...review, header: { ...review.header, report: { without, own: [], forCoach: '' } } };
  const wanted = [
    ...new Map(stillsWanted(state, analysis).map((w) => [frameKey(w.footageId, w.pts), w])).values(),
  ];
  const [clip] = document.footage;
  const table = clip && clocksOf(document).get(clip.id)?.table;
  if (!table || wanted.length !== stillCount) throw new Error(`${wanted.length} stills are wanted`);

  const film = join(folder, 'run.mp4');
  const { width, height } = clip.clip;
  const seconds = clip.clip.pts.length / 60;
  await ffmpeg(
    ...['-f', 'lavfi', '-i', `testsrc2=size=${width}x${height}:rate=60:duration=${seconds}`],
    ...[
      '-c:v',
      'libx264',
      '-preset',
      'veryfast',
      '-pix_fmt',
      'yuv420p',
      '-video_track_timescale',
      '60',
      film,
    ],
  );
  const stillOf = ({ pts: at }: Pick<StillWanted, 'pts'>): Promise<Uint8Array> =>
    still(film, table, frameAt(table, pts(at)), { maxWidth: stillWidth });

  const alone = async (): Promise<void> => {
    const queue = [...wanted];
    const work = async (): Promise<void> => {
      for (let next = queue.shift(); next; next = queue.shift()) {
        const from = ((next.pts - 0.5) / 60).toFixed(6);
        const to = join(folder, `${next.pts}.jpg`);
        await ffmpeg(
          ...['-ss', from, '-i', film, '-frames:v', '1', '-vf', `scale=${stillWidth}:-2`, '-q:v', '5', to],
        );
      }
    };
    await Promise.all(Array.from({ length: atOnce }, work));
  };
  const ours = async (): Promise<void> => {
    const asked = { state, analysis, clips, facts, stillOf, folder: join(folder, 'reports') };
    await writeReport(asked, ['html', 'pdf']);
  };
  const [theirs, mine]: [number[], number[]] = [[], []];
  for (let i = 0; i < rounds; i++) {
    theirs.push(await timed(alone));
    mine.push(await timed(ours));
  }
  const files = await readdir(join(folder, 'reports'));
  if (files.length !== 2) throw new Error(`written: ${files.join(', ')}`);
  // The first round also loads what both need.
  const [a, b] = [median(theirs.slice(1)), median(mine.slice(1))];
  return atMost(
    `report of ${review.course.steps.length} obstacles with ${stillCount} stills, HTML and PDF, over ffmpeg alone making the stills`,
    b / a,
    3,
    `${ms(b)} over ${ms(a)}, ${atOnce} stills at a time in both`,
  );
}

async function ffmpeg(...args: string[]): Promise<void> {
  const { ffmpeg: program } = await findPrograms();
  await promisify(execFile)(program, ['-v', 'error', '-y', ...args]);
}

async function timed(work: () => Promise<void>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}
