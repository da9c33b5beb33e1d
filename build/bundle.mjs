/** Bundles what holds packages of others: scripts of a report (src/page), and modules that would have hundreds of files to read. */
import { resolve } from 'node:path';
import { build } from 'esbuild';
import { noticesOf, packagesIn } from './notices.mjs';

const root = resolve(import.meta.dirname, '..');

/** Kinds of pictures that no chart of ours is: their parts of vega stay out. */
const UNUSED = /^vega-(geo|force|hierarchy|voronoi|wordcloud|crossfilter|regression|label)$/;

const leaner = {
  name: 'leaner',
  setup(bundle) {
    // Only vega's own list of transforms names them all; who else needs one gets it.
    bundle.onResolve({ filter: UNUSED }, ({ path, importer }) =>
      /[\\/]vega[\\/](build|index|src)/.test(importer) ? { path, namespace: 'unused' } : undefined,
    );
    bundle.onLoad({ filter: /.*/, namespace: 'unused' }, () => ({ contents: 'export {}' }));
    // Messages of zod in other languages.
    bundle.onLoad({ filter: /[\\/]zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: 'export { default as en } from "./en.js"',
    }));
  },
};

async function bundled(entry, options) {
  const { outputFiles, metafile } = await build({
    absWorkingDir: root,
    entryPoints: [resolve(root, 'src', entry)],
    bundle: true,
    minify: true,
    // What a file's own comments say of its licence stays, each once, at the end.
    legalComments: 'eof',
    metafile: true,
    platform: 'browser',
    target: 'es2022',
    write: false,
    logLevel: 'warning',
    plugins: [leaner],
    ...options,
  });
  return { packages: packagesIn(metafile, root), code: outputFiles[0].text.trim() };
}

export const REPORTS = 'The scripts of jambeam’s reports';

/** With the notices at its end. */
async function script(entry) {
  const { packages, code } = await bundled(`page/${entry}`, { format: 'iife' });
  return { packages, text: packages.length === 0 ? code : `${code}\n/*!\n${noticesOf(REPORTS, packages)}*/` };
}

/** @returns for each script its text and the packages in it, in order of their names */
export async function pageScripts() {
  const [loader, alive, ask] = await Promise.all(['loader.ts', 'alive.ts', 'ask-worker.ts'].map(script));
  return { loader, alive, ask };
}

/**
 * Modules that only pass on what packages export. As the packages come they are 471 files, and 200: to find these takes longer than
 * most commands.
 */
const PASSING_ON = ['engine/arithmetic', 'engine/distribution-functions', 'report/charts/vega'];

/** @returns for each of these modules its name, its text and the packages in it */
export function passingOn() {
  return Promise.all(
    PASSING_ON.map(async (name) => {
      const { packages, code } = await bundled(`${name}.ts`, { format: 'esm' });
      return { name, packages, text: `${code}\n` };
    }),
  );
}
