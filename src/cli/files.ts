/** Reading and writing whole files, with every refusal in words. */
import {
  closeSync,
  fsyncSync,
  lstatSync,
  openSync,
  readSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { nearest } from '../engine/nearest.js';
import { UserProblem, errorCode, onDisk, pathText, systemWords } from './problem.js';

const MEGABYTE = 1_048_576;

/**
 * A text file from outside: a regular file of bounded size, in whatever state; bytes that are not UTF-8 come out as
 * U+FFFD, which the readers of texts refuse with their place.
 *
 * @throws {UserProblem} naming the file, why it can't be read, and the nearest name in its folder
 */
export function readText(file: string, what: string, maxBytes = MEGABYTE): string {
  const name = pathText(file);
  try {
    const stats = statSync(file);
    if (stats.isDirectory()) throw new UserProblem(`${name}: expected ${what}, found a folder`, insideHint(file));
    if (!stats.isFile()) throw new UserProblem(`${name}: expected ${what}, found a device or a pipe`);
    if (stats.size > maxBytes) {
      const size = `${(stats.size / MEGABYTE).toFixed(1)} MB`;
      throw new UserProblem(`${name}: expected ${what} of at most ${maxBytes / MEGABYTE} MB, found ${size}`);
    }
    const bytes = readFileSync(file);
    // Its first character says so; as UTF-8 every other byte of it would be an oddity.
    if (/^(?:fffe|feff)/.test(bytes.toString('hex', 0, 2)))
      throw new UserProblem(`${name}:1:1: expected text in UTF-8, found UTF-16`, 'save the file as UTF-8', true);
    return bytes.toString('utf8');
  } catch (error) {
    const words = systemWords(error);
    if (words === undefined) throw error;
    if (errorCode(error) === 'ENOENT') throw new UserProblem(`${name}: there is no such file`, nearbyHint(file));
    throw new UserProblem(`${name}: the file can't be read: ${words}`);
  }
}

/** How a file begins; nothing for what is no regular file or can't be read, which {@link readText} tells. */
export function headOf(file: string, bytes: number): string {
  let fd: number | undefined;
  try {
    // A pipe would have to be waited for.
    if (!statSync(file).isFile()) return '';
    fd = openSync(file, 'r');
    const head = Buffer.alloc(bytes);
    return head.toString('utf8', 0, readSync(fd, head, 0, bytes, 0));
  } catch (error) {
    if (systemWords(error) === undefined) throw error;
    return '';
  } finally {
    if (fd !== undefined) closeSync(fd);
  }
}

function insideHint(folder: string): string | undefined {
  const scenario = namesIn(folder).find((name) => /\.ya?ml$/.test(name) && name.startsWith('scenario'));
  return scenario && `did you mean ${pathText(join(folder, scenario))}?`;
}

function nearbyHint(file: string): string {
  const folder = dirname(file);
  if (kindOf(folder) !== 'folder') return `there is no folder ${pathText(folder)} either`;
  const close = nearest(basename(file), namesIn(folder));
  if (close !== undefined) return `did you mean ${pathText(join(folder, close))}?`;
  return '`jambeam new DIR` writes a scenario to start from';
}

/** Names in a folder, sorted; none if it can't be read. At most a thousand: they are only for hints. */
function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder).sort().slice(0, 1000);
  } catch {
    return [];
  }
}

/** What is at a path, links not followed. */
export function kindOf(path: string): 'nothing' | 'folder' | 'file' | 'link' | 'other' {
  try {
    const stats = lstatSync(path);
    if (stats.isSymbolicLink()) return 'link';
    return stats.isDirectory() ? 'folder' : stats.isFile() ? 'file' : 'other';
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return 'nothing';
    const words = systemWords(error);
    if (words === undefined) throw error;
    throw new UserProblem(`${pathText(path)}: ${words}`);
  }
}

/** @throws {UserProblem} when something that is no file stands where one is to be written or read */
export function refuseAllButFiles(file: string): void {
  if (['file', 'nothing'].includes(kindOf(file))) return;
  throw new UserProblem(`${pathText(file)} is a link or a folder, not a file`, 'take it away first');
}

/** Writes a new file to the disk itself; it must not exist, so no link is ever followed. */
export function writeNew(file: string, text: string): void {
  const fd = openSync(file, 'wx');
  try {
    // A write may take less than it was given; the rest follows.
    const bytes = Buffer.from(text, 'utf8');
    for (let at = 0; at < bytes.length; ) at += writeSync(fd, bytes, at);
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
}

/** Writes beside the file and renames: at every moment the name has the old text or the whole new one. */
export function replaceFile(file: string, text: string): void {
  const unfinished = join(dirname(file), `.${basename(file)}.unfinished-${process.pid}`);
  onDisk(`${pathText(file)} can't be written`, () => {
    try {
      writeNew(unfinished, text);
      renameSync(unfinished, file);
      syncFolder(dirname(file));
    } finally {
      rmSync(unfinished, { force: true });
    }
  });
}

/**
 * Several files that belong together: all are written beside their names first, and only then renamed one after another.
 * What can't be written leaves every name as it was.
 */
export function replaceFiles(files: readonly (readonly [file: string, text: string])[]): void {
  const pairs = files.map(([file, text], i) => {
    return { file, text, unfinished: join(dirname(file), `.${basename(file)}.unfinished-${process.pid}-${i}`) };
  });
  try {
    for (const { file, text, unfinished } of pairs)
      onDisk(`${pathText(file)} can't be written`, () => writeNew(unfinished, text));
    for (const { file, unfinished } of pairs)
      onDisk(`${pathText(file)} can't be written`, () => renameSync(unfinished, file));
  } finally {
    for (const { unfinished } of pairs) discard(unfinished);
  }
  for (const folder of new Set(files.map(([file]) => dirname(file)))) syncFolder(folder);
}

/** Takes an unfinished file away, if it ever came to be; why writing failed is what has to be told, not this. */
function discard(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // A name that could not be made can't be taken away either.
  }
}

/** Makes renames in a folder last through a power cut, where the file system lets a folder be synced. */
export function syncFolder(folder: string): void {
  let fd: number | undefined;
  try {
    fd = openSync(folder, 'r');
    fsyncSync(fd);
  } catch {
    // Some file systems can't; the files themselves are synced.
  } finally {
    if (fd !== undefined) closeSync(fd);
  }
}
