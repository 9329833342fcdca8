import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/workbench/**', 'node_modules/**'],
    globalSetup: ['tests/build.ts'],
    // A hang is to end, and a busy machine is no fault.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    pool: 'threads',
  },
});
