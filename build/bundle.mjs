/** Bundles what runs in a report (src/page), each script with the notices of the packages that went into it. */
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

async function bundled(entry) {
  const { outputFiles, metafile } = await build({
    absWorkingDir: root,
    entryPoints: [resolve(root, 'src/page', entry)],
    bundle: true,
    minify: true,
    // What a file's own comments say of its licence stays, each once, at the end.
    legalComments: 'eof',
    metafile: true,
    platform: 'browser',
    format: 'iife',
    target: 'es2022',
    write: false,
    logLevel: 'warning',
    plugins: [leaner],
  });
  const packages = packagesIn(metafile, root);
  const code = outputFiles[0].text.trim();
  return { packages, text: packages.length === 0 ? code : `${code}\n/*!\n${noticesOf(packages)}*/` };
}

/** @returns for each script its text and the packages in it, in order of their names */
export async function pageScripts() {
  const [loader, alive, ask] = await Promise.all(['loader.ts', 'alive.ts', 'ask-worker.ts'].map(bundled));
  return { loader, alive, ask };
}
