import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Long files first, so that none is begun when the others have ended; what a fresh clone knows of that is where they lie. */
const longFirst = ['/tests/e2e/frames/rightFrames', '/tests/e2e/', '/footage/', '/unit/host/', '/scripts-'];
const rank = ({ moduleId }: TestSpecification): number => {
  const place = longFirst.findIndex((part) => moduleId.includes(part));
  return place < 0 ? longFirst.length : place;
};

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}

export default defineConfig({
  root,
  test: {
    root,
    include: ['tests/unit/**/*.test.{ts,tsx}', 'tests/reference/**/*.test.ts', 'tests/e2e/**/*.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 180_000,
    // As many as CI has cores: with one more, walks through the window run out of time on their way.
    maxWorkers: 2,
    maxConcurrency: 3,
    // A window on a busy machine may be late once; `npm test` names what needed a second go, and fails unless it was e2e.
    retry: 1,
    sequence: { sequencer: LongFirst },
  },
});
