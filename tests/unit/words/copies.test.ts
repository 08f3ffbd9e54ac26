import { expect, test } from 'vitest';
import type { CopyReason, SlowReason } from '../../../src/footage/decodable.ts';
import { copyWords, whyCopied } from '../../../src/words/copies.ts';

/** Does not compile where a reason has no sentence. */
const every: Readonly<Record<CopyReason | SlowReason, string>> = copyWords.why;

test('every reason for a working copy is one plain sentence', () => {
  for (const sentence of Object.values(every)) expect(sentence).toMatch(/^[A-Z][^.]*\.$/);
  expect(whyCopied('longGop')).toBe(every.longGop);
  expect(whyCopied(null)).toBe('');
  expect(whyCopied('of a later version')).toBe('');
});
