/**
 * `npm run mutation -- FOLDER [FILE…] [--share P]`: mutation testing of src/FOLDER, or of some of its files. With a share only
 * mutants on single lines of which that many are drawn, the same ones every time: all of a folder takes hours.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import process from 'node:process';
import { parseArgs } from 'node:util';
import seedrandom from 'seedrandom';

const FOLDERS = ['engine', 'geometry', 'counter', 'score'];
const { values, positionals } = parseArgs({ allowPositionals: true, options: { share: { type: 'string' } } });
const [folder, ...named] = positionals;
const share = Number(values.share ?? 1);
if (!FOLDERS.includes(folder) || !(share > 0 && share <= 1)) {
  process.stderr.write(`usage: npm run mutation -- ${FOLDERS.join('|')} [src/FOLDER/FILE.ts ...] [--share 0.1]\n`);
  process.exit(2);
}

const inFolder = () =>
  readdirSync(`src/${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `src/${folder}/${name}`)
    .toSorted();

function linesOf(file) {
  const draw = seedrandom(file);
  return readFileSync(file, 'utf8')
    .split('\n')
    .flatMap((_, i) => (draw() < share ? [`${file}:${i + 1}-${i + 1}`] : []));
}

const env = { ...process.env, JAMBEAM_MUTATE: folder };
const files = named.length > 0 ? named : inFolder();
// What is never mutated stands in stryker.config.mjs.
env.JAMBEAM_MUTATE_FILES = (share < 1 ? files.flatMap(linesOf) : files).join(',');
const { status } = spawnSync('npx', ['stryker', 'run'], { env, stdio: 'inherit' });
process.exit(status ?? 1);
