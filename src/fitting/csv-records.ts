/** A CSV text as records that know where each of their cells stands. */
import { CsvError, parse } from 'csv-parse/sync';
import { oddCharacter } from '../engine/outside-text.js';

/** A number as a cell may hold it. */
export const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

const MOST_ROWS = 100_000;
const LONGEST_LINE = 10_000;

export interface CsvRecord {
  readonly cells: readonly string[];
  readonly line: number;
  /** Where each cell begins, from 1. */
  readonly columns: readonly number[];
}

export function recordsOf(text: string): {
  readonly records: readonly CsvRecord[];
  readonly problem: { readonly line: number; readonly text: string; readonly hint?: string } | null;
} {
  const lines = text.split(/\r\n|\n|\r/);
  const odd = lines.findIndex((one) => oddCharacter(one) !== undefined);
  if (odd >= 0) {
    const why = 'expected plain text in UTF-8, found a control character or other bytes';
    return { records: [], problem: { line: odd + 1, text: why, hint: 'export it as CSV, not as a spreadsheet' } };
  }
  // Before anything is parsed: a file of millions of lines ends here.
  const [first = '', ...rows] = lines.filter((one) => one.trim() !== '' && !one.startsWith('#'));
  if (rows.length > MOST_ROWS)
    return { records: [], problem: { line: 1, text: `at most ${MOST_ROWS} rows are read, found ${rows.length}` } };
  const delimiter = [',', ';', '\t'].find((one) => first.includes(one)) ?? ',';
  try {
    const parsed = parse(text, {
      bom: true,
      delimiter,
      comment: '#',
      comment_no_infix: true,
      info: true,
      raw: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      max_record_size: LONGEST_LINE,
    }) as unknown as readonly { record: string[]; raw: string; info: { lines: number } }[];
    const records = parsed.map(({ record, raw, info }) => ({
      cells: record,
      line: info.lines,
      columns: starts(raw, delimiter),
    }));
    return { records: records.filter(({ cells }) => cells.some((cell) => cell !== '')), problem: null };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = Number((error as { lines?: unknown }).lines) || 1;
    const long = error.code === 'CSV_MAX_RECORD_SIZE';
    const what = long
      ? `a line of at most ${LONGEST_LINE} characters`
      : 'cells whose quotes are closed and stand around the whole cell';
    return { records: [], problem: { line, text: `expected ${what}`, hint: 'numbers need no quotes' } };
  }
}

/** Where cells begin in a line as it stands in the file, from 1; quotes and blanks before them counted in. */
function starts(raw: string, delimiter: string): number[] {
  // A byte order mark is no column of the editor's.
  const line = raw.replace(/^[\ufeff\r\n]+/, '');
  const at: number[] = [];
  let quoted = false;
  let fresh = true;
  for (let i = 0; i < line.length; i++) {
    const c = line[i]!;
    if (fresh && c !== ' ') {
      at.push(i + 1);
      fresh = false;
    }
    if (c === '"') quoted = !quoted;
    else if (c === delimiter && !quoted) fresh = true;
  }
  if (fresh) at.push(line.length + 1);
  return at;
}
