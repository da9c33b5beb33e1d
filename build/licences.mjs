// `npm run licences` writes docs/licences.md from package-lock.json and what the build copies; `-- --print` shows it.
import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pageScripts, passingOn } from './bundle.mjs';
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
const table = (list, more = () => '') =>
  [...new Set(list.map((one) => `| ${one.name} | ${one.version} | ${one.licence} |${more(one)}`))].sort((a, b) => (a < b ? -1 : 1)).join('\n');

const inReports = together(Object.values(await pageScripts()));
const inModules = together(await passingOn());
const isIn = (list, { name, version }) => list.some((one) => one.name === name && one.version === version);
const where = (one) =>
  [isIn(inModules, one) && 'package', isIn(inReports, one) && 'report'].filter((place) => place !== false).join(', ');
const copied = together([{ packages: inReports }, { packages: inModules }]);

const needed = installed(({ dev, devOptional }) => !dev && !devOptional);
const tools = installed((_, place) => place === `node_modules/${nameOf(place)}` && nameOf(place) in own.devDependencies);
const counts = new Map();
for (const { licence } of needed) counts.set(licence, (counts.get(licence) ?? 0) + 1);

const page = `# Licences

jambeam itself is under the ${own.license} licence. \`npm run licences\` wrote this page from \`package-lock.json\` and from what the build copies.

## What an installation brings along

${[...counts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([licence, n]) => `${n} × ${licence}`).join(', ')}. Some are for one kind of machine only and are left out on others. Their
texts come along in their folders.

| package | version | licence |
| --- | --- | --- |
${table(needed)}

## What is copied

The build puts packages that come as hundreds of files into the few modules of ours that use them; their texts stand together in \`dist/licences.txt\` of the package. Into reports that have scripts go parts of
these and of others: their texts stand at the ends of these scripts, and together in \`dist/page/licences.txt\`.

| package | version | licence | copied into |
| --- | --- | --- | --- |
${table(copied, (one) => ` ${where(one)} |`)}

## What builds and tests it

Nobody who installs jambeam gets these, but for what is listed above as copied. Only those that \`package.json\` names:

| package | version | licence |
| --- | --- | --- |
${table(tools)}
`;

if (process.argv.includes('--print')) process.stdout.write(page);
else writeFileSync(resolve(root, 'docs/licences.md'), page);
