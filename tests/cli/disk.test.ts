/** Disks that refuse: read-only, full, limited. What was there stays; nothing unfinished is left. */
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { LAUNCHER, folderWithDoor, jambeamProcess } from './jambeam.js';

const NOBODY = 65_534;
const isRoot = process.getuid?.() === 0;
const asUser = isRoot ? { uid: NOBODY } : {};

const sh = (line: string, cwd: string) => spawnSync('bash', ['-c', line], { cwd, encoding: 'utf8' });

test('a read-only place is refused before anything is simulated', () => {
  const cwd = folderWithDoor();
  chmodSync(cwd, 0o555);
  const { code, err } = jambeamProcess(['run', 'door.yaml', '--days', '365'], { cwd, ...asUser });
  chmodSync(cwd, 0o755);
  expect(code).toBe(2);
  expect(err).toContain("door.run can't be written: permission is denied");
  expect(err).toContain('choose a place you may write to');
  expect(readdirSync(cwd).sort()).toEqual(['door.yaml', 'my-logic.yaml']);
});

test('a read-only folder of an earlier run keeps its results', () => {
  const cwd = folderWithDoor();
  expect(jambeamProcess(['run', 'door.yaml'], { cwd }).code).toBe(0);
  chmodSync(cwd, 0o755);
  chmodSync(join(cwd, 'door.run'), 0o555);
  const said = jambeamProcess(['run', 'door.yaml', '--seed', '2'], { cwd, ...asUser });
  const reported = jambeamProcess(['report', 'door.run'], { cwd, ...asUser });
  chmodSync(join(cwd, 'door.run'), 0o755);
  expect(said).toMatchObject({ code: 2, out: '' });
  expect(said.err).toContain('permission is denied');
  expect(reported).toMatchObject({ code: 2, out: '' });
  expect(reported.err).toContain("door.run/report.html can't be written: permission is denied");
  expect(JSON.parse(readFileSync(join(cwd, 'door.run/metrics.json'), 'utf8'))).toMatchObject({ seed: '1' });
});

test('files that may not grow any more: one message, and nothing is left', () => {
  const cwd = folderWithDoor();
  // 16 blocks of 1024 bytes: enough for a few hundred rows.
  const { status, stderr } = sh(`ulimit -f 16; exec "${process.execPath}" "${LAUNCHER}" run door.yaml --hours 40`, cwd);
  expect(stderr).toBe("error: door.run can't be written: the file grew beyond the allowed size\n");
  expect(status).toBe(2);
  expect(readdirSync(cwd).sort()).toEqual(['door.yaml', 'my-logic.yaml']);
});

test.skipIf(!isRoot)('a full disk: one message, what was there stays whole (mounting one needs root)', ({ skip }) => {
  const cwd = folderWithDoor();
  const disk = join(cwd, 'disk');
  mkdirSync(disk);
  if (sh('mount -t tmpfs -o size=1m tmpfs disk', cwd).status !== 0) skip('no disk can be mounted here');
  onTestFinished(() => {
    sh('umount disk', cwd);
  });
  for (const file of ['door.yaml', 'my-logic.yaml']) cpSync(join(cwd, file), join(disk, file));
  const run = (...args: string[]) => jambeamProcess(['run', 'door.yaml', ...args], { cwd: disk });
  expect(run('--hours', '0.5').code).toBe(0);
  const before = readFileSync(join(disk, 'door.run/metrics.json'), 'utf8');
  const report = readFileSync(join(disk, 'door.run/report.html'), 'utf8');
  for (const args of [[], ['--out', 'new.run']]) {
    const { code, out, err } = run('--hours', '60', ...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('the disk is full');
    expect(err).toContain('make room');
  }
  expect(readFileSync(join(disk, 'door.run/metrics.json'), 'utf8')).toBe(before);
  expect(readdirSync(disk).sort()).toEqual(['door.run', 'door.yaml', 'my-logic.yaml']);
  expect(readdirSync(join(disk, 'door.run')).filter((name) => name.startsWith('.'))).toEqual([]);

  spawnSync('bash', ['-c', 'cat /dev/zero > ballast 2>/dev/null'], { cwd: disk });
  expect(jambeamProcess(['report', 'door.run'], { cwd: disk })).toMatchObject({ code: 2, out: '' });
  expect(readFileSync(join(disk, 'door.run/report.html'), 'utf8')).toBe(report);
  const made = jambeamProcess(['new', 'fresh'], { cwd: disk });
  expect(made).toMatchObject({ code: 2, out: '' });
  expect(made.err).toContain('the disk is full');
  expect(readdirSync(disk)).not.toContain('fresh');
  rmSync(join(disk, 'ballast'));
});

test('a reader that goes away is no error', () => {
  const cwd = folderWithDoor();
  const { stdout, stderr } = sh(
    `"${process.execPath}" "${LAUNCHER}" keys --json | head -1; echo "\${PIPESTATUS[0]}"`,
    cwd,
  );
  expect(stdout).toBe('{\n0\n');
  expect(stderr).toBe('');
  const run = sh(`"${process.execPath}" "${LAUNCHER}" run door.yaml --json | true; echo "\${PIPESTATUS[0]}"`, cwd);
  expect(run).toMatchObject({ stdout: '0\n', stderr: '' });
  expect(readdirSync(join(cwd, 'door.run'))).toContain('report.html');
});

test('a stdout that takes nothing is the disk’s trouble, in words', () => {
  const cwd = folderWithDoor();
  const { status, stderr } = sh(`"${process.execPath}" "${LAUNCHER}" keys > /dev/full`, cwd);
  expect(stderr).toBe('error: stdout: the disk is full\n');
  expect(status).toBe(2);
});
