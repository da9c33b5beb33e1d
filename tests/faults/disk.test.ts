/**
 * A disk that is read-only, and one that fills up at any byte, under every command: one message, exit code 2, and every
 * file is the old one or the whole new one. The disk is a small one in memory, which takes root to mount.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { folder, jambeam } from '../cli/jambeam.js';
import {
  driven,
  expectDoneAgain,
  expectPlainWords,
  expectWhole,
  expectWritten,
  preparedFolder,
  snapshotOf,
  usualCode,
} from './commands.js';
import { howMany } from '../how-many.js';

/** Disks of random sizes that each command meets, besides one without a free byte. */
const SIZES = howMany(1, 20);
const ROOMY = 256 * 1_048_576;
const PAGE = 4096;

const at = folder();
const mounted = new Set<string>();
const root = (program: string, ...args: string[]): boolean => spawnSync(program, args).status === 0;
const mount = (disk: string, bytes: number, ...more: string[]): boolean =>
  root('mount', '-t', 'tmpfs', '-o', [`size=${bytes}`, ...more].join(','), 'tmpfs', disk);
const change = (disk: string, what: string): void => {
  expect(root('mount', '-o', `remount,${what}`, disk), what).toBe(true);
};
afterAll(() => {
  for (const disk of mounted) root('umount', '-l', disk);
});

function newDisk(): string {
  const disk = join(at, String(mounted.size));
  mkdirSync(disk);
  mounted.add(disk);
  expect(mount(disk, ROOMY)).toBe(true);
  return disk;
}

/** Bytes that are taken, as the file system counts them. */
function taken(disk: string): number {
  const { stdout } = spawnSync('df', ['--output=used', '-B1', disk], { encoding: 'utf8' });
  return Number(stdout.trim().split('\n').at(-1));
}

function probe(): boolean {
  const disk = join(at, 'probe');
  mkdirSync(disk);
  const can = mount(disk, PAGE);
  if (can) root('umount', disk);
  return can;
}
const canMount = probe();

describe.skipIf(!canMount)('on a disk of its own (mounting one takes root)', () => {
  test.each(driven(0, 3))(
    '$title',
    async ({ command, i }) => {
      const disk = await preparedFolder(newDisk());
      const before = snapshotOf(disk);
      const empty = taken(disk);

      // What it leaves, and how much of the disk that takes.
      const usual = await jambeam(command.args, { cwd: disk });
      expect(usual.code, usual.err).toBe(usualCode(command));
      expectWritten(command, disk);
      const after = snapshotOf(disk);
      const needed = Math.max(PAGE, taken(disk) - empty);
      if (command.writes.length === 0) {
        expect([...after]).toEqual([...before]);
        return;
      }

      const fresh = async (): Promise<string> => {
        const next = await preparedFolder(newDisk());
        expect([...snapshotOf(next)]).toEqual([...before]);
        return next;
      };
      const cwd = await fresh();
      change(cwd, 'ro');
      const refused = await jambeam(command.args, { cwd });
      expect(refused).toMatchObject({ code: 2, out: '' });
      expect(refused.err).toContain('the disk is read-only');
      expectPlainWords(refused.err);
      expect([...snapshotOf(cwd)]).toEqual([...before]);
      change(cwd, 'rw');

      const draws = Stream.root('disks').child(String(i));
      let failed = 0;
      let place = cwd;
      for (let k = 0; k <= SIZES; k++) {
        const free = k === 0 ? 0 : Math.floor((needed * draws.at(k)) / PAGE) * PAGE;
        change(place, `size=${taken(place) + free}`);
        const { code, err } = await jambeam(command.args, { cwd: place });
        expectPlainWords(err);
        expect([0, 2], err).toContain(code);
        if (code === 2) {
          failed++;
          expect(err).toContain('the disk is full');
          expect(err).toContain('make room');
        }
        const now = snapshotOf(place);
        expectWhole(command, before, after, now, place);
        change(place, `size=${ROOMY}`);
        const untouched = code === 2 && [...now].join() === [...before].join();
        // What is left is the beginning of the next.
        if (k < SIZES && untouched) continue;
        if (code === 2) await expectDoneAgain(command, now, after, place);
        if (k < SIZES) place = await fresh();
      }
      expect(failed).toBeGreaterThan(0);
    },
    900_000,
  );
});

test.skipIf(canMount)('needs leave to mount a disk in memory, which is not given here', ({ skip }) => {
  skip('mount -t tmpfs was refused');
});
