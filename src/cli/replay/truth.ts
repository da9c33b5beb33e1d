/** Who truly came: passages.csv of a run, or a list somebody kept by hand. Row by row, in order of time. */
import { quote, short } from '../../engine/printable.js';
import { SECOND_US, YEAR_US } from '../../engine/time.js';
import type { BodySort } from '../../agents/body.js';
import { PASSAGE_KINDS, type PassageKind } from '../../agents/schema.js';
import type { Visit } from '../../agents/visit.js';
import type { Design } from '../../scenario/schema.js';
import { TIME_COLUMNS, logTime } from '../log-time.js';
import { UserProblem } from '../problem.js';
import { type Row, logName, rowsOf } from './rows.js';

/** By hand only the moment of crossing is known: the visit is taken to last so long before and after it. */
export const BY_HAND_US = 1_500_000;
/** Nobody is that tall, no party that large. */
const TALLEST_M = 10;
const MOST_PERSONS = 100;
const EXAMPLE = 'for example: time_s,direction';
const SORTS: readonly BodySort[] = ['person', 'pet', 'thing', 'test-rod'];

export interface TruthChoice {
  readonly file: string;
  readonly replicate: number;
  readonly door: number | null;
  /** What is taken from times written by hand, so that they begin with the log. */
  readonly first_us: number;
}

/** @throws {UserProblem} with the line of what can't be read */
export async function* truthOf(design: Design, choice: TruthChoice): AsyncGenerator<Visit> {
  let header: readonly string[] | null = null;
  let before_us = -Infinity;
  let number = 0;
  for await (const row of rowsOf(choice.file)) {
    if (header === null) {
      header = row.cells;
      checkHeader(header, choice.file);
      continue;
    }
    const cells = new Map(header.map((name, i) => [name, row.cells[i] ?? '']));
    if (cells.has('replicate') && cells.get('replicate') !== String(choice.replicate)) continue;
    const visit = visitOf(design, cells, row, choice, ++number);
    if (visit.leave_us > YEAR_US) refuse(choice, row, 'expected a list of at most a year');
    if (visit.enter_us < before_us) refuse(choice, row, 'expected rows in order of time, found an earlier one');
    before_us = visit.enter_us;
    yield visit;
  }
  if (header === null) throw new UserProblem(`${logName(choice.file)}:1:1: the list is empty`, EXAMPLE, true);
}

function checkHeader(header: readonly string[], file: string): void {
  const whole = header.includes('enter_us') && header.includes('leave_us') && header.includes('cross_us');
  const byHand = header.some((name) => Object.hasOwn(TIME_COLUMNS, name)) && header.includes('direction');
  if (whole || byHand) return;
  throw new UserProblem(
    `${logName(file)}:1:1: expected the columns of passages.csv, or a time (${Object.keys(TIME_COLUMNS).join(', ')}) and a direction`,
    EXAMPLE,
    true,
  );
}

type Cells = ReadonlyMap<string, string>;

function visitOf(design: Design, cells: Cells, row: Row, choice: TruthChoice, count: number): Visit {
  const doorName = cells.get('door');
  const door = doorName === undefined ? choice.door : design.doors.findIndex(({ name }) => name === doorName);
  if (door === null || door < 0)
    refuse(
      choice,
      row,
      doorName === undefined
        ? 'the list has no column door: say which with --door'
        : `the scenario has no door ${quote(doorName)}`,
    );
  const direction = cells.get('direction');
  if (direction !== 'forward' && direction !== 'backward')
    refuse(choice, row, `expected forward or backward, found ${quote(direction ?? '')}`);
  const kind = (cells.get('kind') ?? 'through') as PassageKind;
  if (!PASSAGE_KINDS.includes(kind)) refuse(choice, row, `there is no kind of passage ${quote(kind)}`);
  const sort = (cells.get('sort') ?? 'person') as BodySort;
  if (!SORTS.includes(sort)) refuse(choice, row, `expected one of ${SORTS.join(', ')}, found ${quote(sort)}`);
  const whole = (name: string, fallback: number, most?: number): number => {
    const text = cells.get(name);
    if (text === undefined || text === '') return fallback;
    const value = Number(text);
    if (Number.isSafeInteger(value) && (most === undefined || (value >= 0 && value <= most))) return value;
    const range = most === undefined ? '' : ` from 0 to ${most}`;
    return refuse(choice, row, `${name}: expected a whole number${range}, found ${quote(text)}`);
  };
  const stature_m = Number(cells.get('stature_m') ?? 0);
  if (!(stature_m >= 0 && stature_m <= TALLEST_M))
    refuse(choice, row, `stature_m: expected 0 to ${TALLEST_M} metres, found ${quote(cells.get('stature_m') ?? '')}`);
  return {
    number: whole('number', count),
    door,
    body: whole('body', count),
    sort,
    who: cells.get('who') ?? 'adult',
    stature_m,
    persons: whole('persons', 1, MOST_PERSONS),
    kind,
    entry: whole('entry', 0, design.doors[door]!.traffic.mix.length) - 1,
    direction,
    ...timesOf(cells, row, choice, whole),
  };
}

function timesOf(
  cells: Cells,
  row: Row,
  choice: TruthChoice,
  whole: (name: string, fallback: number) => number,
): Pick<Visit, 'enter_us' | 'cross_us' | 'leave_us'> {
  if (cells.has('enter_us')) {
    const enter_us = whole('enter_us', Number.NaN);
    const leave_us = whole('leave_us', Number.NaN);
    if (!(enter_us <= leave_us)) refuse(choice, row, 'expected enter_us before leave_us');
    const cross_us = (cells.get('cross_us') ?? '') === '' ? null : whole('cross_us', 0);
    if (cross_us !== null && !(enter_us <= cross_us && cross_us <= leave_us))
      refuse(choice, row, 'expected cross_us between enter_us and leave_us');
    if (cross_us !== null && cross_us < 0) refuse(choice, row, 'expected cross_us from 0');
    return { enter_us, leave_us, cross_us };
  }
  const column = Object.keys(TIME_COLUMNS).find((name) => cells.has(name))!;
  const time = logTime(cells.get(column) ?? '', TIME_COLUMNS[column]);
  if (time === null) refuse(choice, row, `expected a time, found ${quote(cells.get(column) ?? '')}`);
  const after_us = time.time_us - choice.first_us;
  if (after_us < -BY_HAND_US)
    refuse(
      choice,
      row,
      `expected a time after the log's first row, found one ${short(-after_us / SECOND_US)} s before it: take out who came before`,
    );
  // Before the log there is no clock to book anybody on.
  const cross_us = Math.max(0, after_us);
  return { enter_us: cross_us - BY_HAND_US, cross_us, leave_us: cross_us + BY_HAND_US };
}

function refuse({ file }: TruthChoice, { line }: Row, message: string): never {
  throw new UserProblem(`${logName(file)}:${line}:1: ${message}`, undefined, true);
}
