/** A log of edges or readings, row by row, to events in order of time: repaired where that is safe, refused with the line elsewhere. */
import { quote } from '../../engine/printable.js';
import { YEAR_US } from '../../engine/time.js';
import { formatIssue } from '../../scenario/explain.js';
import type { Issue } from '../../scenario/issue.js';
import type { Design } from '../../scenario/schema.js';
import { NO_ECHO } from '../../sensors/ranger.js';
import { InOrder, type LogEvent } from '../../simulate/replay/in-order.js';
import { TimeMender } from '../../simulate/replay/time-mender.js';
import { told } from '../../fitting/told.js';
import { logTime } from '../log-time.js';
import type { TimeUnit } from '../option-values.js';
import { UserProblem } from '../problem.js';
import { type LogColumns, logColumns } from './log-columns.js';
import { type Row, logName } from './rows.js';

export interface LogChoice {
  readonly file: string;
  /** Of a log that has the column: which replicate. */
  readonly replicate: number;
  /** Index of the door of a log without a column for it; null where it must say. */
  readonly door: number | null;
  readonly unit: TimeUnit | undefined;
}

/** Wrong rows told before the log is given up. */
const MOST_ISSUES = 10;
const HINT = 'the first line names the columns, for example: time_us,beam,level';

export class LogReader {
  rows = 0;
  edges = 0;
  readings = 0;
  columns: LogColumns | null = null;
  mender = new TimeMender(null);
  /** Time of the first row as written, microseconds; and how it was written. */
  first: { readonly time_us: number; readonly text: string } | null = null;
  readonly order: InOrder;
  private readonly issues: Issue[] = [];
  private readonly doors: ReadonlyMap<string, number>;
  private readonly beams: readonly ReadonlyMap<string, number>[];
  private readonly tell;

  /** @param give takes events in order of time: microseconds as written in a log of our own, since the first row otherwise */
  constructor(
    design: Design,
    private readonly choice: LogChoice,
    give: (event: LogEvent) => void,
  ) {
    this.order = new InOrder(give);
    this.doors = new Map(design.doors.map((door, d) => [door.name, d]));
    this.beams = design.doors.map((door) => new Map(door.beams.map((beam, b) => [beam.name, b])));
    this.tell = told(logName(choice.file));
  }

  /** The next row; the first names the columns. @throws {UserProblem} when too much is wrong */
  row({ cells, line }: Row): void {
    if (this.columns === null) {
      this.header(cells, line);
      return;
    }
    const { columns } = this;
    if (columns.replicate >= 0 && cells[columns.replicate] !== String(this.choice.replicate)) return;
    const event = this.event(columns, cells, line);
    if (event === null) {
      if (this.issues.length >= MOST_ISSUES) this.giveUp();
      return;
    }
    if (this.issues.length > 0) return;
    this.rows++;
    if (event.level === null) this.readings++;
    else this.edges++;
    this.order.put(event);
  }

  /** The log has ended. @throws {UserProblem} with all that is wrong with it */
  end(): void {
    if (this.columns === null) throw new UserProblem(`${logName(this.choice.file)}:1:1: the log is empty`, HINT, true);
    if (this.issues.length > 0) this.giveUp();
    this.order.release();
  }

  private header(cells: readonly string[], line: number): void {
    const columns = logColumns(cells, this.choice.unit);
    if (Array.isArray(columns)) {
      const issues = columns.map((text) => this.tell(line, 1, text, HINT));
      throw new UserProblem(issues.map(formatIssue).join('\n'), undefined, true);
    }
    if (columns.door < 0 && this.choice.door === null)
      throw new UserProblem(
        `${logName(this.choice.file)}: the log has no column door, and the scenario several doors`,
        'say which door with --door',
      );
    this.columns = columns;
    this.mender = new TimeMender(columns.counter ? columns.unit_us : null);
  }

  private event(columns: LogColumns, cells: readonly string[], line: number): LogEvent | null {
    const wrong = (cell: number, message: string, hint?: string): null => {
      const column = cells.slice(0, Math.max(0, cell)).reduce((at, text) => at + text.length + 1, 1);
      this.issues.push(this.tell(line, column, message, hint));
      return null;
    };
    const door = columns.door < 0 ? this.choice.door! : this.doors.get(cells[columns.door] ?? '');
    if (door === undefined) return wrong(columns.door, `the scenario has no door ${quote(cells[columns.door] ?? '')}`);
    const beam = this.beams[door]!.get(cells[columns.beam] ?? '');
    if (beam === undefined) return wrong(columns.beam, `that door has no beam ${quote(cells[columns.beam] ?? '')}`);
    const written = logTime(cells[columns.time] ?? '', columns.unit_us);
    if (written === null) return wrong(columns.time, `expected a time, found ${quote(cells[columns.time] ?? '')}`);
    const level = columns.level < 0 ? '' : (cells[columns.level] ?? '');
    const distance = columns.distance < 0 ? '' : (cells[columns.distance] ?? '');
    if (level !== '' && level !== '0' && level !== '1')
      return wrong(columns.level, `expected 1 (broken) or 0 (clear), found ${quote(level)}`);
    if (level === '' && columns.distance < 0)
      return wrong(columns.level, 'expected 1 (broken) or 0 (clear), found nothing');
    const metres = distance === '' ? null : Number(distance);
    if (metres !== null && !(metres >= 0 && metres * columns.distance_um <= 1e9))
      return wrong(columns.distance, `expected a distance, or nothing without echo, found ${quote(distance)}`);
    const mended = this.mender.mend(written.time_us, line);
    if (typeof mended !== 'number')
      return wrong(
        columns.time,
        `time runs backwards by ${mended.back_us / 1e6} s`,
        'rows may be late by 2 s at most; a log of several days needs times that tell the days apart',
      );
    this.first ??= { time_us: mended, text: cells[columns.time] ?? '' };
    const time_us = columns.own ? mended : mended - this.first.time_us;
    if (time_us > YEAR_US)
      return wrong(columns.time, 'expected a log of at most a year', 'is every time written in the same way?');
    if (columns.own && time_us < 0) return wrong(columns.time, 'expected a time from 0 in a log of a run');
    return {
      time_us,
      door,
      beam,
      level: level === '' ? null : level === '1' ? 1 : 0,
      distance_um: level !== '' ? null : metres === null ? NO_ECHO : Math.round(metres * columns.distance_um),
    };
  }

  private giveUp(): never {
    const more = this.issues.length >= MOST_ISSUES ? '\nmore may be wrong after that' : '';
    throw new UserProblem(`${this.issues.map(formatIssue).join('\n')}${more}`, undefined, true);
  }
}
