/**
 * Readers that go away, and signals at random moments, under every command. A command whose stdout or stderr is closed
 * does its work all the same and ends as usual; one that is stopped ends by the signal's code (or with the usual one, when
 * it was quicker), and every file is the old one or the whole new one.
 */
import { spawn } from 'node:child_process';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { LAUNCHER } from '../cli/jambeam.js';
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

/** Of each command. */
const STOPS = howMany(1, 20);
const SIGNALS = [
  ['SIGINT', 130],
  ['SIGTERM', 143],
  ['SIGHUP', 129],
] as const;
const CLOSED = ['stdout', 'stderr'] as const;

function begin(args: readonly string[], cwd: string) {
  const child = spawn(process.execPath, [LAUNCHER, ...args], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
  let err = '';
  child.stderr.on('data', (text: Buffer) => (err += text.toString()));
  child.stdout.resume();
  const ended = new Promise<{ code: number | null; by: NodeJS.Signals | null; err: string }>((done) =>
    child.on('close', (code, by) => done({ code, by, err })),
  );
  return { child, ended };
}

// A process costs a second.
describe.each(driven(4, 10))('$title', ({ command, i }) => {
  test('with its pipe closed, and stopped at random moments', async () => {
    const cwd = await preparedFolder();
    const before = snapshotOf(cwd);
    const began = performance.now();
    const piped = begin(command.args, cwd);
    piped.child[CLOSED[i % 2]!].destroy();
    const { code, err } = await piped.ended;
    const usual_ms = performance.now() - began;
    expect(code, err).toBe(usualCode(command));
    expectPlainWords(err);
    expectWritten(command, cwd);
    const after = snapshotOf(cwd);

    const draws = Stream.root('stops').child(String(i));
    for (let k = 0; k < STOPS; k++) {
      const [signal, expected] = SIGNALS[(i + k) % SIGNALS.length]!;
      const place = await preparedFolder();
      const { child, ended } = begin(command.args, place);
      // The first tenth is Node's own start.
      await wait(usual_ms * (0.1 + draws.at(2 * k)));
      child.kill('SIGPIPE');
      child.kill(signal);
      if (k % 2 === 1) {
        await wait(5 * draws.at(2 * k + 1));
        child.kill(signal);
      }
      const said = await ended;
      const now = snapshotOf(place);
      expectPlainWords(said.err);
      // Before the program itself has begun, and after its end, the signal ends Node outright: to a shell it is the same code.
      if (said.by === null) expect([expected, usualCode(command)], said.err).toContain(said.code);
      else expect(['SIGPIPE', signal]).toContain(said.by);
      if (said.code === usualCode(command)) expect(Object.fromEntries(now)).toEqual(Object.fromEntries(after));
      expectWhole(command, before, after, now, place);
      if (command.writes.length === 0 || said.code === usualCode(command)) continue;
      const finished = [...now].join() === [...after].join();
      if (finished) continue;
      await expectDoneAgain(command, now, after, place);
    }
  }, 900_000);
});
