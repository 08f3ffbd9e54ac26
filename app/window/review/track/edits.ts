import type { ReviewState } from '../../../../src/review/entities.ts';
import { mostTracks } from '../../../../src/review/document.ts';
import {
  mostTrackMarks,
  type DogPoint,
  type HandlerPoint,
  type Track,
  type TrackMark,
} from '../../../../src/track/track.ts';
import { bodyPointWords, realLineWords } from '../../../../src/words/realLine.ts';
import type { Act, MakeId } from '../marking/act.ts';

const words = realLineWords.acts;

/** Which track: of whom, which point, on which clip, while she runs or while she waits. */
export type TrackKey = { readonly footageId: string; readonly during: Track['during'] } & (
  | { readonly who: 'dog'; readonly point: DogPoint }
  | { readonly who: 'handler'; readonly point: HandlerPoint }
);

/** The track of a key; where the review holds several, the one with most marks. */
export function trackOf(review: Pick<ReviewState, 'tracks'>, key: TrackKey): Track | undefined {
  return review.tracks
    .filter(
      (t) =>
        t.footageId === key.footageId &&
        t.during === key.during &&
        t.who === key.who &&
        t.point === key.point,
    )
    .reduce<Track | undefined>(
      (most, t) => (most && most.marks.length >= t.marks.length ? most : t),
      undefined,
    );
}

/** The mark of a track on a frame. */
export const markOn = (track: Track | undefined, pts: number): TrackMark | undefined =>
  track?.marks.findLast((m) => m.pts === pts);

/** Puts the mark of a frame, new or in place of the one that stands there. Null where the review is full. */
export function putMark(
  review: Pick<ReviewState, 'tracks'>,
  key: TrackKey,
  mark: TrackMark,
  makeId: MakeId,
): Act | null {
  const there = trackOf(review, key);
  const name = bodyPointWords[key.point];
  if (!there) {
    if (review.tracks.length >= mostTracks) return null;
    const body: Track = { id: makeId(), ...key, marks: [mark] };
    return { label: words.marked(name), changes: [{ kind: 'track', id: body.id, body }] };
  }
  const others = there.marks.filter((m) => m.pts !== mark.pts);
  if (others.length >= mostTrackMarks) return null;
  const moved = others.length < there.marks.length;
  const marks = [...others, mark].sort((a, b) => a.pts - b.pts);
  const body = { ...there, marks };
  return {
    label: moved ? words.moved(name) : words.marked(name),
    changes: [{ kind: 'track', id: body.id, body }],
  };
}

/** Takes the mark of a frame away, and with the last one the track. Null where none stands there. */
export function dropMark(review: Pick<ReviewState, 'tracks'>, key: TrackKey, pts: number): Act | null {
  const there = trackOf(review, key);
  const marks = there?.marks.filter((m) => m.pts !== pts);
  if (!there || !marks || marks.length === there.marks.length) return null;
  return {
    label: words.removed(bodyPointWords[key.point]),
    changes: [{ kind: 'track', id: there.id, body: marks.length > 0 ? { ...there, marks } : null }],
  };
}
