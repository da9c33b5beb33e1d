/** `jambeam walktest`: how many walks through the built door confirm or refute a prediction, and what they said. */
import { extname } from 'node:path';
import { SECOND_US } from '../engine/time.js';
import { quote } from '../engine/printable.js';
import { walkSheet } from '../report/walk-sheet.js';
import { whoIn } from '../report/who-words.js';
import { planWalks } from '../score/walk-test/plan.js';
import { walkRows } from '../score/walk-test/rows.js';
import { lastTally_us } from '../simulate/walk-prediction.js';
import { predictedKinds } from '../simulate/walk-kinds.js';
import { readText, replaceFile } from './files.js';
import type { Io } from './io.js';
import { rowsProblem } from './issues-problem.js';
import { kindForFile } from './new-places.js';
import { UserProblem, pathText } from './problem.js';
import { sheetCsv } from './walk-sheet-write.js';
import { isFilled, readSheet } from './walk-sheet-read.js';
import { judgeSheet } from './walktest-judge.js';
import { planText } from './walktest-plan-words.js';
import { type WalkTest, names, walkTestOf } from './walktest-run.js';
import { typedNumber } from './typed-number.js';

/** Options as typed. */
export interface WalktestOptions {
  readonly sheet?: string;
  readonly log?: string;
  readonly door?: string;
  readonly logic?: string;
  readonly walks?: string;
  readonly offsetS?: string;
  readonly force?: boolean;
}

const MOST_BYTES = 8 * 1_048_576;
/** Walks that fit into an evening. */
export const MOST_WALKS = 300;
const [LEAST, MOST] = [6, 5000];

/** @throws {UserProblem} with all that is wrong with options, sheet and log */
export async function walktestCommand(folder: string, options: WalktestOptions, io: Io): Promise<void> {
  const { sheet, log, force = false } = options;
  const walks = numberOf('--walks', options.walks, MOST_WALKS, LEAST, MOST, true);
  const offset_s = numberOf('--offset-s', options.offsetS, 0, -1e10, 1e10, false);
  if (log !== undefined && sheet === undefined)
    throw new UserProblem('--log needs the sheet that says what was walked', 'add --sheet walks.csv');
  if (options.offsetS !== undefined && log === undefined)
    throw new UserProblem('--offset-s shifts the times of a log', 'add --log LOG.csv');
  const sort = sheet === undefined ? null : sortOf(sheet);
  const test = walkTestOf(folder, options);
  const kind = sheet === undefined ? 'nothing' : kindForFile('--sheet', sheet);
  if (sheet !== undefined && kind === 'file' && sort === 'csv' && !force) {
    const read = readSheet(readText(sheet, 'a walk sheet in CSV', MOST_BYTES), sheet, names(test));
    if (read.issues.length > 0) throw rowsProblem(sheet, read.issues);
    if (log !== undefined || read.rows.some(isFilled)) {
      io.out(judgeSheet(test, read.rows, sheet, log, offset_s, io.paint));
      return;
    }
  }
  if (log !== undefined)
    throw new UserProblem(
      sort === 'csv' ? `${pathText(sheet!)}: there is no such sheet to read` : '--log is read with a sheet in CSV',
      '--sheet names the CSV sheet that was filled in',
    );
  plan(test, walks, io, { sheet, sort, kind, force });
}

function plan(
  test: WalkTest,
  walks: number,
  io: Io,
  to: { sheet: string | undefined; sort: 'csv' | 'html' | null; kind: 'file' | 'nothing'; force: boolean },
): void {
  const { design, door, logic, metrics, stream } = test;
  const { kinds, left_out } = predictedKinds(design, door, logic, metrics, stream);
  if (kinds.length === 0)
    throw new UserProblem(
      `nobody who can be asked to walk goes through door ${quote(door.name)} in this run`,
      'choose another door with --door',
    );
  const planned = planWalks(kinds, walks);
  const who = whoIn(design);
  const told = `${planText(planned, left_out, door.name, logic.name, who, io.paint)}\n`;
  const { sheet, sort, kind, force } = to;
  if (sheet === undefined || sort === null) {
    io.out(`${told}Next: --sheet walks.html writes a sheet to print, --sheet walks.csv one to fill in.\n`);
    return;
  }
  const name = io.paint.bold(pathText(sheet));
  if (kind === 'file' && !force) {
    const hint = sort === 'csv' ? 'nothing is filled in yet' : 'it may be your work';
    io.out(`${told}${name} is there already: ${hint}, and it was left as it is. --force writes it anew.\n`);
    return;
  }
  // Two seconds more than it takes: the display has to follow too.
  const wait_s = 2 + Math.ceil(lastTally_us(design, door, logic) / SECOND_US);
  const rows = walkRows(planned.kinds, stream.child('sheet'));
  replaceFile(
    sheet,
    sort === 'csv'
      ? sheetCsv(rows, door.name, logic.name)
      : walkSheet({ design, door, logic: logic.name, rows, wait_s }),
  );
  const next =
    sort === 'csv'
      ? 'fill in what was counted, or start times; then the same line reads it'
      : 'print it; its twin --sheet walks.csv has the same walks in the same order';
  io.out(`${told}Wrote ${name}: ${next}.\n`);
}

function numberOf(
  option: string,
  typed: string | undefined,
  preset: number,
  min: number,
  max: number,
  whole: boolean,
): number {
  if (typed === undefined) return preset;
  const value = typedNumber(typed);
  if (value >= min && value <= max && (!whole || Number.isInteger(value))) return value;
  throw new UserProblem(
    `${option}: expected a ${whole ? 'whole ' : ''}number from ${min} to ${max}, found ${quote(typed)}`,
  );
}

function sortOf(sheet: string): 'csv' | 'html' {
  const ending = extname(sheet).toLowerCase();
  if (ending === '.csv') return 'csv';
  if (ending === '.html' || ending === '.htm') return 'html';
  throw new UserProblem(
    `--sheet: expected a name that ends in .html or .csv, found ${quote(sheet)}`,
    '.html is to print, .csv to fill in and read back',
  );
}
