/**
 * Folders that may be read but not written, under every command: refused in words, before anything is simulated, and
 * everything is as it was. Root may write anywhere; so as root the commands run as the user who owns nothing.
 */
import { chmodSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { type Said, jambeam } from '../cli/jambeam.js';
import { COMMANDS, type Command, expectPlainWords, preparedFolder, snapshotOf, usualCode } from './commands.js';

const NOBODY = 65_534;
const isRoot = process.getuid?.() === 0;

const locked: string[] = [];
afterAll(() => {
  for (const place of locked) allow(place, 0o755);
});

/** Of a folder and all folders in it. */
function allow(place: string, mode: number): void {
  chmodSync(place, mode);
  for (const entry of readdirSync(place, { withFileTypes: true })) {
    const path = join(place, entry.name);
    if (entry.isDirectory()) allow(path, mode);
    else chmodSync(path, mode & 0o644);
  }
}

async function lockedFolder(): Promise<string> {
  const cwd = await preparedFolder();
  allow(cwd, 0o555);
  locked.push(cwd);
  return cwd;
}

async function asUser(args: readonly string[], cwd: string): Promise<Said> {
  if (isRoot) process.seteuid!(NOBODY);
  try {
    return await jambeam(args, { cwd });
  } finally {
    if (isRoot) process.seteuid!(0);
  }
}

describe('in a folder that may not be written', () => {
  test.each(COMMANDS.map((command) => ({ title: `jambeam ${command.args.join(' ')}`, command })))(
    '$title',
    async ({ command }: { command: Command }) => {
      const cwd = await lockedFolder();
      const before = snapshotOf(cwd);
      const { code, out, err } = await asUser(command.args, cwd);
      expectPlainWords(err);
      expect([...snapshotOf(cwd)]).toEqual([...before]);
      if (command.writes.length === 0) expect(code, err).toBe(usualCode(command));
      else {
        expect({ code, out }, err).toEqual({ code: 2, out: '' });
        expect(err).toMatch(/can't be (?:made|written): permission is denied/);
        expect(err).toContain('choose a place you may write to');
      }
    },
  );

  test('a year of passages is not simulated first', async () => {
    const cwd = await lockedFolder();
    const { code, err } = await asUser(['run', 'door.yaml', '--days', '365', '--out', 'year.run'], cwd);
    expect({ code, err }).toMatchObject({ code: 2 });
    expect(err).toContain("year.run can't be written: permission is denied");
  });
});
