import { defineConfig } from 'vitest/config';

/** Lessons that cost a minute: every change of sensors runs them, every release does (`npm run test:long`). */
const LONG_ONLY = ['tests/acceptance/scenarios-switching.test.ts', 'tests/acceptance/scenarios-rangers.test.ts'];
/** Modules of the user's own are loaded by their loader, which must not find what other tests have loaded. */
const APART = 'tests/plugins/**/*.test.ts';

const common = {
  testTimeout: 120_000,
  hookTimeout: 120_000,
  // A thread can't change its folder, which tests of the command line do.
  pool: 'forks' as const,
  // They run the compiled one, as Node loads it.
  server: { deps: { external: [/\/dist\/cli\//] } },
};

export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      {
        test: {
          ...common,
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: [APART, ...(process.env['JAMBEAM_LONG'] === undefined ? LONG_ONLY : [])],
          // Tests keep nothing in modules: what is imported once serves all, which saves a minute and more.
          isolate: false,
        },
      },
      { test: { ...common, name: 'apart', include: [APART] } },
    ],
  },
});
