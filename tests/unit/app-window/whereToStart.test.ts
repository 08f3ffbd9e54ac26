import { describe, expect, it } from 'vitest';
import { whereToStart } from '../../../app/window/frame/whereToStart.ts';

const reviews = [
  { id: 'later', day: '2026-05-16', clipIds: ['b'] },
  { id: 'plan', day: '2026-03-01', clipIds: [] },
  { id: 'first', day: '2026-04-18', clipIds: ['a'] },
];
const jobs = (state: 'waiting' | 'running' | 'done' | 'failed') => [{ name: 'review.import', state }];

describe('where a start leads', () => {
  it('is the earliest demo run with footage, once all of the demo is in', () => {
    expect(whereToStart(true, reviews, jobs('done'))).toEqual({ screen: 'review', reviewId: 'first' });
    expect(whereToStart(true, reviews, jobs('running'))).toBeNull();
    expect(whereToStart(true, [], jobs('waiting'))).toBeNull();
  });

  it('is the Library in a library that was there before, and where the demo could not be taken in', () => {
    expect(whereToStart(false, reviews, jobs('running'))).toEqual({ screen: 'library' });
    expect(whereToStart(true, [], jobs('failed'))).toEqual({ screen: 'library' });
  });
});
