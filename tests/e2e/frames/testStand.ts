import { afterAll, beforeAll, expect } from 'vitest';
import { openStand, type Stand } from './stand.ts';

/** A stand for all tests of a file. After the last of them the page must not have complained of anything. */
export function testStand(): () => Stand {
  let stand: Stand | undefined;
  const get = (): Stand => {
    if (!stand) throw new Error('The stand is opened before the first test, not sooner');
    return stand;
  };
  beforeAll(async () => {
    stand = await openStand();
  });
  afterAll(async () => {
    await get().close();
    // The content policy of the window holds: nothing was forbidden, nothing rejected unheard.
    expect(get().complaints.filter((c) => /policy|unhandled|uncaught/i.test(c))).toEqual([]);
  });
  return get;
}
