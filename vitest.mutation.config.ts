import process from 'node:process';
import { defineConfig } from 'vitest/config';

/** What a mutant of a folder must get past: that folder's own cheap tests, and those against the world outside. */
const folder = process.env['JAMBEAM_MUTATE'] ?? 'engine';
const REFERENCE: Readonly<Record<string, readonly string[]>> = {
  engine: ['arithmetic'],
  score: ['intervals', 'matching', 'survival', 'walk-test'],
};
/** They read the source, or compile C. */
const APART = ['tests/engine/purity.test.ts', 'tests/counter/c99/**'];

export default defineConfig({
  test: {
    include: [
      `tests/${folder}/**/*.test.ts`,
      ...(REFERENCE[folder] ?? []).map((name) => `tests/reference/${name}.test.ts`),
    ],
    exclude: APART,
    pool: 'threads',
    maxWorkers: 1,
    testTimeout: 120_000,
  },
});
