/**
 * `npm run fuzz`: compiles the fuzzer with the sources it tries, and starts it in a process whose heap is bounded, so that an
 * input that eats memory ends it.
 *
 *     npm run fuzz                                 every target by turns, ten minutes
 *     npm run fuzz -- table study --minutes 60     these two, an hour
 *     npm run fuzz -- --seed 7                     other inputs
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';

const HEAP_MB = 512;
const home = resolve(import.meta.dirname, '../..');
// As deep as the sources: what they read relative to themselves is found.
const outfile = join(home, 'dist', 'hostile', `fuzz-${process.pid}.mjs`);
const files = mkdtempSync(join(tmpdir(), 'jambeam-fuzz-'));
try {
  await build({
    stdin: {
      contents: `import { main } from './main.js'; process.exitCode = await main(process.argv[2], process.argv.slice(3));`,
      resolveDir: import.meta.dirname,
      loader: 'ts',
    },
    outfile,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
  });
  const { status } = spawnSync(
    process.execPath,
    [`--max-old-space-size=${HEAP_MB}`, outfile, files, ...process.argv.slice(2)],
    { stdio: 'inherit', cwd: home },
  );
  process.exitCode = status ?? 1;
  // Who was ended can't tell: the last input lies where it was put.
  if (status === null || ![0, 1, 2].includes(status))
    process.stderr.write(`it was ended; the newest folder in ${files} has the input\n`);
  else rmSync(files, { recursive: true, force: true });
} finally {
  rmSync(outfile, { force: true });
}
