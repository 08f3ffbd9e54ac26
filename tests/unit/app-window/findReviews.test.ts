import { describe, expect, it } from 'vitest';
import {
  findReviews,
  footageStand,
  likelyTeam,
  namesUsed,
  titleOf,
} from '../../../app/window/library/findReviews.ts';
import { copyJob } from '../../../app/window/stores/library.ts';
import { likelyPurpose } from '../../../app/window/library/intake.ts';
import type { ClipSummary, ReviewSummary } from '../../../src/host/contract/shapes.ts';
import { clipLength, dayInList, dayOf, percent } from '../../../src/words/library.ts';

const review = (part: Partial<ReviewSummary>): ReviewSummary => ({
  id: 'r',
  title: 'Evening',
  dog: '',
  handler: '',
  day: '',
  runKind: 'training',
  obstacles: 0,
  marks: 0,
  clipIds: [],
  lastAct: 0,
  ...part,
});
const clip = (id: string, state: ClipSummary['state']): [string, ClipSummary] => [
  id,
  {
    id,
    name: `${id}.mp4`,
    sha256: '',
    bytes: 1,
    width: 1,
    height: 1,
    rotation: 0,
    container: 'mp4',
    codec: 'h264',
    pixelFormat: '',
    slow: null,
    copy: null,
    copyWish: null,
    shown: { width: 1, height: 1 },
    interlaced: false,
    fields: false,
    sound: null,
    frames: 1,
    seconds: 1,
    state,
    why: null,
    mediaId: null,
  },
];

describe('finding reviews', () => {
  const all = [
    review({ id: '1', title: 'Évening, ring two', dog: 'Fen', day: '2026-04-18' }),
    review({ id: '2', title: 'Morning', dog: 'Wren', handler: 'Ilse' }),
  ];
  it('shows the newest first where nothing is asked', () => {
    expect(findReviews(all, '  ').map((r) => r.id)).toEqual(['2', '1']);
  });
  it('asks for every word, whatever its case and accents, in title, team and day', () => {
    expect(findReviews(all, 'evening FEN').map((r) => r.id)).toEqual(['1']);
    expect(findReviews(all, '18 apr').map((r) => r.id)).toEqual(['1']);
    expect(findReviews(all, '2026-04').map((r) => r.id)).toEqual(['1']);
    expect(findReviews(all, 'fen ilse')).toEqual([]);
    expect(findReviews(all, '[.*')).toEqual([]);
  });
});

describe('how footage stands', () => {
  const clips = new Map([
    clip('a', 'ready'),
    clip('b', 'missing'),
    clip('c', 'needsCopy'),
    clip('d', 'workingCopy'),
  ]);
  it('tells the worst of its clips; a clip that the library does not know is missing', () => {
    expect(footageStand(review({}), clips)).toEqual({ stand: 'none' });
    expect(footageStand(review({ clipIds: ['a', 'd'] }), clips)).toEqual({ stand: 'ready', clips: 2 });
    expect(footageStand(review({ clipIds: ['a', 'c'] }), clips)).toEqual({
      stand: 'needsCopy',
      clipIds: ['c'],
    });
    expect(footageStand(review({ clipIds: ['c', 'b'] }), clips)).toEqual({
      stand: 'missing',
      clipIds: ['b'],
    });
    expect(footageStand(review({ clipIds: ['zz'] }), clips)).toEqual({ stand: 'missing', clipIds: ['zz'] });
  });
  it('finds the job that makes its working copy, not one that has ended', () => {
    const job = {
      id: 'j',
      name: 'clip.workingCopy',
      about: 'c.mp4',
      subject: 'c',
      done: 1,
      total: 2,
      trouble: null,
      result: null,
    };
    expect(copyJob(clips.get('c'), [{ ...job, state: 'running' }])?.id).toBe('j');
    expect(copyJob(clips.get('c'), [{ ...job, state: 'failed' }])).toBeUndefined();
    expect(copyJob(clips.get('a'), [{ ...job, state: 'running' }])).toBeUndefined();
  });
});

describe('what a new review starts with', () => {
  it('is the team and the count of the last one', () => {
    expect(likelyTeam([])).toEqual({ dog: '', handler: '', obstacles: 20 });
    const last = review({ dog: 'Fen', handler: 'Ilse', obstacles: 17 });
    expect(likelyTeam([review({ dog: 'Wren' }), last])).toEqual({
      dog: 'Fen',
      handler: 'Ilse',
      obstacles: 17,
    });
    expect(namesUsed([last, last, review({ dog: 'Ash' })], 'dog')).toEqual(['Ash', 'Fen']);
  });
  it('takes its title from the name of the file', () => {
    expect(titleOf('evening_run  2.MOV')).toBe('evening run 2');
    expect(titleOf('夕方のラン.mp4')).toBe('夕方のラン');
    expect(titleOf('.mp4')).toBe('.mp4');
    expect(titleOf('x'.repeat(500)).length).toBe(200);
  });
  it('tells files apart by their endings and tries the rest as videos', () => {
    const names = [
      'a.JSON',
      'b.jpeg',
      'c.Mts',
      'd',
      'e.PDF',
      'f.heic',
      'g.svg',
      'h.course.json',
      'i.walkback.json',
      'k.RULES.json',
    ];
    expect(names.map(likelyPurpose)).toEqual([
      'review',
      'picture',
      'video',
      'video',
      'picture',
      'picture',
      'course',
      'course',
      'review',
      'rules',
    ]);
  });
});

describe('days and lengths in words', () => {
  it('are short, and odd days stay as they are', () => {
    expect(dayInList('2026-04-18')).toBe('18 Apr 2026');
    expect(dayInList('2026-13-40')).toBe('2026-13-40');
    expect(dayOf(new Date(2026, 0, 5, 23, 59))).toBe('2026-01-05');
    expect([clipLength(41.6), clipLength(59.6), clipLength(185)]).toEqual(['42 s', '1:00 min', '3:05 min']);
    expect([percent(1, 3), percent(5, 0), percent(7, 5)]).toEqual(['33 %', '0 %', '100 %']);
  });
});
