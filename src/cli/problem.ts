/** What ends a command early through no fault of ours: the user's input, or their disk. */
import { printable } from '../engine/printable.js';

/** Ends the command with exit code 2. The message is for the user: it says what is wrong and what to do. */
export class UserProblem extends Error {
  constructor(
    message: string,
    hint?: string,
    /** Whether each line says where it belongs, `file:line:column`, as editors look for it. */
    readonly placed = false,
  ) {
    super(hint === undefined ? message : `${message}\n  hint: ${hint}`);
    this.name = 'UserProblem';
  }
}

/** A path as it is printed. */
export function pathText(path: string): string {
  return printable(path, 300);
}

const WORDS: Readonly<Record<string, string>> = {
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'the file grew beyond the allowed size',
  EMFILE: 'too many files are open',
  ENOENT: 'it does not exist',
  ENOTDIR: 'a part of the path is no folder',
  EISDIR: 'it is a folder',
  EEXIST: 'it exists already',
  ENOTEMPTY: 'a folder of that name is there and not empty',
  ELOOP: 'links lead in a circle',
  ENAMETOOLONG: 'the name is too long',
  EIO: 'the disk reports a fault',
  EBUSY: 'it is in use',
  EXDEV: 'it lies on another disk',
};

/** Why the operating system refused, in words; undefined when the error is not the system's. */
export function systemWords(error: unknown): string | undefined {
  const code = errorCode(error);
  if (code === undefined || !/^E[A-Z0-9]+$/.test(code) || !(error instanceof Error && 'syscall' in error)) return;
  return WORDS[code] ?? `the system says ${code}`;
}

export function errorCode(error: unknown): string | undefined {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === 'string' ? code : undefined;
}

/** Runs a step on the disk; the system's refusal becomes a user's problem that begins with `what`. */
export function onDisk<T>(what: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    const words = systemWords(error);
    if (words === undefined) throw error;
    throw new UserProblem(`${what}: ${words}`, diskHint(errorCode(error)));
  }
}

/** The same for a step that takes its time. */
export async function onDiskLater<T>(what: string, step: () => Promise<T>): Promise<T> {
  try {
    return await step();
  } catch (error) {
    return onDisk(what, () => {
      throw error;
    });
  }
}

function diskHint(code: string | undefined): string | undefined {
  if (code === 'ENOSPC' || code === 'EDQUOT') return 'make room, or write to another disk';
  if (code === 'EROFS' || code === 'EACCES' || code === 'EPERM') return 'choose a place you may write to';
  return undefined;
}
