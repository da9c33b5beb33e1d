/** What the tabulator key offers, asked of a real bash with the script that `jambeam completion bash` prints. */
import { execFileSync } from 'node:child_process';
import { symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { LAUNCHER, folder, jambeam } from './jambeam.js';

const cwd = folder();
symlinkSync(LAUNCHER, join(cwd, 'jambeam'));
for (const file of ['my-door.yaml', 'hall.yaml', 'log.csv']) writeFileSync(join(cwd, file), '');

const IN_BASH: readonly (readonly [string, string, readonly string[]])[] = [
  ['commands that begin so', 're', ['report', 'replay']],
  ['options of a command', 'run --rep', ['--replicates']],
  ['the values of an option that has few', 'fit --kind t', ['triangulation-ranger', 'time-of-flight-ranger']],
  ['files where a file is meant', 'run my', ['my-door.yaml']],
  ['built-in logics and files of logics', 'run my-door.yaml --logic h', ['hold-off', 'hidden-markov', 'hall.yaml']],
  ['files of the ending that is meant', 'replay ./', ['./log.csv']],
  // Bash parts words at equals signs, and puts what is chosen behind the last of them.
  ['the value of an option behind an equals sign', 'fit --kind = t', ['triangulation-ranger', 'time-of-flight-ranger']],
  ['files there too', 'run my-door.yaml --logic = my', ['my-door.yaml']],
  ['all values where nothing stands behind it yet', 'pick x.study --least =', ['cost', 'holes', 'cable_m', 'hours']],
];

/** What bash offers for each line, the last word of it being the one that is typed; one bash for all, as a user has it. */
function offeredInBash(lines: readonly string[]): string[][] {
  const script = `
    compopt() { :; }
    # The part of bash-completion, the shell's own collection, that the script asks for the words of the line.
    _get_comp_words_by_ref() { words=("\${COMP_WORDS[@]}"); cword=$COMP_CWORD; cur=\${words[cword]}; }
    source <(jambeam completion bash)
    function_name=$(complete -p jambeam | sed 's/.*-F \\([^ ]*\\) .*/\\1/')
    for line in "$@"; do
      COMP_WORDS=(jambeam $line); COMP_CWORD=$((\${#COMP_WORDS[@]} - 1)); COMP_LINE="jambeam \${line// = /=}"; COMP_POINT=\${#COMP_LINE}
      COMPREPLY=()
      "$function_name" jambeam "\${COMP_WORDS[COMP_CWORD]}" ""
      printf '%s ' "\${COMPREPLY[@]}"; printf '\\n'
    done`;
  const env = { ...process.env, PATH: `${cwd}:${process.env['PATH']}` };
  const said = execFileSync('bash', ['-c', script, 'bash', ...lines], { cwd, env, encoding: 'utf8' });
  return said.split('\n').map((line) => line.split(' ').filter((word) => word !== ''));
}

test('in bash, the tabulator key offers commands, options, values and files', () => {
  const offered = offeredInBash(IN_BASH.map(([, line]) => line));
  expect(IN_BASH.map(([what, line], i) => [what, line, offered[i]])).toEqual(IN_BASH);
});

/** What the script gets from the command it calls; the last line says how the shell should go on, and is no word. */
async function answered(...words: string[]): Promise<string[]> {
  const log = vi.spyOn(console, 'log').mockImplementation(() => {});
  try {
    expect((await jambeam(['complete', '--', ...words], { cwd })).code).toBe(0);
    const lines = log.mock.calls.flatMap(([text]) => String(text).split('\n'));
    return lines.filter((line) => line !== '' && !line.startsWith(':')).map((line) => line.split('\t')[0] as string);
  } finally {
    log.mockRestore();
  }
}

describe('words of few values and of files', () => {
  test.each([
    ['kinds of passages', ['passage', 'x.yaml', '--kind', 'tu'], ['turn-back']],
    ['walkers', ['passage', 'x.yaml', '--who', 'chi'], ['child']],
    ['logics, and files of logics', ['run', 'x.yaml', '--logic', 'h'], ['hall.yaml', 'hidden-markov', 'hold-off']],
    ['what is to be least', ['pick', 'x', '--least', 'ca'], ['cable_m']],
    ['files that have a schema', ['keys', '--schema', 't'], ['table']],
    ['logs, but no scenario, where a log is meant', ['replay', ''], ['log.csv']],
    ['a scenario where one is meant', ['replay', 'log.csv', '--scenario', ''], ['hall.yaml', 'my-door.yaml']],
    ['nothing where a number is meant', ['run', 'x.yaml', '--hours', ''], []],
    ['values behind an equals sign', ['pick', 'x', '--least=ca'], ['cable_m']],
    ['files behind one', ['run', 'x.yaml', '--logic=h'], ['hall.yaml', 'hidden-markov', 'hold-off']],
  ])('%s', async (_, typed, words) => {
    // That a shell's script can be had is bash's test above; here it is only what it would be told.
    expect((await answered(...typed)).sort()).toEqual(words);
  });
});

describe('the script', () => {
  test.each(['zsh', 'fish', 'powershell'])('of %s calls the command that completes', async (shell) => {
    const log = vi.spyOn(console, 'log').mockImplementation(() => {});
    try {
      expect((await jambeam(['completion', shell], { cwd })).code).toBe(0);
      expect(log.mock.calls.flat().join('\n')).toMatch(/jambeam complete '?--/);
    } finally {
      log.mockRestore();
    }
  });
  test('is refused for a shell that is not known, with those that are', async () => {
    const { code, err } = await jambeam(['completion', 'tcl'], { cwd });
    expect(code).toBe(2);
    expect(err).toMatch(/zsh, bash, fish, powershell/);
  });
});
