// `npm run licences` writes docs/licences.md from package-lock.json and what is bundled into reports; `-- --print` shows it.
import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pageScripts } from './bundle.mjs';
import { together } from './notices.mjs';

const root = resolve(import.meta.dirname, '..');
const { packages } = JSON.parse(readFileSync(resolve(root, 'package-lock.json'), 'utf8'));
const own = packages[''];

/** Of a place in node_modules. */
const nameOf = (place) => place.replace(/^.*node_modules\//, '');
const installed = (wanted) =>
  Object.entries(packages)
    .filter(([place, entry]) => place !== '' && wanted(entry, place))
    .map(([place, { version, license }]) => ({ name: nameOf(place), version, licence: license ?? oldWay(place) }));

/** Packages of before SPDX have a list, which the lock file doesn't take over. */
function oldWay(place) {
  const { licenses } = JSON.parse(readFileSync(resolve(root, place, 'package.json'), 'utf8'));
  return licenses?.map(({ type }) => type).join(' OR ') ?? 'not said';
}

/** Each name and version once, in order of names. */
function table(list) {
  const rows = list.map((one) => `| ${one.name} | ${one.version} | ${one.licence} | ${inPage(one) ? 'report' : ''} |`);
  return [...new Set(rows)].sort((a, b) => (a < b ? -1 : 1)).join('\n');
}

const scripts = await pageScripts();
const bundled = new Set(together(Object.values(scripts)).map(({ name, version }) => `${name} ${version}`));
const needed = installed(({ dev, devOptional }) => !dev && !devOptional);
const tools = installed((_, place) => place === `node_modules/${nameOf(place)}` && nameOf(place) in own.devDependencies);
const inPage = ({ name, version }) => bundled.has(`${name} ${version}`);
const counts = new Map();
for (const { licence } of needed) counts.set(licence, (counts.get(licence) ?? 0) + 1);

const page = `# Licences

jambeam itself is under the ${own.license} licence. \`npm run licences\` wrote this page from \`package-lock.json\` and from what the build puts into reports.

## What an installation brings along

${[...counts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([licence, n]) => `${n} × ${licence}`).join(', ')}. Some are for one kind of machine only and are left out on others. Their
texts come along in their folders. Parts of those marked *report* are copied into the scripts of every report that has scripts: their texts stand at the ends of these scripts, and
together in \`dist/page/licences.txt\` of the package.

| package | version | licence | copied into |
| --- | --- | --- | --- |
${table(needed)}

## What builds and tests it

Nobody who installs jambeam gets these, but for what is marked *report*, of which a part is copied into its scripts. Only those that \`package.json\` names:

| package | version | licence | copied into |
| --- | --- | --- | --- |
${table(tools)}
`;

if (process.argv.includes('--print')) process.stdout.write(page);
else writeFileSync(resolve(root, 'docs/licences.md'), page);
