import { defineConfig } from 'vitest/config';

// The engine's tests alone: nothing is built for them. The walk over all entries notices crashes, not numbers.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/engine/values/robustness.test.ts'],
    testTimeout: 60_000,
    pool: 'threads',
  },
});
