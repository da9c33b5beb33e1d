// Leaves in dist what a package needs: of sources that are gone nothing, and of declarations those that the library's types
// lead to, as the compiler says; nobody can reach the others. Part of `npm run build`.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';

const root = resolve(import.meta.dirname, '..');
const dist = resolve(root, 'dist');
/** Not of the compiler's making: the bundled page, and the fuzzer while it runs. */
const OTHERS = /^(page|hostile)[\\/]/;

/** Declarations of what can be imported by the package's name. */
const entries = Object.values(JSON.parse(readFileSync(resolve(root, 'package.json'), 'utf8')).exports)
  .flatMap(({ types }) => (types === undefined ? [] : [resolve(root, types)]));

const tsc = resolve(createRequire(import.meta.url).resolve('typescript/package.json'), '../bin/tsc');
const { stdout, status } = spawnSync(
  process.execPath,
  [tsc, ...entries, '--listFilesOnly', '--ignoreConfig', '--module', 'nodenext'],
  { cwd: root, encoding: 'utf8' },
);
const reached = new Set(stdout.split('\n').map((path) => resolve(path.trim())));
if (status !== 0 || !entries.every((entry) => reached.has(entry))) throw new Error(`the compiler lists no types: ${stdout}`);

for (const path of readdirSync(dist, { recursive: true })) {
  const file = resolve(dist, path);
  const stem = /^(.*?)(?:\.d\.ts|\.js|\.js\.map)$/.exec(path)?.[1];
  if (OTHERS.test(path) || stem === undefined) continue;
  const gone = !existsSync(resolve(root, 'src', `${stem}.ts`));
  if (gone || path.endsWith('.map') || (path.endsWith('.d.ts') && !reached.has(file))) rmSync(file);
}
