/** `jambeam replay`: a real log instead of a simulation. */
import { basename, extname, join } from 'node:path';
import { formatIssue } from '../../scenario/explain.js';
import type { Issue } from '../../scenario/issue.js';
import type { Design } from '../../scenario/schema.js';
import { summaryText } from '../../report/summary.js';
import { bare } from '../../report/words.js';
import { quote } from '../../engine/printable.js';
import { inWorker } from '../in-worker.js';
import type { Io } from '../io.js';
import { jsonText } from '../io.js';
import type { LogicOptions } from '../logic-options.js';
import { codeOf, givenLogics } from '../logic-options.js';
import { TIME_UNITS, type TimeUnit } from '../option-values.js';
import { UserProblem, onDiskLater, pathText } from '../problem.js';
import { OutFolder } from '../out-folder.js';
import { RUN_FOLDER } from '../run-folder.js';
import { loadScenario, printCautions } from '../scenario-file.js';
import { onSignal } from '../signals.js';
import { typedNumber } from '../typed-number.js';
import { type ReplayJob, type ReplayResult, replayLog } from './job.js';
import { STDIN } from './rows.js';
import type { ReplayWorkerJob } from './worker.js';
import { countsText, repairsText, watchedLine } from './words.js';

const WORKER = new URL('./worker.js', import.meta.url);

/** Options as typed. */
export interface ReplayOptions extends LogicOptions {
  readonly scenario?: string;
  readonly door?: string;
  readonly truth?: string;
  readonly replicate?: string;
  readonly timeUnit?: string;
  readonly hours?: string;
  readonly watch?: boolean;
  readonly out?: string;
  readonly set?: readonly string[];
  readonly json?: boolean;
  readonly force?: boolean;
  readonly static?: boolean;
}

/** @throws {UserProblem} with all that is wrong with options, scenario, log and truth */
export async function replayCommand(log: string, options: ReplayOptions, io: Io): Promise<void> {
  const { scenario } = options;
  if (scenario === undefined)
    throw new UserProblem(
      'which doors, beams and logics?',
      'name their scenario with --scenario my-door/scenario.yaml',
    );
  const given = givenLogics(options);
  const { design, cautions } = loadScenario(scenario, options.set ?? [], given);
  printCautions(cautions, io);
  const choice = choiceOf(log, design, options);
  const out =
    options.out ?? (log === STDIN || options.truth === undefined ? null : `${basename(log, extname(log))}.run`);
  const folder =
    out === null ? null : OutFolder.open(RUN_FOLDER, out, { scenarioFile: scenario }, options.force === true);
  const job: ReplayJob = { ...choice, folder: folder?.unfinished ?? null, watch: options.watch ?? log === STDIN };
  const code = codeOf(design, given);
  const stop = new AbortController();
  let over = (): void => undefined;
  const told = new Promise<void>((resolve) => (over = resolve));
  const forget = onSignal(async () => {
    // Results of half a log are none; what was counted so far is told all the same.
    if (folder || code) return folder?.discard();
    stop.abort();
    await told;
  });
  try {
    let result: ReplayResult;
    const what = out === null ? 'the replay' : `${pathText(out)} can't be written`;
    if (code) {
      const workerJob: ReplayWorkerJob = { ...job, code, what };
      result = await inWorker(WORKER, workerJob, { io, doors: design.doors.map(({ name }) => name) });
    } else
      result = await onDiskLater(what, () =>
        replayLog(job, { stop: stop.signal, watched: (one) => io.out(watchedLine(one, design)) }),
      );
    folder?.finish();
    tell(result, out, options, io);
  } catch (error) {
    folder?.discard();
    throw error;
  } finally {
    forget();
    over();
  }
}

function tell(result: ReplayResult, out: string | null, options: ReplayOptions, io: Io): void {
  if (options.json === true) {
    io.out(jsonText(result.metrics ?? { log: result.log, counted: result.counted, rooms: result.rooms }));
    return;
  }
  io.out(textOf(result, io));
  if (out !== null)
    io.out(
      result.metrics
        ? `The report: ${io.paint.bold(pathText(join(out, 'report.html')))} (open it in a browser)\n`
        : `Tallies and counts: ${io.paint.bold(pathText(out))}\n`,
    );
}

function textOf(result: ReplayResult, io: Io): string {
  const { metrics, log, design } = result;
  const repairs = bare(repairsText(log));
  if (metrics) return `${summaryText(design, metrics, { colour: io.colour })}\n${repairs}`;
  return `${bare(countsText(result))}\n${repairs}`;
}

function choiceOf(file: string, design: Design, options: ReplayOptions): Omit<ReplayJob, 'folder' | 'watch'> {
  const issues: Issue[] = [];
  const refuse = (option: string, message: string, hint?: string): void =>
    void issues.push({
      place: null,
      path: option,
      problem: { code: 'other', message, ...(hint !== undefined && { hint }) },
    });
  const door =
    options.door === undefined
      ? design.doors.length === 1
        ? 0
        : null
      : design.doors.findIndex(({ name }) => name === options.door);
  if (door !== null && door < 0)
    refuse(
      '--door',
      `there is no door ${quote(options.door ?? '')}`,
      `there is ${design.doors.map(({ name }) => quote(name)).join(', ')}`,
    );
  const replicate = typedNumber(options.replicate ?? '1');
  if (!Number.isInteger(replicate) || replicate < 1)
    refuse('--replicate', `expected a whole number from 1, found ${quote(options.replicate ?? '')}`);
  const unit = options.timeUnit;
  if (unit !== undefined && !TIME_UNITS.includes(unit as TimeUnit))
    refuse('--time-unit', `expected s, ms or us, found ${quote(unit)}`);
  const hours = options.hours === undefined ? null : typedNumber(options.hours);
  if (hours !== null && !(hours >= 0.01 && hours <= 8760))
    refuse('--hours', `expected 0.01 to 8760 hours, found ${quote(options.hours ?? '')}`);
  if (options.truth === STDIN)
    refuse('--truth', 'expected a file, found -', 'only the log can come from standard input');
  if (issues.length > 0) throw new UserProblem(issues.map(formatIssue).join('\n'));
  return {
    design,
    log: { file, replicate, door, unit: unit as TimeUnit | undefined },
    truth: options.truth ?? null,
    hours,
    static: options.static === true,
  };
}
