/**
 * A filled sheet of a walk test, read back; every mistake told with its place. A row counts as walked when it says what
 * was counted, or when it began. Rows may be left empty, added, or sorted anew.
 */
import { quote } from '../engine/printable.js';
import { recordsOf } from '../fitting/csv-records.js';
import { told } from '../fitting/told.js';
import type { Issue } from '../scenario/issue.js';
import type { BothWays } from '../score/walk-test/rows.js';
import { type LogTime, logTime, TIMES } from './log-time.js';

/** Where it begins in the file, so that what is found out later can be told with its place. */
export interface SheetRow {
  readonly line: number;
  readonly who: string;
  readonly kind: string;
  readonly expected: BothWays;
  /** What somebody wrote down of the counter; null: nothing. */
  readonly counted: BothWays | null;
  readonly start: LogTime | null;
  readonly end: LogTime | null;
}

export interface Sheet {
  readonly rows: readonly SheetRow[];
  readonly issues: readonly Issue[];
}

const NEEDED = ['door', 'logic', 'who', 'kind', 'expected_forward', 'expected_backward'] as const;
/** Nobody is counted more often in one walk. */
const MOST = 99;

/** Whether anything was written into it: then it is somebody's work. */
export const isFilled = (row: SheetRow): boolean => row.counted !== null || row.start !== null;

/** @param file its name, for places */
export function readSheet(text: string, file: string, of: { readonly door: string; readonly logic: string }): Sheet {
  const tell = told(file);
  const { records, problem } = recordsOf(text);
  if (problem !== null) return { rows: [], issues: [tell(problem.line, 1, problem.text, problem.hint)] };
  const [header, ...body] = records;
  const missing = NEEDED.filter((name) => !(header?.cells ?? []).includes(name));
  if (header === undefined || missing.length > 0) {
    const message = `expected the columns of a walk sheet, found none called ${missing.join(', ')}`;
    return {
      rows: [],
      issues: [tell(header?.line ?? 1, 1, message, 'a name that is not there yet makes a new sheet')],
    };
  }
  const issues: Issue[] = [];
  const rows = body.map((record): SheetRow => {
    const at = (name: string) => header.cells.indexOf(name);
    const cellOf = (name: string) => record.cells[at(name)] ?? '';
    const wrong = (name: string, expected: string, hint?: string) => {
      const column = record.columns[at(name)] ?? 1;
      issues.push(tell(record.line, column, `${name}: expected ${expected}, found ${quote(cellOf(name))}`, hint));
    };
    for (const name of ['door', 'logic'] as const)
      if (cellOf(name) !== of[name]) wrong(name, quote(of[name]), `--${name} says which ${name} a sheet is of`);
    const whole = (name: string): number | null => {
      const cell = cellOf(name);
      if (cell === '') return null;
      const value = /^\d{1,3}$/.test(cell) ? Number(cell) : Number.NaN;
      if (value <= MOST) return value;
      wrong(name, `a whole number from 0 to ${MOST}`);
      return 0;
    };
    const both = (what: string): BothWays | null => {
      const [forward, backward] = [whole(`${what}_forward`), whole(`${what}_backward`)];
      if (forward === null && backward === null) return null;
      // Whoever writes one number means that the other is none.
      return { forward: forward ?? 0, backward: backward ?? 0 };
    };
    const time = (name: string): LogTime | null => {
      if (cellOf(name) === '') return null;
      const read = logTime(cellOf(name));
      if (read === null) wrong(name, `a time, ${TIMES}`);
      return read;
    };
    const expected = both('expected');
    if (expected === null) wrong('expected_forward', `a whole number from 0 to ${MOST}`);
    const [start, end] = [time('start'), time('end')];
    if (start === null && end !== null) wrong('start', 'a time where there is an end');
    else if (start !== null && end !== null && start.sort !== end.sort) wrong('end', 'a time as start has it');
    else if (start !== null && end !== null && end.time_us < start.time_us) wrong('end', 'a time after the start');
    return {
      line: record.line,
      who: cellOf('who'),
      kind: cellOf('kind'),
      expected: expected ?? { forward: 0, backward: 0 },
      counted: both('counted'),
      start,
      end,
    };
  });
  return { rows, issues };
}
