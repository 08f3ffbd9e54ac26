import { describe, expect, it } from 'vitest';
import { closeUpOf } from '../../../src/report/closeUp.ts';
import { pictureHtml } from '../../../src/report/htmlPieces.ts';
import type { Track, TrackMark } from '../../../src/track/track.ts';

const mark = (pts: number, x: number, y: number): TrackMark => ({ pts, at: { x, y }, contact: 'ground' });
const dog = (...marks: TrackMark[]): Track => ({
  id: 'd',
  footageId: 'f',
  during: 'run',
  who: 'dog',
  point: 'leftFrontPaw',
  marks,
});
const handler = (...marks: TrackMark[]): Track => ({
  id: 'h',
  footageId: 'f',
  during: 'run',
  who: 'handler',
  point: 'leftFoot',
  marks,
});
const at = { footageId: 'f', pts: 10 };
const both = ['dog', 'handler'] as const;
const review = (tracks: Track[], points: number[] = []) => ({
  tracks,
  drawings: points.length === 0 ? [] : [{ id: 'p', ...at, strokes: [{ ink: 'sky' as const, points }] }],
});

describe('a still close up', () => {
  it('holds both who matter, between the marks about that frame', () => {
    const part = closeUpOf(
      review([dog(mark(0, 0.4, 0.5), mark(20, 0.5, 0.5)), handler(mark(10, 0.5, 0.55))]),
      at,
      both,
    );
    expect(part?.size).toBeCloseTo(0.4);
    // The dog is half way, at 0.45; with room the two reach from 0.35 to 0.6 and from 0.32 to 0.63.
    expect(part?.x).toBeCloseTo(0.475 - 0.2);
    expect(part?.y).toBeCloseTo(0.475 - 0.2);
  });

  it('stays within the picture, and widens to what the coach drew', () => {
    const corner = [dog(mark(10, 0.02, 0.98)), handler(mark(10, 0.05, 0.97))];
    expect(closeUpOf(review(corner), at, both)).toEqual({ x: 0, y: 0.6, size: 0.4 });
    const wider = closeUpOf(review(corner, [0.5, 0.9, 0.52, 0.95]), at, both);
    expect(wider?.size).toBeGreaterThan(0.6);
  });

  it('is none where one is not marked, marks are far apart, or the two are: then the picture is whole', () => {
    const near = mark(10, 0.4, 0.5);
    expect(closeUpOf(review([dog(near)]), at, both)).toBeNull();
    expect(closeUpOf(review([dog(near)]), at, [])).toBeNull();
    expect(closeUpOf(review([dog(near)]), { ...at, footageId: 'other' }, ['dog'])).toBeNull();
    const torn = dog(mark(0, 0.4, 0.5), mark(2, 0.4, 0.5), mark(4, 0.4, 0.5), mark(40, 0.5, 0.5));
    expect(closeUpOf(review([torn]), at, ['dog'])).toBeNull();
    // A contact: somewhere between its two ends.
    const hidden = dog(mark(0, 0.3, 0.5), mark(2, 0.3, 0.5), mark(4, 0.3, 0.5), mark(20, 0.7, 0.5));
    expect(closeUpOf(review([hidden]), at, ['dog'])?.size).toBeCloseTo(0.6);
    expect(closeUpOf(review([dog(near), handler(mark(10, 0.99, 0.5))]), at, both)).toBeNull();
  });

  it('shows that part of the picture in the page', () => {
    const still = { base64: 'AA==', width: 1280, height: 720 };
    const html = pictureHtml({ still, alt: 'a', strokes: [], part: { x: 0.2, y: 0.1, size: 0.4 } });
    expect(html).toContain('aspect-ratio:1280/720');
    expect(html).toContain('width:250%;left:-50%;top:-25%');
    expect(pictureHtml({ still, alt: 'a', strokes: [], part: null })).not.toContain('whole');
  });
});
