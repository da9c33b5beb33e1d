/**
 * Writes docs/api from the docstrings of what the library exports: `npm run api`.
 *
 * TypeDoc needs the programming interface of TypeScript 6, which the compiler of this project (7) doesn't have. So it is
 * no dependency: it is fetched for this alone, in versions that are named here.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';

const PACKAGES = ['typedoc@0.28.20', 'typedoc-plugin-markdown@4.14.1', 'typescript@6.0.3'];
const OUT = 'docs/api';

// Types of parts are shown where they are used; a page of each would be a hundred more.
const OPTIONS = `
  --plugin typedoc-plugin-markdown --tsconfig tsconfig.build.json --out ${OUT} --name jambeam --readme none
  --entryPoints src/index.ts --entryPoints src/report/index.ts
  --outputFileStrategy modules --entryFileName README --validation.notExported false --sort alphabetical
  --disableSources --hidePageHeader --hideBreadcrumbs --hideGenerator --excludeExternals
  --parametersFormat table --interfacePropertiesFormat table --typeDeclarationFormat table`;

const args = ['--yes', ...PACKAGES.map((name) => `--package=${name}`), 'typedoc', ...OPTIONS.trim().split(/\s+/)];
const { status } = spawnSync('npx', args, { stdio: 'inherit' });
if (status !== 0) process.exit(status ?? 1);

const start = readFileSync(`${OUT}/README.md`, 'utf8').replace('# jambeam\n', '# All that the library exports\n');
const about = 'Made of the docstrings by `npm run api`. [library.md](../library.md) says how to use it.';
writeFileSync(`${OUT}/README.md`, start.replace('\n## ', `\n${about}\n\n## `).replace('- [index]', '- [jambeam]').replace('- [report]', '- [jambeam/report]'));

// Anchors of single properties, and blanks at ends of lines, are nothing to read. Without them links count otherwise: they
// lead to the heading of the name they show, the first of those that are spelt so but for capitals.
for (const name of readdirSync(OUT, { recursive: true, encoding: 'utf8' }).filter((one) => one.endsWith('.md'))) {
  const path = `${OUT}/${name}`;
  const text = readFileSync(path, 'utf8').replace(/<a id="[\w-]+"><\/a> /g, '').replace(/[ \t]+$/gm, '').trimEnd();
  const headings = [...text.matchAll(/^#+ (.*)$/gm)].map(([, heading]) => heading.replace(/[^\w -]/g, ''));
  const anchorOf = (shown) => {
    const at = headings.indexOf(shown);
    const before = headings.slice(0, at).filter((heading) => heading.toLowerCase() === shown.toLowerCase()).length;
    return `${shown.toLowerCase()}${before === 0 ? '' : `-${before}`}`;
  };
  writeFileSync(path, `${text.replace(/\[`(\w+)`\]\(#[\w-]+\)/g, (link, shown) => (headings.includes(shown) ? `[\`${shown}\`](#${anchorOf(shown)})` : link))}\n`);
}
