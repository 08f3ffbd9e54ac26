import { expect, it } from 'vitest';
import { createLookAt } from '../../../app/window/stores/lookAt.ts';

it('a mark that was asked for is gone to once, as soon as it is there; the last asked for counts', () => {
  const lookAt = createLookAt();
  expect(lookAt.take(() => true)).toBeNull();
  lookAt.ask('a');
  lookAt.ask('b');
  expect(lookAt.take((id) => id === 'a')).toBeNull();
  expect(lookAt.take((id) => id === 'b')).toBe('b');
  expect(lookAt.take(() => true)).toBeNull();
});
