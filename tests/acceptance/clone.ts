/** Typing what a page says: in a folder that looks like a built clone, with less to simulate, for it is enough that a run ends. */
import { cpSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { folder } from '../cli/jambeam.js';
import { ROOT } from './markdown.js';
import { LONG } from '../how-many.js';

/** An empty folder from which `jambeam` is found by its name. */
export function besideClone(): string {
  const cwd = folder();
  mkdirSync(join(cwd, 'node_modules'));
  symlinkSync(ROOT, join(cwd, 'node_modules/jambeam'));
  return cwd;
}

/** A folder that looks like a built clone from inside, and takes what commands write. */
export function clone(): string {
  const cwd = besideClone();
  cpSync(join(ROOT, 'scenarios'), join(cwd, 'scenarios'), { recursive: true });
  if (!LONG) {
    const study = join(cwd, 'scenarios/studies/mount-height.yaml');
    const text = readFileSync(study, 'utf8');
    writeFileSync(study, text.replace(/^hours: .*$/m, 'hours: 2').replace(/^replicates: .*$/m, 'replicates: 2'));
  }
  symlinkSync(join(ROOT, 'docs'), join(cwd, 'docs'));
  return cwd;
}

/**
 * The same with less to simulate; the long run types what the page says. Of an option that is given twice the last
 * counts.
 */
export function shortened(commands: string): string {
  if (LONG) return commands;
  return commands.replace(/(?:npx jambeam|jambeam\.js') run .*/g, '$& --replicates 2 --hours 0.5');
}
