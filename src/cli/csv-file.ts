/** A CSV file written row by row in bounded memory. */
import { stringify } from 'csv-stringify/sync';
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';

/** Rows are gathered to about this many characters; a write to the disk costs as much as some hundred rows. */
const CHUNK = 1 << 16;

export class CsvFile {
  private readonly fd: number;
  private chunk: string;

  /** Creates the file; it must not exist. */
  constructor(path: string, columns: readonly string[]) {
    this.fd = openSync(path, 'wx');
    this.chunk = `${columns.join(',')}\n`;
  }

  /** `row` is a finished line without its break: numbers as they are, texts through {@link cell}. */
  row(row: string): void {
    this.chunk += row;
    this.chunk += '\n';
    if (this.chunk.length >= CHUNK) this.flush();
  }

  close(): void {
    this.flush();
    fsyncSync(this.fd);
    closeSync(this.fd);
  }

  private flush(): void {
    const bytes = Buffer.from(this.chunk, 'utf8');
    // A write may take less than it was given; the rest follows.
    for (let at = 0; at < bytes.length; ) at += writeSync(this.fd, bytes, at);
    this.chunk = '';
  }
}

/**
 * A text as a CSV cell: quoted where needed; one that a spreadsheet would take for a formula (it begins with
 * `= + - @`, tab or carriage return) gets an apostrophe in front. Slow, so names are made cells once and kept.
 */
export function cell(text: string): string {
  return stringify([[text]], { escape_formulas: true, record_delimiter: '' });
}
