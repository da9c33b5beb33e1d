/** Runs the compiled command line as a user does, in a folder of its own. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll } from 'vitest';
import { starterTable } from '../../src/counter/table/starter.js';
import { starterScenario } from '../../src/scenario/starter.js';

export const LAUNCHER = resolve('bin/jambeam.js');

export interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}
export interface Where {
  readonly cwd: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly uid?: number;
  /** What it reads from standard input. */
  readonly input?: string;
}

export function jambeam(args: readonly string[], { cwd, env = {}, uid, input }: Where): Said {
  const { status, stdout, stderr, error } = spawnSync(process.execPath, [LAUNCHER, ...args], {
    cwd,
    env: { PATH: process.env['PATH'] ?? '', ...env },
    encoding: 'utf8',
    maxBuffer: 64 * 1_048_576,
    ...(uid === undefined ? {} : { uid }),
    ...(input === undefined ? {} : { input }),
  });
  if (error) throw error;
  return { code: status, out: stdout, err: stderr };
}

/** The same without waiting: for signals. */
export function start(args: readonly string[], cwd: string) {
  const child = spawn(process.execPath, [LAUNCHER, ...args], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
  let err = '';
  child.stderr.on('data', (chunk: Buffer) => (err += chunk.toString()));
  const ended = new Promise<Said>((done) => child.on('close', (code) => done({ code, out: '', err })));
  return { child, ended };
}

const made: string[] = [];
afterAll(() => {
  for (const path of made) rmSync(path, { recursive: true, force: true });
});

/** A new empty folder, taken away after the file's tests. */
export function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'jambeam-test-'));
  made.push(path);
  return path;
}

/** A folder with the starter as `door.yaml`, shortened so that a run takes a moment; `edit` changes its text. */
export function folderWithDoor(edit: (text: string) => string = (text) => text): string {
  const path = folder();
  const short = starterScenario().replace('replicates: 20', 'replicates: 2').replace('hours: 8 ', 'hours: 1 ');
  writeFileSync(join(path, 'door.yaml'), edit(short));
  writeFileSync(join(path, 'my-logic.yaml'), starterTable());
  return path;
}
