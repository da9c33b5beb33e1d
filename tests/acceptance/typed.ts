/** What a page says to type is typed, in a folder of its own. */
import { spawnSync } from 'node:child_process';
import { commandWords } from '../../src/plugins/command-words.js';
import { LAUNCHER, type Said, jambeam } from '../cli/jambeam.js';

export const C_COMPILER = 'cc';

/** Without it what needs it is left out; where checks are run for good it is there. */
export function isThere(program: string): boolean {
  return process.env['CI'] !== undefined || spawnSync(program, ['--version']).status === 0;
}

/**
 * Lines one after the other, until one fails: what all of them said. A plain command of ours is run in this process, which
 * spares half a second each; what needs a shell gets one, and code of a user's own a process that has loaded nothing else.
 */
export async function typed(lines: string, cwd: string): Promise<Said> {
  let [out, err] = ['', ''];
  for (const line of lines.trimEnd().split('\n')) {
    const plain = /^npx jambeam (?!.*(?:[|<>;&$]|\.ts\b|--logic-process))(.*)$/.exec(line);
    const said = plain ? await jambeam(commandWords(plain[1] as string) ?? [], { cwd }) : shell(withoutNpx(line), cwd);
    out += said.out;
    err += said.err;
    if (said.code !== 0) return { code: said.code, out, err };
  }
  return { code: 0, out, err };
}

export function shell(command: string, cwd: string): Said {
  const { status, stdout, stderr } = spawnSync('sh', ['-euc', command], { cwd, encoding: 'utf8' });
  return { code: status, out: stdout, err: stderr };
}

/** `npx jambeam` is this build's launcher, without the half second npx takes. */
export function withoutNpx(command: string): string {
  return command.replaceAll('npx jambeam', `'${process.execPath}' '${LAUNCHER}'`);
}
