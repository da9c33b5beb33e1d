/**
 * Runs the compiled command line as a user does, in a folder of its own: as a rule within the test's process, which
 * spares starting Node and reading every module anew; as a process where that is what matters.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Writable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { inject, onTestFinished } from 'vitest';
import { starterTable } from '../../src/counter/table/starter.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { onSameThread } from './same-thread.js';

export const LAUNCHER = resolve('bin/jambeam.js');

export interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}
export interface Where {
  readonly cwd: string;
}
export interface WhereProcess extends Where {
  readonly env?: Readonly<Record<string, string>>;
  readonly uid?: number;
  /** What it reads from standard input. */
  readonly input?: string;
  /** Another one's than this checkout's. */
  readonly launcher?: string;
}

type Compiled = typeof import('../../src/cli/main.js') & typeof import('../../src/cli/io.js');
const compiled = (name: string): Promise<Compiled> => import(pathToFileURL(resolve(`dist/cli/${name}.js`)).href);

/** One command line within this process. Tests of a file run one after the other, so its folder may be changed. */
export async function jambeam(args: readonly string[], { cwd }: Where): Promise<Said> {
  const [{ commandLine }, { ioOf }] = await Promise.all([compiled('main'), compiled('io')]);
  const [stdout, stderr] = [new Gathered(), new Gathered()];
  const { argv, env, exitCode } = process;
  const from = process.cwd();
  const streams = { stdout, stderr, env: {} } as unknown as NodeJS.Process;
  process.argv = [process.execPath, LAUNCHER, ...args];
  process.env = bareEnv();
  process.exitCode = undefined;
  process.chdir(cwd);
  try {
    const io = ioOf(streams, (error) => {
      throw error;
    });
    const code = await onSameThread(async () => commandLine(args, io));
    return { code: code === 0 ? Number(process.exitCode ?? 0) : code, out: stdout.text, err: unhurried(stderr.text) };
  } finally {
    process.chdir(from);
    Object.assign(process, { argv, env, exitCode });
  }
}

/** How far a run has come is said every five seconds: on a busy machine more often, which is no matter of what is tested. */
const unhurried = (err: string): string => err.replace(/^replicate \d+ of \d+, .*\n/gm, '');

/** The settings of who runs the tests are no matter. */
function bareEnv(): Record<string, string> {
  return { PATH: process.env['PATH'] ?? '' };
}

/** What was written, as text. */
class Gathered extends Writable {
  text = '';
  override _write(chunk: Buffer, _encoding: BufferEncoding, done: () => void): void {
    this.text += chunk.toString();
    done();
  }
}

/** The same as a process of its own: for what belongs to a process. */
export function jambeamProcess(
  args: readonly string[],
  { cwd, env = {}, uid, input, launcher = LAUNCHER }: WhereProcess,
): Said {
  const { status, stdout, stderr, error } = spawnSync(process.execPath, [launcher, ...args], {
    cwd,
    env: { ...bareEnv(), ...env },
    encoding: 'utf8',
    maxBuffer: 64 * 1_048_576,
    ...(uid === undefined ? {} : { uid }),
    ...(input === undefined ? {} : { input }),
  });
  if (error) throw error;
  return { code: status, out: stdout, err: stderr };
}

/** A process without waiting for its end: for signals. However the test goes, it does not outlive it. */
export function start(args: readonly string[], cwd: string) {
  const child = spawn(process.execPath, [LAUNCHER, ...args], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
  onTestFinished(() => void child.kill('SIGKILL'));
  let err = '';
  child.stderr.on('data', (chunk: Buffer) => (err += chunk.toString()));
  const ended = new Promise<Said>((done) => child.on('close', (code) => done({ code, out: '', err: unhurried(err) })));
  return { child, ended };
}

/** A new empty folder, taken away when all tests have ended. */
export const folder = (): string => mkdtempSync(join(inject('runFolder'), 'test-'));

/** A folder with the starter as `door.yaml`, shortened so that a run takes a moment; `edit` changes its text. */
export function folderWithDoor(edit: (text: string) => string = (text) => text): string {
  const path = folder();
  const short = starterScenario().replace('replicates: 20', 'replicates: 2').replace('hours: 8 ', 'hours: 1 ');
  writeFileSync(join(path, 'door.yaml'), edit(short));
  writeFileSync(join(path, 'my-logic.yaml'), starterTable());
  return path;
}
