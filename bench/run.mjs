/**
 * `npm run bench`: compiles the benches' TypeScript and starts them. What they measure is dist, the code users run.
 *
 *     npm run bench                                 everything
 *     npm run bench -- 'default mix'                what has these words in its name
 *     npm run bench -- pipeline --against ../old    this build and another checkout's, by turns
 *     npm run bench -- memory --long                ten million passages too
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const home = resolve(import.meta.dirname, '..');
const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));

/** Compiles a bench so that what it imports from src comes from the dist of the checkout `root`. */
async function compile(name, root, as) {
  const outfile = join(folder, `${as}.mjs`);
  const fromDist = {
    name: 'from-dist',
    setup({ onResolve }) {
      onResolve({ filter: /^\.\.\/src\// }, ({ path }) => {
        const file = join(root, path.replace(/^\.\.\/src/, 'dist'));
        return { path: pathToFileURL(file).href, external: true };
      });
    },
  };
  const entryPoints = [join(import.meta.dirname, name)];
  await build({ entryPoints, outfile, bundle: true, platform: 'node', format: 'esm', plugins: [fromDist] });
  return outfile;
}

try {
  const args = process.argv.slice(2);
  const at = args.indexOf('--against');
  const other = at < 0 ? null : resolve(args.splice(at, 2)[1] ?? '');
  const builds = [{ name: 'this', root: home, measure: await compile('measure.ts', home, 'this') }];
  if (other) builds.push({ name: 'other', root: other, measure: await compile('measure.ts', other, 'other') });
  const { main } = await import(pathToFileURL(await compile('main.ts', home, 'main')).href);
  process.exitCode = main(args, builds);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
