import { resolve, sep } from 'node:path';
import { defineConfig } from 'vitest/config';

const OURS = resolve('tests/mutation/vitest.ts');
const TESTS = resolve('tests') + sep;

/** What a mutant of a folder must get past: that folder's own cheap tests, and those against the world outside. */
export default defineConfig({
  plugins: [
    {
      name: 'suites that throw',
      enforce: 'pre',
      resolveId: (id, importer = '') =>
        id === 'vitest' && importer.startsWith(TESTS) && importer !== OURS ? OURS : null,
    },
  ],
  test: {
    include: ['tests/mutation/one-file.ts'],
    pool: 'threads',
    maxWorkers: 1,
    testTimeout: 120_000,
  },
});
