/** One at a time; and who is gone holds nothing. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { Lock } from '../../../src/study/store/lock.js';

const folder = mkdtempSync(join(tmpdir(), 'jambeam-lock-'));
const file = join(folder, 'running.lock');
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(() => rmSync(file, { force: true }));

test('a second one is refused until the first is given back', async () => {
  const first = await Lock.take(folder);
  expect(first).not.toBe(null);
  expect(await Lock.take(folder)).toBe(null);
  first!.release();
  expect(existsSync(file)).toBe(false);
  const second = await Lock.take(folder);
  expect(second).not.toBe(null);
  second!.release();
});

/** A process that is killed as by a power cut, and what it would have left. */
async function killed(): Promise<{ pid: number; started: string; boot: string }> {
  const child = spawn('sleep', ['60']);
  const stat = readFileSync(`/proc/${child.pid}/stat`, 'utf8');
  const started = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19]!;
  const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  const gone = new Promise((done) => child.on('exit', done));
  child.kill('SIGKILL');
  await gone;
  return { pid: child.pid!, started, boot };
}

test('the lock of a process that was killed is taken over at once', async () => {
  writeFileSync(file, JSON.stringify(await killed()));
  const began = performance.now();
  const lock = await Lock.take(folder);
  expect(lock).not.toBe(null);
  expect(performance.now() - began).toBeLessThan(5000);
  lock!.release();
});

test('a process of the same number that began later is another one', async () => {
  const { boot } = await killed();
  writeFileSync(file, JSON.stringify({ pid: process.pid, started: '1', boot }));
  const lock = await Lock.take(folder);
  expect(lock).not.toBe(null);
  lock!.release();
});

test('on another computer it holds as long as it is touched', async () => {
  writeFileSync(file, JSON.stringify({ pid: 1, started: '1', boot: 'another' }));
  const touching = setInterval(
    () => writeFileSync(file, JSON.stringify({ pid: 1, started: '1', boot: 'another' })),
    300,
  );
  expect(await Lock.take(folder)).toBe(null);
  clearInterval(touching);
});

test('of many at once one gets it', async () => {
  writeFileSync(file, JSON.stringify(await killed()));
  const locks = await Promise.all(Array.from({ length: 8 }, () => Lock.take(folder)));
  expect(locks.filter((lock) => lock !== null)).toHaveLength(1);
  await wait(0);
  locks.find((lock) => lock !== null)!.release();
});
