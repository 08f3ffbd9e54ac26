import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { hostTroubles } from '../words/hostTroubles.ts';
import { makeAllowed } from './allowed.ts';
import type { Desk } from './desk.ts';
import { ownReviewImport } from './handlers/reviewFiles.ts';
import { trouble } from './troubles.ts';

/** Where the demo lies: with the program, whether it runs from its sources or from a build. Null where it is not. */
export function demoFolder(from = import.meta.dirname): string | null {
  const here = join(from, 'fixtures', 'demo');
  if (existsSync(join(from, 'package.json')) && existsSync(here)) return here;
  const above = dirname(from);
  return above === from ? null : demoFolder(above);
}

/** Queues the demo's reviews for a library. Throws `notFound` where there is no demo in the folder. */
export async function openDemo(desk: Desk, folder: string | null): Promise<void> {
  const names = folder === null ? [] : await readdir(folder);
  const reviews = names.filter((n) => n.endsWith('.walkback.json')).sort();
  if (folder === null || reviews.length === 0) throw trouble('notFound', hostTroubles.noDemo);
  // The demo is the program's own: it may lie outside the folders that a window may look into.
  const own: Desk = { ...desk, allowed: makeAllowed(true, () => []) };
  for (const name of reviews) {
    desk.jobs.start('review.import', ownReviewImport(own, { source: { path: join(folder, name) } }));
  }
}
