/**
 * A bench's CSV read into rows, every mistake told with its place.
 *
 * One line of names, then rows; comma, semicolon or tab between cells, whichever the header has. Lines beginning with #
 * and columns of other names are left alone. An empty reading, `none`, or 0 is a reading without echo.
 */
import { nearest } from '../engine/nearest.js';
import { quote } from '../engine/printable.js';
import type { Issue } from '../scenario/issue.js';
import {
  type Bench,
  type BenchRow,
  READING_COLUMNS,
  type ReadingColumn,
  TRUE_COLUMNS,
  type TrueColumn,
} from './bench.js';
import { type CsvRecord, NUMBER, recordsOf } from './csv-records.js';
import { type Told, told } from './told.js';

const TRUTHS = Object.keys(TRUE_COLUMNS);
const READS = Object.keys(READING_COLUMNS);
const EXAMPLE = 'the first line names the columns, for example: true_m,reading_mm';

/** @param file its name as the user gave it, for places */
export function readBench(
  text: string,
  file: string,
): { readonly bench: Bench | null; readonly issues: readonly Issue[] } {
  const tell = told(file);
  const { records, problem } = recordsOf(text);
  if (problem !== null) return { bench: null, issues: [tell(problem.line, 1, problem.text, problem.hint)] };
  const [header, ...body] = records;
  if (header === undefined) return { bench: null, issues: [tell(1, 1, 'the file is empty', EXAMPLE)] };
  const truth = columnOf(header, TRUTHS, 'true distances', tell);
  const reads = columnOf(header, READS, 'readings', tell);
  if (typeof truth !== 'number' || typeof reads !== 'number')
    return { bench: null, issues: [truth, reads].filter((one) => typeof one !== 'number') };

  const name = header.cells[truth] as TrueColumn;
  const what = header.cells[reads] as ReadingColumn;
  const issues: Issue[] = [];
  const rows: BenchRow[] = [];
  let decimals = 0;
  for (const record of body) {
    const { cells, line, columns } = record;
    if (cells.length !== header.cells.length) {
      const expected = header.cells.length === 1 ? '1 cell' : `${header.cells.length} cells`;
      issues.push(
        tell(
          line,
          1,
          `expected ${expected} as in the header, found ${cells.length}`,
          'numbers are written with a point, and a reading without echo keeps its comma',
        ),
      );
      continue;
    }
    const distance = numberOf(cells[truth]!);
    if (distance === null || !(distance > 0))
      issues.push(
        tell(
          line,
          columns[truth]!,
          `${name}: expected a number above 0, found ${found(cells[truth]!)}`,
          commaHint(cells[truth]!),
        ),
      );
    const reading = readingOf(cells[reads]!, what === 'volts');
    if (reading === undefined)
      issues.push(
        tell(
          line,
          columns[reads]!,
          `${what}: expected a number, found ${found(cells[reads]!)}`,
          commaHint(cells[reads]!) ?? 'a reading without echo is an empty cell, 0 or none',
        ),
      );
    if (distance === null || reading === undefined) continue;
    decimals = Math.max(decimals, decimalsOf(cells[reads]!));
    // Through a decimal text, so that 30 cm and 0.3 m are the same distance.
    const distance_m = Number((distance * TRUE_COLUMNS[name]).toPrecision(12));
    rows.push({ distance_m, reading, line, column: columns[reads]! });
  }
  if (issues.length > 0) return { bench: null, issues };
  if (rows.length === 0) return { bench: null, issues: [tell(header.line, 1, 'there is no row below the header')] };
  const places = { line: header.line, truth: header.columns[truth]!, reads: header.columns[reads]! };
  return { bench: { file, truth: name, reads: what, header: places, decimals, rows }, issues: [] };
}

const found = (cell: string): string => (cell === '' ? 'nothing' : quote(cell));
/** What to say of a decimal comma; undefined where it is none. */
const commaHint = (cell: string): string | undefined =>
  /^[+-]?\d+,\d+$/.test(cell) ? `with a point: ${cell.replace(',', '.')}` : undefined;

function numberOf(cell: string): number | null {
  const value = NUMBER.test(cell) ? Number(cell) : Number.NaN;
  return Number.isFinite(value) ? value : null;
}

/** Null without echo, undefined when it is no reading. Only a voltage may be below 0, by noise. */
function readingOf(cell: string, signed: boolean): number | null | undefined {
  if (cell === '' || cell.toLowerCase() === 'none') return null;
  const value = numberOf(cell);
  if (value === null || (value < 0 && !signed)) return undefined;
  return value === 0 ? null : value;
}

function decimalsOf(cell: string): number {
  const [, digits = '', power = '0'] = /(?:\.(\d*))?(?:e([+-]?\d+))?$/i.exec(cell) ?? [];
  return Math.min(9, Math.max(0, digits.length - Number(power)));
}

/** The one column of these names, or what is wrong with it. */
function columnOf(header: CsvRecord, names: readonly string[], what: string, tell: Told): number | Issue {
  const at = header.cells.flatMap((cell, i) => (names.includes(cell) ? [i] : []));
  if (at.length === 1) return at[0]!;
  const choices = names.join(', ');
  if (at.length > 1)
    return tell(
      header.line,
      header.columns[at[1]!]!,
      `expected one column of ${what}, found ${at.length}`,
      `keep one of ${at.map((i) => header.cells[i]).join(', ')}`,
    );
  const close = header.cells
    .map((cell) => [cell, nearest(cell, names)] as const)
    .find(([, name]) => name !== undefined);
  const hint = close ? `is ${quote(close[0])} meant to be ${close[1]}?` : EXAMPLE;
  return tell(header.line, 1, `the header names no column of ${what}: expected one of ${choices}`, hint);
}
