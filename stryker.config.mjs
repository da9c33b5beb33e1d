/** Mutation testing of one folder of the core: `npm run mutation -- engine`. What came of it: docs/mutation.md. */
import process from 'node:process';

const folder = process.env.JAMBEAM_MUTATE ?? 'engine';
/** Files of the folder, or lines of them: build/mutation.mjs names them. */
const files = (process.env.JAMBEAM_MUTATE_FILES ?? '').split(',');

export default {
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'vitest.mutation.config.ts', related: false },
  // Its rewriter of tsconfig files asks TypeScript for an interface that version 7 hasn't; nothing here needs it.
  tsconfigFile: 'tsconfig.not-rewritten.json',
  coverageAnalysis: 'perTest',
  concurrency: Number(process.env.JAMBEAM_MUTATE_WORKERS ?? 1),
  // Schemas and figures are words and numbers for readers; tests of docs and sources hold them.
  mutate: [...files, '!src/**/*schema.ts', '!src/**/figures/**'],
  ignorePatterns: ['dist', 'bench', 'tests/browser', '/mutation'],
  incremental: true,
  incrementalFile: `mutation/${folder}.incremental.json`,
  reporters: ['clear-text', 'json', 'progress-append-only'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
  jsonReporter: { fileName: `mutation/${folder}.json` },
  // Generous: on a busy machine a mutant that is only slow would count as one that was noticed.
  timeoutMS: 20_000,
  cleanTempDir: 'always',
};
