/** Compiling C in tests: as strictly as the source promises, with both compilers. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect } from 'vitest';
import { needs } from './needs.js';

export const COMPILERS = ['gcc', 'clang'] as const;
export type Compiler = (typeof COMPILERS)[number];

const FLAGS = ['-std=c99', '-Wall', '-Wextra', '-pedantic', '-Werror'];
const missing = COMPILERS.filter((compiler) => spawnSync(compiler, ['--version']).status !== 0);

/** Whether tests that compile must be skipped. */
export const NO_COMPILERS = !needs(missing);

const made: string[] = [];
afterAll(() => {
  for (const path of made) rmSync(path, { recursive: true, force: true });
});

/** A folder with these files in it, taken away after the tests. */
export function folderOf(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-c-'));
  made.push(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

/** Compiles files of a folder into a program there, without a single warning. */
export function compile(compiler: Compiler, folder: string, sources: readonly string[], more: readonly string[] = []) {
  const program = join(folder, `program-${compiler}`);
  const { status, stderr } = spawnSync(compiler, [...FLAGS, ...more, ...sources, '-o', program], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  return program;
}

export function play(program: string, args: readonly string[], input = '') {
  const { status, stdout } = spawnSync(program, args, {
    input,
    encoding: 'utf8',
    maxBuffer: 64 * 1_048_576,
    timeout: 20_000,
    killSignal: 'SIGKILL',
  });
  return { status, lines: stdout.split('\n').slice(0, -1) };
}
