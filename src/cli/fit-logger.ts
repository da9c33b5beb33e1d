/** `jambeam fit --logger DIR`: a capture program in C to finish, and a page on how to measure. */
import { join } from 'node:path';
import { printable } from '../engine/printable.js';
import { FIT_KINDS, type FitKind } from '../fitting/bench.js';
import { benchProtocol } from '../fitting/logger/bench-protocol.js';
import { captureProgram } from '../fitting/logger/capture.js';
import { formatIssue } from '../scenario/explain.js';
import { kindOf, readText } from './files.js';
import type { Io } from './io.js';
import { kindForFolder, writeInto } from './new-places.js';
import { UserProblem, pathText } from './problem.js';

/** Those of its command that it minds, as typed. */
export interface LoggerOptions {
  readonly kind?: string;
  readonly out?: string;
  readonly chart?: string;
  readonly force?: boolean;
}

export function writeLogger(folder: string, readings: string | undefined, options: LoggerOptions, io: Io): void {
  if (folder === '') throw new UserProblem('--logger: expected a folder to make, found nothing');
  if (readings !== undefined || options.out !== undefined || options.chart !== undefined)
    throw new UserProblem('--logger writes a program and a page, and fits nothing', 'give it alone, or with --kind');
  const files = loggerFiles(options.kind);
  const name = pathText(folder);
  const edited =
    kindForFolder(folder) === 'folder'
      ? Object.keys(files).filter((file) => differs(join(folder, file), files[file]!))
      : [];
  const force = options.force === true && edited.every((file) => kindOf(join(folder, file)) === 'file');
  if (edited.length > 0 && !force)
    throw new UserProblem(
      `${name} holds ${edited.join(', ')} already, and it may be your work: nothing was written`,
      'name another folder, or write over files with --force',
    );
  writeInto(folder, files);
  io.out(
    `Wrote ${Object.keys(files).join(' and ')} to ${name}. Next: read ${pathText(join(folder, 'BENCH.md'))}, put your sensor into read_sensor() in capture.c.\n`,
  );
}

function loggerFiles(kind: string | undefined): Record<string, string> {
  if (kind !== undefined && !(FIT_KINDS as readonly string[]).includes(kind)) {
    const problem = { code: 'not_one_of', choices: FIT_KINDS, found: `"${printable(kind)}"` } as const;
    throw new UserProblem(formatIssue({ place: null, path: '--kind', problem }));
  }
  return { 'capture.c': captureProgram(kind as FitKind | undefined), 'BENCH.md': benchProtocol() };
}

function differs(file: string, text: string): boolean {
  const kind = kindOf(file);
  return kind !== 'nothing' && (kind !== 'file' || readText(file, 'a file') !== text);
}
