/**
 * A CSV file written cell by cell in bounded memory.
 *
 * Rows are put together as bytes: a run writes millions of numbers, and a string for each row costs more than what the
 * row is about.
 */
import { stringify } from 'csv-stringify/sync';
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';

/** Bytes gathered before they go to the disk: a write costs as much as some hundred rows. */
const CHUNK = 1 << 16;
/** A number's sign, digits and point, with the comma after it. */
const LONGEST_NUMBER = 24;
const ZERO = 48;
const POINT = 46;
const MINUS = 45;
const COMMA = 44;
const LINE_BREAK = 10;

export class CsvFile {
  private readonly fd: number;
  private chunk = Buffer.allocUnsafe(CHUNK);
  private size = 0;

  /** Creates the file; it must not exist. */
  constructor(path: string, columns: readonly string[]) {
    this.fd = openSync(path, 'wx');
    for (const column of columns) this.text(Buffer.from(column));
    this.endRow();
  }

  /** A text through {@link cell}, as UTF-8. */
  text(cell: Uint8Array): this {
    this.makeRoom(cell.length + 1);
    // Names are short: a loop is quicker than a call to copy them.
    for (let i = 0; i < cell.length; i++) this.chunk[this.size + i] = cell[i]!;
    this.size += cell.length;
    return this.endCell();
  }

  /** A whole number, in size up to 2⁵³ − 1. */
  whole(value: number): this {
    this.makeRoom(LONGEST_NUMBER);
    this.digits(value < 0 ? this.minus(value) : value);
    return this.endCell();
  }

  /** A number rounded to `places` decimal places, without zeros at its end; in size up to 2⁵³ − 1 units of the last. */
  decimal(value: number, places: number): this {
    this.makeRoom(LONGEST_NUMBER);
    let scale = 1;
    for (let i = 0; i < places; i++) scale *= 10;
    let units = Math.round(value * scale);
    if (units < 0) units = this.minus(units);
    this.digits(Math.floor(units / scale));
    let rest = units % scale;
    if (rest > 0) this.chunk[this.size++] = POINT;
    while (rest > 0) {
      scale /= 10;
      const digit = Math.floor(rest / scale);
      this.chunk[this.size++] = ZERO + digit;
      rest -= digit * scale;
    }
    return this.endCell();
  }

  empty(): this {
    this.makeRoom(1);
    return this.endCell();
  }

  endRow(): void {
    // In place of the last cell's comma.
    this.chunk[this.size - 1] = LINE_BREAK;
  }

  close(): void {
    this.flush();
    fsyncSync(this.fd);
    closeSync(this.fd);
  }

  private endCell(): this {
    this.chunk[this.size++] = COMMA;
    return this;
  }

  private minus(value: number): number {
    this.chunk[this.size++] = MINUS;
    return -value;
  }

  /** Six digits at a time: their arithmetic is that of small integers. */
  private digits(value: number): void {
    if (value < 1_000_000) {
      this.put(value, digitsOf(value));
      return;
    }
    const upper = Math.floor(value / 1_000_000);
    this.digits(upper);
    this.put(value - upper * 1_000_000, 6);
  }

  private put(value: number, digits: number): void {
    let rest = value | 0;
    for (let at = this.size + digits - 1; at >= this.size; at--) {
      const tens = (rest / 10) | 0;
      this.chunk[at] = ZERO + rest - 10 * tens;
      rest = tens;
    }
    this.size += digits;
  }

  private makeRoom(bytes: number): void {
    if (this.size + bytes <= this.chunk.length) return;
    this.flush();
    if (bytes > this.chunk.length) this.chunk = Buffer.allocUnsafe(bytes);
  }

  private flush(): void {
    // A write may take less than it was given; the rest follows.
    for (let at = 0; at < this.size; ) at += writeSync(this.fd, this.chunk, at, this.size - at);
    this.size = 0;
  }
}

function digitsOf(value: number): number {
  return value < 10 ? 1 : value < 100 ? 2 : value < 1000 ? 3 : value < 10_000 ? 4 : value < 100_000 ? 5 : 6;
}

/**
 * A text as a CSV cell: quoted where needed; one that a spreadsheet would take for a formula (it begins with
 * `= + - @`, tab or carriage return) gets an apostrophe in front. Slow, so names are made cells once and kept.
 */
export function cell(text: string): Buffer {
  return Buffer.from(stringify([[text]], { escape_formulas: true, record_delimiter: '' }));
}
