import type { ClipSummary, ReviewSummary } from '../../../src/host/contract/shapes.ts';
import { dayInList } from '../../../src/words/library.ts';

/** Small letters without accents, so that a name is found however it was typed. */
const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Mn}/gu, '')
    .toLocaleLowerCase();

/** The reviews in which every word of the text occurs in title, dog, handler or day; newest first. */
export function findReviews(reviews: readonly ReviewSummary[], text: string): readonly ReviewSummary[] {
  const words = plain(text)
    .split(/\s+/)
    .filter((word) => word !== '');
  return [...reviews].reverse().filter((review) => {
    const about = plain(
      [review.title, review.dog, review.handler, review.day, dayInList(review.day)].join(' '),
    );
    return words.every((word) => about.includes(word));
  });
}

/** How the footage of a review stands: the worst of its clips counts. */
export type FootageStand =
  | { readonly stand: 'none' }
  | { readonly stand: 'ready'; readonly clips: number }
  | { readonly stand: 'missing'; readonly clipIds: readonly string[] }
  | { readonly stand: 'needsCopy'; readonly clipIds: readonly string[] };

export function footageStand(review: ReviewSummary, clips: ReadonlyMap<string, ClipSummary>): FootageStand {
  if (review.clipIds.length === 0) return { stand: 'none' };
  const missing = review.clipIds.filter((id) => (clips.get(id)?.state ?? 'missing') === 'missing');
  if (missing.length > 0) return { stand: 'missing', clipIds: missing };
  const needs = review.clipIds.filter((id) => clips.get(id)?.state === 'needsCopy');
  if (needs.length > 0) return { stand: 'needsCopy', clipIds: needs };
  return { stand: 'ready', clips: review.clipIds.length };
}

/** The words that a new review starts with: those of the review that was made last. */
export function likelyTeam(reviews: readonly ReviewSummary[]): {
  readonly dog: string;
  readonly handler: string;
  readonly obstacles: number;
} {
  const last = reviews.at(-1);
  return {
    dog: last?.dog ?? '',
    handler: last?.handler ?? '',
    obstacles: last && last.obstacles > 0 ? last.obstacles : 20,
  };
}

/** Every different name that was used, for the lists of suggestions. */
export function namesUsed(reviews: readonly ReviewSummary[], of: 'dog' | 'handler'): readonly string[] {
  return [...new Set(reviews.map((review) => review[of]).filter((name) => name !== ''))].sort();
}

/** The name of a file as a title: without its ending, signs that stand for spaces made spaces. */
export function titleOf(fileName: string): string {
  const stem = fileName.replace(/\.[A-Za-z0-9]{1,5}$/, '');
  const spaced = stem.replaceAll('_', ' ').replace(/\s+/g, ' ').trim();
  return (spaced === '' ? fileName : spaced).slice(0, 200);
}
