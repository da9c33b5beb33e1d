// Puts the packages of some modules of dist into these modules themselves, and beside dist the notices of all of them. Part of
// `npm run build`.
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { passingOn } from './bundle.mjs';
import { noticesOf, together } from './notices.mjs';

const dist = resolve(import.meta.dirname, '../dist');
const modules = await passingOn();
for (const { name, text } of modules) writeFileSync(resolve(dist, `${name}.js`), text);
writeFileSync(resolve(dist, 'licences.txt'), noticesOf('Modules of jambeam', together(modules)));
