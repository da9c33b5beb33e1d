import { existsSync } from 'node:fs';
import { dirname, resolve, sep } from 'node:path';
import process from 'node:process';
import { defineConfig } from 'vitest/config';

/** Lessons that cost a minute: every change of sensors runs them, every release does (`npm run test:long`). */
const LONG_ONLY = ['tests/acceptance/scenarios-switching.test.ts', 'tests/acceptance/scenarios-rangers.test.ts'];
/** Modules of the user's own are loaded by their loader, which must not find what other tests have loaded. */
const APART = 'tests/plugins/**/*.test.ts';
/**
 * What is tried from outside, at length: in a browser, as programs that are stopped, starved or joined, as a package, as a
 * newcomer types it, on other versions of Node. `npm run test:rest`; `npm test` has one of each that goes quicker.
 */
const REST = [
  'tests/acceptance/{package,same-bytes,tutorials}.test.ts',
  'tests/browser/{alive,ask,compare,hostile,rangers,report,study}.test.ts',
  'tests/cli/carried.test.ts',
  'tests/cli/study/{join,never-lost,own-code}.test.ts',
  'tests/faults/{disk,limits,permission,signals,streams}.test.ts',
  'tests/hostile/fuzz.test.ts',
];
const REST_APART = ['tests/plugins/{carried-code,command-line,examples,process}.test.ts'];
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

const longOnly = process.env['JAMBEAM_LONG'] === undefined ? LONG_ONLY : [];
/** Tests keep nothing in modules: what is imported once serves all, which saves a minute and more. */
const together = { ...common, isolate: false };

export default defineConfig({
  test: {
    maxWorkers: 2,
    globalSetup: 'tests/run-folder.ts',
    projects: [
      {
        plugins,
        test: {
          ...together,
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: [APART, ...REST, ...longOnly],
        },
      },
      { plugins, test: { ...common, name: 'apart', include: [APART], exclude: REST_APART } },
      { plugins, test: { ...together, name: 'rest', include: REST } },
      { plugins, test: { ...common, name: 'rest-apart', include: REST_APART } },
    ],
  },
});
