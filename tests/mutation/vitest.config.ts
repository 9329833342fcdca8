import { defineConfig } from 'vitest/config';

// The engine's tests alone: nothing is built for them.
export default defineConfig({ test: { include: ['tests/**/*.test.ts'], testTimeout: 60_000, pool: 'threads' } });
