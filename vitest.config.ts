import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/workbench/**', 'node_modules/**'],
    globalSetup: ['tests/build.ts'],
    testTimeout: 30_000,
    pool: 'threads',
  },
});
