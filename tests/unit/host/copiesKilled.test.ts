import { expect, test } from 'vitest';
import { clip } from '../../../scripts/clips/make.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { killCopies } from '../host-suite/killedCopies.ts';

test('a host killed five times while it makes a copy: no half file is ever used, and each next one goes on', async () => {
  const { path, frames } = await clip('hevc');
  const killed = await killCopies(path, 5, Math.random);
  try {
    expect(killed.at).toHaveLength(5);
    const { halfUsed, leftLying, notGoneOn } = killed;
    expect({ halfUsed, leftLying, notGoneOn }).toEqual({ halfUsed: 0, leftLying: 0, notGoneOn: 0 });
    const { table } = await indexFrames(killed.copy);
    expect(table.pts).toHaveLength(frames);
    console.log(`killed at ${killed.at.map((share) => share.toFixed(2)).join(', ')} of the work`);
  } finally {
    await killed.remove();
  }
}, 300_000);
