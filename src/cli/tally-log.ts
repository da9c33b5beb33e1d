/**
 * A controller's log of tallies, read: one line of names, then rows. A column of times and a column of directions are
 * needed; where rows name a door or a logic, those asked for are taken. `tallies.csv` of a run is such a log.
 */
import { quote } from '../engine/printable.js';
import { recordsOf } from '../fitting/csv-records.js';
import { told } from '../fitting/told.js';
import type { Issue } from '../scenario/issue.js';
import type { TimedTally } from '../score/walk-test/tallies-to-walks.js';
import { type LogTime, TIMES, TIME_COLUMNS, logTime } from './log-time.js';
import { DIRECTIONS } from './option-values.js';

export interface TallyLog {
  readonly tallies: readonly TimedTally[];
  /** How its times are written; null without tallies. */
  readonly sort: LogTime['sort'] | null;
  readonly issues: readonly Issue[];
}

/**
 * @param lines of the file
 * @param file its name, for places
 * @param only rows of this door and logic, where the log says which
 */
export function talliesOfLog(
  lines: readonly string[],
  file: string,
  only: { readonly door: string; readonly logic: string },
): TallyLog {
  const tell = told(file);
  const failed = (...issues: Issue[]): TallyLog => ({ tallies: [], sort: null, issues });
  const { records, problem } = recordsOf(lines.join('\n'));
  if (problem !== null) return failed(tell(problem.line, 1, problem.text, problem.hint));
  const [header, ...rows] = records;
  const hint = 'the first line names the columns, for example: time_s,direction';
  if (header === undefined) return failed(tell(1, 1, 'the log is empty', hint));
  const column = (name: string) => header.cells.indexOf(name);
  const at = header.cells.findIndex((name) => Object.hasOwn(TIME_COLUMNS, name));
  const way = column('direction');
  const missing: Issue[] = [];
  const wanted = Object.keys(TIME_COLUMNS).join(', ');
  if (at < 0) missing.push(tell(header.line, 1, `expected a column of times (${wanted}), found none`, hint));
  if (way < 0) {
    const raw = header.cells.includes('level') || header.cells.some((name) => name.startsWith('distance'));
    const first = 'jambeam replay makes tallies of edges and readings: --out DIR writes tallies.csv';
    missing.push(tell(header.line, 1, 'expected a column direction, found none', raw ? first : hint));
  }
  if (missing.length > 0) return failed(...missing);

  const issues: Issue[] = [];
  const found: { readonly time: LogTime; readonly direction: TimedTally['direction'] }[] = [];
  const [replicate, door, logic] = ['replicate', 'door', 'logic'].map(column) as [number, number, number];
  let first: string | undefined;
  for (const { cells, line, columns } of rows) {
    const issue = (cell: number, message: string, more?: string) =>
      issues.push(tell(line, columns[cell] ?? 1, message, more));
    if (elsewhere(cells[door], only.door) || elsewhere(cells[logic], only.logic)) continue;
    const time = logTime(cells[at] ?? '', TIME_COLUMNS[header.cells[at]!]);
    const direction = DIRECTIONS.find((one) => one === cells[way]);
    if (time === null) issue(at, `expected a time, ${TIMES}, found ${quote(cells[at] ?? '')}`);
    if (direction === undefined) issue(way, `expected ${DIRECTIONS.join(' or ')}, found ${quote(cells[way] ?? '')}`);
    if (replicate >= 0 && cells[replicate] !== (first ??= cells[replicate])) {
      issue(replicate, 'expected one replicate, found several', 'a built door has one clock: keep the rows of one');
      break;
    }
    if (time === null || direction === undefined) continue;
    if (found[0] !== undefined && found[0].time.sort !== time.sort) {
      issue(at, `expected times of one sort, found ${quote(cells[at]!)} after others`, TIMES);
      break;
    }
    found.push({ time, direction });
  }
  return {
    tallies: found.map(({ time: { time_us }, direction }) => ({ time_us, direction })),
    sort: found[0]?.time.sort ?? null,
    issues,
  };
}

function elsewhere(cell: string | undefined, wanted: string): boolean {
  return cell !== undefined && cell !== wanted;
}
