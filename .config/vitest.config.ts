import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  root,
  test: {
    root,
    include: ['tests/unit/**/*.test.{ts,tsx}', 'tests/reference/**/*.test.ts', 'tests/e2e/**/*.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
  },
});
