// Bundles what runs in a report (src/page) into dist/page/scripts.json: texts, packed as the page carries them, and
// the hashes by which its policy knows them. Part of `npm run build`.
import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

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
  const { outputFiles } = await build({
    entryPoints: [resolve(root, 'src/page', entry)],
    bundle: true,
    minify: true,
    platform: 'browser',
    format: 'iife',
    target: 'es2022',
    write: false,
    logLevel: 'warning',
    plugins: [leaner],
  });
  return outputFiles[0].text.trim();
}

const sha256 = (text) => `sha256-${createHash('sha256').update(text).digest('base64')}`;
const packed = (text) => gzipSync(text, { level: 9 }).toString('base64');

const [loader, alive, ask] = await Promise.all(['loader.ts', 'alive.ts', 'ask-worker.ts'].map(bundled));
const scripts = {
  loader,
  alive: packed(alive),
  ask: packed(ask),
  hashes: [sha256(loader), sha256(alive)],
};
mkdirSync(resolve(root, 'dist/page'), { recursive: true });
writeFileSync(resolve(root, 'dist/page/scripts.json'), JSON.stringify(scripts));
if (process.argv.includes('--sizes'))
  for (const [name, text] of Object.entries({ loader, alive, ask }))
    console.log(`${name}: ${text.length} bytes, packed ${packed(text).length}`);
