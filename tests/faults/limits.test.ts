/** Files that may grow only so far, as a quota or a shell's `ulimit -f` has it: one message, nothing is left by halves. */
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LAUNCHER, folderWithDoor, jambeam } from '../cli/jambeam.js';
import { cellsIn, folderWithStudy, resultsOf, studyText } from '../cli/study/folder.js';

/** @param blocks of 1024 bytes that a file may have */
function limited(blocks: number, args: string, cwd: string) {
  const line = `ulimit -f ${blocks}; exec '${process.execPath}' '${LAUNCHER}' ${args}`;
  const { status, stderr } = spawnSync('bash', ['-c', line], { cwd, encoding: 'utf8' });
  return { code: status, err: stderr };
}

test('a run: one message, and nothing is left', () => {
  const cwd = folderWithDoor();
  // Enough for a few hundred rows.
  expect(limited(16, 'run door.yaml --hours 40', cwd)).toEqual({
    code: 2,
    err: "error: door.run can't be written: the file grew beyond the allowed size\n",
  });
  expect(readdirSync(cwd).sort()).toEqual(['door.yaml', 'my-logic.yaml']);
});

test('a study: one message, and the cells that were synced stay and count', async () => {
  const cwd = folderWithStudy({ replicates: '40' });
  // The journal does not fit.
  const { code, err } = limited(4, 'study study.yaml --out out --quiet', cwd);
  expect(code).toBe(2);
  expect(err).toMatch(/error: the journal in out can't be written: the file grew beyond the allowed size\n/);
  expect(cellsIn(join(cwd, 'out'))).toBeGreaterThan(0);
  expect(readFileSync(join(cwd, 'out', 'journal.jsonl')).at(-1)).toBe(10);
  writeFileSync(join(cwd, 'study.yaml'), studyText({ replicates: '8' }));
  for (const [out, ...more] of [['out', '--extend'], ['whole']] as const) {
    const args = ['study', 'study.yaml', '--out', out, '--quiet', '--workers', '1', ...more];
    expect(await jambeam(args, { cwd })).toMatchObject({ code: 0 });
  }
  expect(resultsOf(join(cwd, 'out'))).toEqual(resultsOf(join(cwd, 'whole')));
});
