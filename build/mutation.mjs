/** `npm run mutation -- FOLDER [FILE…]`: mutation testing of src/FOLDER, or of some of its files. */
import { spawnSync } from 'node:child_process';
import process from 'node:process';

const [folder, ...files] = process.argv.slice(2);
if (!['engine', 'geometry', 'counter', 'score'].includes(folder)) {
  process.stderr.write('usage: npm run mutation -- engine|geometry|counter|score [src/FOLDER/FILE.ts ...]\n');
  process.exit(2);
}
const env = { ...process.env, JAMBEAM_MUTATE: folder };
if (files.length > 0) env.JAMBEAM_MUTATE_FILES = files.join(',');
const { status } = spawnSync('npx', ['stryker', 'run'], { env, stdio: 'inherit' });
process.exit(status ?? 1);
