import { describe, expect, it } from 'vitest';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { turnsFrom, type TurnsFrom } from '../../../src/review/turnsFrom.ts';
import { turnsFromSentence } from '../../../src/words/review.ts';
import { courseOf, cross, inCross, review, steadyClocks, took } from './example.ts';

/** A front cross at an obstacle from frame 100 to frame 120, its cue first seen on a frame. */
const earliest = (kind: ObstacleKind, cue: number | null): TurnsFrom | null => {
  const marks = [
    took(1, 'in', 100),
    took(1, 'out', 120),
    ...(cue === null ? [] : [inCross('cueBegins', cue, 'feet')]),
  ];
  const [analysed] = analyse(review(courseOf(kind), marks, [cross('front')]), steadyClocks(30)).crosses;
  return analysed ? turnsFrom(analysed, kind) : null;
};
const told = (kind: ObstacleKind, cue: number): unknown[] => {
  const t = earliest(kind, cue);
  if (!t) return [];
  return t.from === 'open' ? [t.from, t.earliest.frame, t.latest.frame] : [t.from, t.moment.frame];
};

describe('the earliest frame at which the dog could turn', () => {
  it('is the cue while she is on the ground, and the landing once she has taken off', () => {
    expect(told('barJump', 90)).toEqual(['cue', 90]);
    expect(told('barJump', 110)).toEqual(['landing', 120]);
    expect(told('barJump', 125)).toEqual(['cue', 125]);
  });
  it('stays open where the frames do not tell whether she had taken off', () => {
    expect(told('barJump', 101)).toEqual(['open', 101, 120]);
    expect(told('barJump', 120)).toEqual(['open', 120, 120]);
  });
  it('is the exit inside a tunnel, and the end of poles and contacts', () => {
    expect(told('tunnel', 110)).toEqual(['exit', 120]);
    expect(told('weavePoles', 90)).toEqual(['leaving', 120]);
    expect(told('aFrame', 110)).toEqual(['leaving', 120]);
    expect(told('aFrame', 130)).toEqual(['cue', 130]);
  });
  it('is said in a sentence, with what held her', () => {
    const said = (kind: ObstacleKind, cue: number): string => {
      const t = earliest(kind, cue);
      return t ? turnsFromSentence(t, kind) : '';
    };
    expect(said('barJump', 90)).toBe('From the cue, frame 90.');
    expect(said('barJump', 110)).toBe('From landing, frame 120: she was in the air when the cue began.');
    expect(said('tunnel', 110)).toBe('From exit, frame 120: she was inside when the cue began.');
    expect(said('aFrame', 110)).toBe('From last paw off, frame 120: she runs it to its end first.');
    expect(said('barJump', 101)).toBe('From frame 101 or 120: the frames do not tell.');
  });
  it('is not told before cue and obstacle are marked', () => {
    expect(earliest('barJump', null)).toBeNull();
    const only = analyse(
      review(courseOf('barJump'), [inCross('cueBegins', 90)], [cross('front')]),
      steadyClocks(30),
    ).crosses[0];
    expect(only && turnsFrom(only, 'barJump')).toBeNull();
  });
});
