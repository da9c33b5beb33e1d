// Writes what runs in a report into dist/page/scripts.json: texts, packed as the page carries them, and the hashes by which
// its policy knows them; and beside it the notices of all packages in them, to be read. Part of `npm run build`.
import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { REPORTS, pageScripts } from './bundle.mjs';
import { noticesOf, together } from './notices.mjs';

const out = resolve(import.meta.dirname, '../dist/page');

const sha256 = (text) => `sha256-${createHash('sha256').update(text).digest('base64')}`;
const packed = (text) => gzipSync(text, { level: 9 }).toString('base64');

const { loader, alive, ask } = await pageScripts();
const scripts = {
  loader: loader.text,
  alive: packed(alive.text),
  ask: packed(ask.text),
  hashes: [sha256(loader.text), sha256(alive.text)],
};
mkdirSync(out, { recursive: true });
writeFileSync(resolve(out, 'scripts.json'), JSON.stringify(scripts));
writeFileSync(resolve(out, 'licences.txt'), noticesOf(REPORTS, together([loader, alive, ask])));
if (process.argv.includes('--sizes'))
  for (const [name, { text }] of Object.entries({ loader, alive, ask }))
    console.log(`${name}: ${text.length} bytes, packed ${packed(text).length}`);
