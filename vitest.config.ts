import { defineConfig } from 'vitest/config';

/** Lessons that cost a minute: every change of sensors runs them, every release does (`npm run test:long`). */
const LONG_ONLY = ['tests/acceptance/scenarios-switching.test.ts', 'tests/acceptance/scenarios-rangers.test.ts'];

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: process.env['JAMBEAM_LONG'] === undefined ? LONG_ONLY : [],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'threads',
    maxWorkers: 2,
  },
});
