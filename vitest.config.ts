import { existsSync } from 'node:fs';
import { dirname, resolve, sep } from 'node:path';
import process from 'node:process';
import { defineConfig } from 'vitest/config';

/** Lessons that cost a minute: every change of sensors runs them, every release does (`npm run test:long`). */
const LONG_ONLY = ['tests/acceptance/scenarios-switching.test.ts', 'tests/acceptance/scenarios-rangers.test.ts'];
/** Modules of the user's own are loaded by their loader, which must not find what other tests have loaded. */
const APART = 'tests/plugins/**/*.test.ts';
const TESTS = resolve('tests') + sep;
const SOURCE = resolve('src') + sep;

/**
 * After a build tests take the compiled modules, the very ones that the command line they drive runs on: each is read
 * once, and nothing stands between the code and the engine's compiler, which simulates a fifth faster. Without
 * `JAMBEAM_COMPILED`, as `npm test` sets it, they take the source: no build is needed, and none can be out of date.
 */
const compiled = {
  name: 'compiled',
  enforce: 'pre' as const,
  resolveId(source: string, importer = '') {
    const path = resolve(dirname(importer), source);
    if (!source.startsWith('.') || !importer.startsWith(TESTS) || !path.startsWith(SOURCE)) return null;
    const built = resolve('dist', path.slice(SOURCE.length));
    return existsSync(built) ? { id: built, external: true } : null;
  },
};
const plugins = process.env['JAMBEAM_COMPILED'] === undefined ? [] : [compiled];

const common = {
  // Many times what any test takes on an idle machine: one that is busy is no failure.
  testTimeout: 300_000,
  hookTimeout: 300_000,
  // A thread can't change its folder, which tests of the command line do.
  pool: 'forks' as const,
  // What is compiled is taken as Node loads it.
  server: { deps: { external: [/\/dist\//] } },
};

export default defineConfig({
  test: {
    maxWorkers: 2,
    globalSetup: 'tests/run-folder.ts',
    projects: [
      {
        plugins,
        test: {
          ...common,
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: [APART, ...(process.env['JAMBEAM_LONG'] === undefined ? LONG_ONLY : [])],
          // Tests keep nothing in modules: what is imported once serves all, which saves a minute and more.
          isolate: false,
        },
      },
      { plugins, test: { ...common, name: 'apart', include: [APART] } },
    ],
  },
});
