import { defineConfig } from 'vitest/config';

/** What a mutant of a folder must get past: that folder's own cheap tests, and those against the world outside. */
export default defineConfig({
  test: {
    include: ['tests/one-file.mutation.ts'],
    pool: 'threads',
    maxWorkers: 1,
    testTimeout: 120_000,
  },
});
