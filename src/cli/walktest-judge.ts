/** A filled sheet, and a log where there is one, made into a verdict. */
import { count, joined, plural } from '../report/words.js';
import { whoIn } from '../report/who-words.js';
import { told } from '../fitting/told.js';
import type { Issue } from '../scenario/issue.js';
import { judge } from '../score/walk-test/judge.js';
import { planOf } from '../score/walk-test/plan.js';
import type { BothWays } from '../score/walk-test/rows.js';
import { SLACK_US, talliesToWalks } from '../score/walk-test/tallies-to-walks.js';
import { quote } from '../engine/printable.js';
import { kindsNamed } from '../simulate/walk-kinds.js';
import { lastTally_us } from '../simulate/walk-prediction.js';
import { readText } from './files.js';
import type { Paint } from './io.js';
import { type LogTime, onTheClock_us } from './log-time.js';
import { rowsProblem } from './issues-problem.js';
import { UserProblem } from './problem.js';
import { talliesOfLog } from './tally-log.js';
import { type SheetRow, isFilled } from './walk-sheet-read.js';
import { verdictText } from './walktest-verdict-words.js';
import { type WalkTest, names } from './walktest-run.js';

const MOST_BYTES = 64 * 1_048_576;

/** @throws {UserProblem} with what is wrong in sheet or log, each with its place */
export function judgeSheet(
  test: WalkTest,
  rows: readonly SheetRow[],
  sheet: string,
  log: string | undefined,
  offset_s: number,
  paint: Paint,
): string {
  const { design, door, logic, metrics, stream } = test;
  const { counted, notes } =
    log === undefined
      ? { counted: rows.map((row) => row.counted), notes: [] }
      : fromLog(test, rows, sheet, log, offset_s);
  const unread = rows.filter((row, i) => isFilled(row) && counted[i] === null).length;
  if (unread > 0 && log === undefined)
    throw new UserProblem(
      `${plural(unread, 'row')} of the sheet ${unread === 1 ? 'says' : 'say'} when it was walked and not what was counted`,
      'fill in counted_forward and counted_backward, or give the log of the controller with --log',
    );
  const { kinds, unknown } = kindsNamed(design, door, logic, metrics, stream, rows);
  const tell = told(sheet);
  if (unknown.length > 0)
    throw rowsProblem(
      sheet,
      unknown.map(({ line, who, kind }) =>
        tell(
          line,
          1,
          `this run predicts nothing for ${quote(who)} with ${quote(kind)}`,
          'keep who and kind as the sheet was written',
        ),
      ),
    );
  const ofKind = kinds.map(({ who, kind }) =>
    rows.flatMap((row, i) => (row.who === who && row.kind === kind ? [{ row, counted: counted[i] ?? null }] : [])),
  );
  const plan = planOf(
    kinds,
    ofKind.map((all) => all.length),
  );
  const walked = ofKind.map((all) => {
    const done = all.flatMap((one) => (one.counted === null ? [] : [howOf(one.row.expected, one.counted)]));
    return { walks: done.length, wrong: done.filter((how) => how !== 'right').length, done };
  });
  const verdict = judge(plan, walked);
  const wrongs = walked.map(({ done }) => wrongsWords(done));
  return verdictText(verdict, plan.error, wrongs, notes, door.name, logic.name, whoIn(design), paint);
}

type How = 'right' | 'too few' | 'too many' | 'the other way round';

function howOf(expected: BothWays, counted: BothWays): How {
  if (expected.forward === counted.forward && expected.backward === counted.backward) return 'right';
  const more = counted.forward + counted.backward - expected.forward - expected.backward;
  return more < 0 ? 'too few' : more > 0 ? 'too many' : 'the other way round';
}

/** '12 counted too few, 1 the other way round': what went wrong in the walks of a kind. */
function wrongsWords(done: readonly How[]): string {
  const parts = (['too few', 'too many', 'the other way round'] as const).flatMap((how) => {
    const times = done.filter((one) => one === how).length;
    return times > 0 ? [`${count(times)} counted ${how}`] : [];
  });
  return joined(parts);
}

/** What was counted in each walk: as written down, else by the log; null for a walk that was not walked. */
function fromLog(test: WalkTest, rows: readonly SheetRow[], sheet: string, log: string, offset_s: number) {
  const text = readText(log, 'a log of tallies in CSV', MOST_BYTES);
  const { tallies, sort, issues } = talliesOfLog(text.split(/\r\n|\n|\r/), log, names(test));
  if (issues.length > 0) throw rowsProblem(log, issues);
  const timed = rows.flatMap((row, i) => (row.start === null ? [] : [{ i, row, start: row.start, end: row.end }]));
  if (timed.length === 0)
    throw new UserProblem('no walk of the sheet has a start time: the log has nothing to go with', 'fill in start');
  const first = timed[0]!.start.sort;
  const tell = told(sheet);
  const odd = timed
    .filter(({ start }) => start.sort !== first)
    .map(({ row }) =>
      tell(row.line, 1, 'expected times of one sort in the whole sheet', 'a time of day everywhere will do'),
    );
  const onClock = first === 'clock' && sort === 'moment';
  if (sort !== null && sort !== first && !onClock)
    odd.push(
      tell(
        timed[0]!.row.line,
        1,
        `the sheet has ${SORTS[first]}, the log has ${SORTS[sort]}`,
        'both need the same clock',
      ),
    );
  const walks = timed.map(({ start, end }) => ({ start_us: start.time_us, end_us: end?.time_us ?? null }));
  odd.push(...overlaps(timed, sheet));
  if (odd.length > 0) throw rowsProblem(sheet, odd);
  const shift_us = Math.round(offset_s * 1e6);
  const shifted = tallies
    .map((tally) => {
      const time_us = tally.time_us + shift_us;
      return { ...tally, time_us: onClock ? onTheClock_us(time_us) : time_us };
    })
    .sort((a, b) => a.time_us - b.time_us);
  const { design, door, logic } = test;
  const latency_us = lastTally_us(design, door, logic);
  const matched = talliesToWalks(walks, shifted, latency_us);
  const counted: (BothWays | null)[] = rows.map((row) => row.counted);
  timed.forEach(({ i }, k) => (counted[i] ??= matched.counted[k]!));
  const of_walks = tallies.length - matched.of_no_walk;
  const notes = [
    `The log has ${count(tallies.length)} tallies of this door: ${count(of_walks)} fall into walks, ${count(matched.of_no_walk)} between them (walks that are not on the sheet, or counts out of thin air).`,
  ];
  if (4 * matched.of_no_walk > tallies.length)
    notes.push(
      'So many between walks: if hardly anybody else went through, the clocks differ, and the verdict is worth nothing. --offset-s shifts the times of the log.',
    );
  return { counted, notes };
}

const SORTS: Readonly<Record<LogTime['sort'], string>> = {
  seconds: 'seconds',
  clock: 'times of day',
  moment: 'dates with their times',
};

function overlaps(
  timed: readonly { readonly row: SheetRow; readonly start: LogTime; readonly end: LogTime | null }[],
  sheet: string,
): Issue[] {
  const tell = told(sheet);
  const order = [...timed].sort((a, b) => a.start.time_us - b.start.time_us);
  return order.flatMap(({ row, start }, i) => {
    const before = order[i - 1];
    if (before === undefined) return [];
    const { end } = before;
    if (
      (end ?? before.start).time_us < start.time_us ||
      (end === null && start.time_us - before.start.time_us > SLACK_US)
    )
      return [];
    return [
      tell(row.line, 1, `this walk starts before that of line ${before.row.line} is over`, 'one walk after the other'),
    ];
  });
}
