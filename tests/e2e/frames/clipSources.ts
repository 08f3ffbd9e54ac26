import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { clip, type ClipKind } from '../../../scripts/clips/make.ts';
import { reasonForCopy } from '../../../src/footage/decodable.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { makeWorkingCopy } from '../../../src/footage/workingCopy.ts';
import type { PlainSource } from './page.ts';
import { probeTimes, type Stand } from './stand.ts';

/** A clip of a kind as the program would open it: its file as it is, and its working copy where it gets one. */
export interface ClipSources {
  readonly frames: number;
  readonly original: PlainSource;
  readonly copy: PlainSource | null;
}

const folder = mkdtempSync(path.join(tmpdir(), 'walkback-frames-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

export async function clipSources(stand: Stand, kind: ClipKind): Promise<ClipSources> {
  const made = await clip(kind);
  const facts = await probe(made.path);
  const { table } = await indexFrames(made.path, { facts });
  const { width, height } = facts.picture;
  const plain: PlainSource = {
    url: stand.serve(made.path),
    timeBase: [table.timeBase.num, table.timeBase.den],
    pts: [...table.pts],
    width,
    height,
    rotation: facts.picture.rotation,
  };
  // Where a clip shows two pictures at one time, the table keeps the first: numbers then run ahead of the index.
  if (table.pts.length !== made.frames) plain.numbers = risingOnly(probeTimes(made.path).pts);
  let copy: PlainSource | null = null;
  if (reasonForCopy(facts) !== null) {
    const out = path.join(folder, `${kind}.mp4`);
    await makeWorkingCopy(made.path, table, out, { facts });
    copy = { ...plain, url: stand.serve(out), rotation: 0 };
  }
  return { frames: made.frames, original: plain, copy };
}

/** Places of the times that come after all before them. */
function risingOnly(times: readonly number[]): number[] {
  let latest = -Infinity;
  return times.flatMap((time, place) => {
    if (time <= latest) return [];
    latest = time;
    return [place];
  });
}

/** Repeatable numbers from 0 up to `below` (Park and Miller 1988, "minimal standard"). */
export function someFrames(count: number, below: number, seed: number): number[] {
  let x = seed;
  return Array.from({ length: count }, () => {
    x = (x * 16807) % 2147483647;
    return x % below;
  });
}
