/** What the tabulator key offers, asked of a real bash with the script that `jambeam completion bash` prints. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const launcher = resolve('bin/jambeam.js');
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'jambeam-completion-'));
  symlinkSync(launcher, join(folder, 'jambeam'));
  writeFileSync(join(folder, 'my-door.yaml'), '');
});
afterAll(() => rmSync(folder, { recursive: true }));

/** What bash would offer for a line, its last word being the one that is typed. */
function offered(...words: string[]): string[] {
  const script = `
    compopt() { :; }
    # The part of bash-completion, the shell's own collection, that the script asks for the words of the line.
    _get_comp_words_by_ref() { words=("\${COMP_WORDS[@]}"); cword=$COMP_CWORD; cur=\${words[cword]}; }
    source <(jambeam completion bash)
    function_name=$(complete -p jambeam | sed 's/.*-F \\([^ ]*\\) .*/\\1/')
    COMP_WORDS=(jambeam "$@"); COMP_CWORD=$#; COMP_LINE="jambeam $*"; COMP_POINT=\${#COMP_LINE}
    "$function_name" jambeam "\${!#}" ""
    printf '%s\\n' "\${COMPREPLY[@]}"`;
  const env = { ...process.env, PATH: `${folder}:${process.env['PATH']}` };
  const said = execFileSync('bash', ['-c', script, 'bash', ...words], { cwd: folder, env, encoding: 'utf8' });
  return said.split('\n').filter((word) => word !== '');
}

describe('in bash, the tabulator key offers', () => {
  it('commands that begin so', () => expect(offered('re')).toEqual(['report', 'replay']));
  it('options of a command', () => expect(offered('run', '--rep')).toEqual(['--replicates']));
  it('the values of an option that has few', () => {
    expect(offered('fit', '--kind', 't')).toEqual(['triangulation-ranger', 'time-of-flight-ranger']);
  });
  it('files where a file is meant', () => expect(offered('run', 'my')).toEqual(['my-door.yaml']));
});

describe('the script', () => {
  it.each(['zsh', 'fish', 'powershell'])('of %s calls the command that completes', (shell) => {
    const text = execFileSync(process.execPath, [launcher, 'completion', shell], { encoding: 'utf8' });
    expect(text).toMatch(/jambeam complete '?--/);
  });
  it('is refused for a shell that is not known, with those that are', () => {
    expect(() => execFileSync(process.execPath, [launcher, 'completion', 'tcl'], { stdio: 'pipe' })).toThrow(
      /zsh, bash, fish, powershell/,
    );
  });
});
