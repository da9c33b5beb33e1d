/**
 * What the licences of bundled packages ask for: that their copyright lines and texts go along with every copy. Read from
 * the packages themselves; a package without a text of its licence stops the build.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { resolve } from 'node:path';

const TEXT = /^(licen[cs]e|notice|copying)(?!.*\.(js|json)$)/i;
const AT_END = /^#* ?licen[cs]e\b(?![\s\S]*^#* ?licen[cs]e\b)[\s\S]*copyright[\s\S]*/im;
/** The innermost package of a path. */
const PACKAGE = /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/;

const RULE = '-'.repeat(72);

const byName = (a, b) => (`${a.name}@${a.version}` < `${b.name}@${b.version}` ? -1 : 1);

/** The packages of which at least a byte stands in the bundle. @param root what paths in the metafile are relative to */
export function packagesIn(metafile, root) {
  const folders = Object.values(metafile.outputs).flatMap(({ inputs }) =>
    Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 && PACKAGE.exec(path)?.[0]) || []),
  );
  return [...new Set(folders)].map((folder) => readPackage(resolve(root, folder))).sort(byName);
}

/** Those of several bundles, each once. */
export function together(bundles) {
  const all = bundles.flatMap(({ packages }) => packages);
  return [...new Map(all.map((one) => [`${one.name}@${one.version}`, one])).values()].sort(byName);
}

function readPackage(folder) {
  const { name, version, license } = JSON.parse(readFileSync(resolve(folder, 'package.json'), 'utf8'));
  const read = (file) => readFileSync(resolve(folder, file), 'utf8');
  const files = readdirSync(folder);
  const texts = files.filter((file) => TEXT.test(file)).map(read);
  // Some say it at the end of their README only.
  if (texts.length === 0) texts.push(...files.filter((file) => /^readme/i.test(file)).flatMap((file) => AT_END.exec(read(file)) ?? []));
  if (texts.length === 0) throw new Error(`${name} ${version} (${license}) has no text of its licence`);
  return { name, version, licence: license, text: tidied(texts.join('\n\n')) };
}

const tidied = (text) =>
  `${text
    .split(/\r?\n/)
    .map((line) => line.trimEnd())
    .join('\n')
    .trim()}\n`;

/** One text: which packages, their licences, and each wording once for all that share it. @param what contains them */
export function noticesOf(what, packages) {
  const wordings = [...new Set(packages.map(({ text }) => text))];
  const parts = wordings.map((text) => {
    const those = packages.filter((one) => one.text === text);
    const names = those.map(({ name, version, licence }) => `${name} ${version} (${licence})`);
    return `${RULE}\n${names.join('\n')}\n\n${text}`;
  });
  const all = `${what} contain these packages, under their licences:\n\n${parts.join('\n')}`;
  if (all.includes('*/')) throw new Error('a licence holds what ends a comment');
  return all;
}
