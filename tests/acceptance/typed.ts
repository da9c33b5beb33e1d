/** What a page says to type is typed: into a shell, in a folder of its own. */
import { spawnSync } from 'node:child_process';
import { LAUNCHER, type Said } from '../cli/jambeam.js';

export const C_COMPILER = 'cc';

/** Without it what needs it is left out; where checks are run for good it is there. */
export function isThere(program: string): boolean {
  return process.env['CI'] !== undefined || spawnSync(program, ['--version']).status === 0;
}

export function shell(command: string, cwd: string): Said {
  const { status, stdout, stderr } = spawnSync('sh', ['-euc', command], { cwd, encoding: 'utf8' });
  return { code: status, out: stdout, err: stderr };
}

/** `npx jambeam` is this build's launcher, without the half second npx takes. */
export function withoutNpx(command: string): string {
  return command.replaceAll('npx jambeam', `'${process.execPath}' '${LAUNCHER}'`);
}
