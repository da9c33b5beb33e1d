/** Rows of a CSV of any size as they come, each with its line: comma, semicolon or tab, comments with `#`. */
import { createReadStream } from 'node:fs';
import type { Readable } from 'node:stream';
import { CsvError, parse } from 'csv-parse';
import { kindOf } from '../files.js';
import { UserProblem, pathText, systemWords } from '../problem.js';

export interface Row {
  readonly cells: readonly string[];
  readonly line: number;
}

/** What is called `-` is standard input. */
export const STDIN = '-';
/** A row of a log is short; what is longer is no log. */
const LONGEST_ROW = 10_000;

export function logName(file: string): string {
  return file === STDIN ? 'standard input' : pathText(file);
}

/** @throws {UserProblem} when it can't be read or is no text in rows */
export async function* rowsOf(file: string, stop?: AbortSignal): AsyncGenerator<Row> {
  const source = open(file);
  const rows = source.pipe(
    parse({
      bom: true,
      delimiter: [',', ';', '\t'],
      comment: '#',
      comment_no_infix: true,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      max_record_size: LONGEST_ROW,
    }),
  );
  source.on('error', (error) => rows.destroy(error));
  const ends = (): void => {
    source.unpipe(rows);
    rows.end();
    source.destroy();
  };
  stop?.addEventListener('abort', ends, { once: true });
  try {
    for await (const { record, info } of rows as AsyncIterable<{ record: string[]; info: { lines: number } }>) {
      const odd = record.find((cell) => UNPRINTABLE.test(cell));
      if (odd !== undefined)
        throw new UserProblem(
          `${logName(file)}:${info.lines}:1: expected plain text in UTF-8, found a control character or other bytes`,
          'export it as CSV',
          true,
        );
      yield { cells: record, line: info.lines };
    }
  } catch (error) {
    throw inWords(error, file);
  } finally {
    stop?.removeEventListener('abort', ends);
    source.destroy();
  }
}

// oxlint-disable-next-line no-control-regex -- they are what is looked for
const UNPRINTABLE = /[\u0000-\u001f\u007f\ufffd]/;

function open(file: string): Readable {
  if (file === STDIN) return process.stdin;
  const kind = kindOf(file);
  if (kind === 'nothing') throw new UserProblem(`${pathText(file)}: there is no such file`);
  if (kind === 'folder') throw new UserProblem(`${pathText(file)}: expected a log in CSV, found a folder`);
  return createReadStream(file, { highWaterMark: 1 << 18 });
}

function inWords(error: unknown, file: string): unknown {
  const words = systemWords(error);
  if (words !== undefined) return new UserProblem(`${logName(file)} can't be read: ${words}`);
  if (!(error instanceof CsvError)) return error;
  const line = Number((error as { lines?: unknown }).lines) || 1;
  const what =
    error.code === 'CSV_MAX_RECORD_SIZE'
      ? `expected rows of at most ${LONGEST_ROW} characters`
      : 'expected cells whose quotes are closed and stand around the whole cell';
  return new UserProblem(`${logName(file)}:${line}:1: ${what}`, 'numbers need no quotes', true);
}
