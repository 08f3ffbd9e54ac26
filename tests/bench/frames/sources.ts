import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';
import type { Stand } from '../../e2e/frames/stand.ts';
import { benchClip, type BenchClip } from './clips.ts';

/** A large clip as the page opens it. */
export async function sourceOf(stand: Stand, name: BenchClip): Promise<PlainSource> {
  return plainSource(stand, await benchClip(name));
}

/** Any clip as the page opens it. */
export async function plainSource(stand: Stand, file: string): Promise<PlainSource> {
  const facts = await probe(file);
  const { table } = await indexFrames(file, { facts });
  return {
    url: stand.serve(file),
    timeBase: [table.timeBase.num, table.timeBase.den],
    pts: [...table.pts],
    width: facts.picture.width,
    height: facts.picture.height,
    rotation: facts.picture.rotation,
  };
}
