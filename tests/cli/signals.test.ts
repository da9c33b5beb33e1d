/** Ctrl-C and `kill` at any moment: the right exit code, and no trace of what was not finished. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { folderWithDoor, jambeam, start } from './jambeam.js';

/** Far longer than the test: it ends by the signal or not at all. */
const LONG = ['--hours', '8000', '--replicates', '1000'];

/** Waits until the run has begun to write. */
async function writing(folder: string): Promise<void> {
  for (let i = 0; i < 1200; i++) {
    const unfinished = readdirSync(folder).find((name) => name.includes('unfinished'));
    if (unfinished !== undefined && readdirSync(join(folder, unfinished)).includes('passages.csv')) return;
    await wait(50);
  }
  throw new Error('the run never began to write');
}

test('SIGTERM ends a run with 143 and leaves nothing', async () => {
  const cwd = folderWithDoor();
  const { child, ended } = start(['run', 'door.yaml', ...LONG], cwd);
  await writing(cwd);
  child.kill('SIGTERM');
  expect(await ended).toMatchObject({ code: 143, err: 'stopped; nothing was written\n' });
  expect(readdirSync(cwd).sort()).toEqual(['door.yaml', 'my-logic.yaml']);
});

test('SIGINT ends a rerun with 130 and leaves the earlier results whole', async () => {
  const cwd = folderWithDoor();
  expect((await jambeam(['run', 'door.yaml'], { cwd })).code).toBe(0);
  const files = readdirSync(join(cwd, 'door.run')).sort();
  const before = files.map((file) => readFileSync(join(cwd, 'door.run', file), 'utf8'));
  const { child, ended } = start(['run', 'door.yaml', ...LONG], cwd);
  await writing(join(cwd, 'door.run'));
  child.kill('SIGINT');
  expect(await ended).toMatchObject({ code: 130, err: 'stopped; nothing was written\n' });
  expect(readdirSync(cwd).sort()).toEqual(['door.run', 'door.yaml', 'my-logic.yaml']);
  expect(readdirSync(join(cwd, 'door.run')).sort()).toEqual(files);
  expect(files.map((file) => readFileSync(join(cwd, 'door.run', file), 'utf8'))).toEqual(before);
});

test('killed outright, a run leaves no folder that looks finished, and the next run says what is lying there', async () => {
  const cwd = folderWithDoor();
  const { child, ended } = start(['run', 'door.yaml', ...LONG], cwd);
  await writing(cwd);
  child.kill('SIGKILL');
  await ended;
  expect(readdirSync(cwd)).not.toContain('door.run');
  const next = await jambeam(['run', 'door.yaml'], { cwd });
  expect(next.code).toBe(0);
  expect(next.err).toContain('was left by a run that was killed');
});
