/**
 * The journal of a study: one line for each cell that is done, added at the end and synced to the disk.
 *
 *     4f1c09ab {"d":"…key of the design…","r":3,"v":[…],"who":{…}}
 *
 * Each line begins with the first 32 bits of the SHA-256 of its text. What a power cut or a full disk left torn is found by
 * that, taken off, and its cell is done again; nothing that was synced is ever lost or counted twice.
 */
import { createHash } from 'node:crypto';
import { closeSync, fstatSync, fdatasyncSync, ftruncateSync, openSync, readSync, writeSync } from 'node:fs';
import { type Entry, entryOf } from './entry.js';

/** Where a line's text is in the file. */
export interface Span {
  readonly at: number;
  readonly bytes: number;
}

/** Where entries are read back from. */
export interface CellSource {
  read(span: Span): Entry;
}

const SUM = 8;
const CHUNK = 1 << 20;
/** A cell of the largest design is some megabytes; what is longer, bytes, is no line of ours. */
const LONGEST_LINE = 16 << 20;

export function lineOf(text: string): string {
  return `${sumOf(text)} ${text}\n`;
}

function sumOf(text: string | Uint8Array): string {
  return createHash('sha256').update(text).digest('hex').slice(0, SUM);
}

export class Journal implements CellSource {
  private end: number;
  private waiting: string[] = [];
  private unsynced = false;

  private constructor(
    readonly file: string,
    private readonly fd: number,
    /** Lines that were torn or damaged, and so count for nothing. */
    readonly damaged: number,
    size: number,
  ) {
    this.end = size;
  }

  /**
   * Opens a journal, makes it if it isn't there, and tells what is in it.
   *
   * @param each told every whole entry in the order of writing, and where it is; says whether it can be one of the study's
   */
  static open(file: string, each: (entry: Entry, span: Span) => boolean): Journal {
    const fd = openSync(file, 'a+');
    const size = fstatSync(fd).size;
    const { whole, damaged } = readEntries(fd, size, each);
    // Behind the last whole line there is nothing of use.
    if (whole < size) {
      ftruncateSync(fd, whole);
      fdatasyncSync(fd);
    }
    return new Journal(file, fd, damaged, whole);
  }

  /** A journal to be read alone, while another process may be writing it. @returns null where there is none */
  static look(file: string, each: (entry: Entry, span: Span) => boolean): Journal | null {
    let fd: number;
    try {
      fd = openSync(file, 'r');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
    const { whole, damaged } = readEntries(fd, fstatSync(fd).size, each);
    return new Journal(file, fd, damaged, whole);
  }

  /** Adds an entry; it counts as done only after the next {@link sync}. @returns where it will be */
  put(entry: Entry): Span {
    const text = JSON.stringify(entry);
    const line = lineOf(text);
    const span = { at: this.end + SUM + 1, bytes: Buffer.byteLength(text) };
    this.end += Buffer.byteLength(line);
    this.waiting.push(line);
    return span;
  }

  /** Writes what was added and waits until the disk has it. */
  sync(): void {
    if (this.waiting.length > 0) {
      const bytes = Buffer.from(this.waiting.join(''), 'utf8');
      const start = this.end - bytes.length;
      this.waiting = [];
      try {
        for (let at = 0; at < bytes.length; ) at += writeSync(this.fd, bytes, at);
      } catch (error) {
        // A full disk: no half line stays.
        this.end = start;
        ftruncateSync(this.fd, start);
        throw error;
      }
      this.unsynced = true;
    }
    if (this.unsynced) fdatasyncSync(this.fd);
    this.unsynced = false;
  }

  /** An entry that was written. */
  read({ at, bytes }: Span): Entry {
    const text = Buffer.allocUnsafe(bytes);
    for (let got = 0; got < bytes; ) {
      const more = readSync(this.fd, text, got, bytes - got, at + got);
      if (more === 0) throw new RangeError(`Journal: nothing at ${at}`);
      got += more;
    }
    return JSON.parse(text.toString('utf8')) as Entry;
  }

  close(): void {
    closeSync(this.fd);
  }
}

/** @returns the end of the last whole line, and how many lines were no entries */
function readEntries(
  fd: number,
  size: number,
  each: (entry: Entry, span: Span) => boolean,
): { whole: number; damaged: number } {
  let rest: Buffer = Buffer.alloc(0);
  let at = 0;
  let whole = 0;
  let damaged = 0;
  for (let read = 0; read < size; ) {
    const chunk = Buffer.allocUnsafe(Math.min(CHUNK, size - read));
    const got = readSync(fd, chunk, 0, chunk.length, read);
    if (got === 0) break;
    read += got;
    rest = rest.length > 0 ? Buffer.concat([rest, chunk.subarray(0, got)]) : chunk.subarray(0, got);
    let from = 0;
    for (let to = rest.indexOf(10); to >= 0; to = rest.indexOf(10, from)) {
      const text = rest.subarray(from + SUM + 1, to);
      const sum = rest.toString('latin1', from, from + SUM);
      const isWhole = to - from > SUM && sum === sumOf(text);
      const entry = isWhole ? entryOf(text.toString('utf8')) : null;
      if (entry === null || !each(entry, { at: at + from + SUM + 1, bytes: text.length })) damaged++;
      if (isWhole) whole = at + to + 1;
      from = to + 1;
    }
    at += from;
    rest = rest.subarray(from);
    // Its end is waited for no longer: what there is of it is thrown away, and what comes has no right sum.
    if (rest.length > LONGEST_LINE) {
      at += rest.length;
      rest = Buffer.alloc(0);
    }
  }
  return { whole, damaged: damaged + (rest.length > 0 ? 1 : 0) };
}
