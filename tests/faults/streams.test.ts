/**
 * Where a shell sends what a command says, under every command: nowhere (`>&-`), to a reader that has read enough
 * (`| head -1`), to a disk that is full (`> /dev/full`). The work is done all the same, and only what could not be said is told.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { LAUNCHER, folder, jambeam } from '../cli/jambeam.js';
import { driven, expectPlainWords, expectWritten, preparedFolder, usualCode } from './commands.js';

/** A line of a shell, `jambeam` being this build's, with the exit code of its first command. */
function shell(line: string, args: readonly string[], cwd: string) {
  const script = `jambeam() { '${process.execPath}' '${LAUNCHER}' "$@"; }\n${line}\nexit "\${PIPESTATUS[0]}"`;
  const { status, stdout, stderr } = spawnSync('bash', ['-c', script, 'bash', ...args], { cwd, encoding: 'utf8' });
  expectPlainWords(stderr);
  return { code: status, out: stdout, err: stderr };
}

describe.each(driven(8, 22))('$title', ({ command }) => {
  test('says nothing where there is no stdout, and does its work', async () => {
    const cwd = await preparedFolder();
    const { code, err } = shell('jambeam "$@" >&-', command.args, cwd);
    expect(code, err).toBe(usualCode(command));
    expectWritten(command, cwd);
  });

  test('is not disturbed by a reader of one line', async () => {
    const cwd = await preparedFolder();
    const { code, err, out } = shell('jambeam "$@" | head -1', command.args, cwd);
    expect(code, err).toBe(usualCode(command));
    expect(out.split('\n').length).toBeLessThanOrEqual(2);
    expectWritten(command, cwd);
  });

  test.skipIf(!existsSync('/dev/full'))('tells that stdout took nothing, if it had something to say', async () => {
    const cwd = await preparedFolder();
    const says = (await jambeam(command.args, { cwd: await preparedFolder() })).out !== '';
    const { code, err } = shell('jambeam "$@" > /dev/full', command.args, cwd);
    if (says) expect(err).toMatch(/error: stdout: the disk is full\n$/);
    expect(code, err).toBe(says ? 2 : usualCode(command));
    expectWritten(command, cwd);
  });
});

test('a long list is cut by its reader without a word', () => {
  const cwd = folder();
  expect(shell('jambeam keys --json | head -1', [], cwd)).toEqual({ code: 0, out: '{\n', err: '' });
  expect(shell('jambeam keys > /dev/full', [], cwd)).toEqual({
    code: 2,
    out: '',
    err: 'error: stdout: the disk is full\n',
  });
  expect(readdirSync(cwd)).toEqual([]);
});
