/** `jambeam study`: many designs under the same crowds, on all cores, kept cell by cell. */
import { availableParallelism } from 'node:os';
import { basename, extname, join } from 'node:path';
import { studySummaryText } from '../../report/study/summary-text.js';
import { quote } from '../../engine/printable.js';
import type { CodeJob } from '../../plugins/code.js';
import { CodeThread } from '../../study/run/code-thread.js';
import type { Executor } from '../../study/run/executor.js';
import { openPool } from '../../study/run/pool.js';
import { runStudy } from '../../study/run/run-study.js';
import { Standing } from '../../study/run/standing.js';
import { shellWord } from '../../report/shell-word.js';
import type { Io } from '../io.js';
import { jsonText } from '../io.js';
import type { LogicOptions } from '../logic-options.js';
import { UserProblem, onDiskLater, pathText } from '../problem.js';
import { printCautions } from '../scenario-file.js';
import { onSignal } from '../signals.js';
import { writeResults } from './finish.js';
import { type Slice, StudyFolder, sliceMine } from './study-folder.js';
import { inWords, redisUrl } from './redis-option.js';
import { type LoadedStudy, loadStudy } from './study-file.js';
import { startStudyProgress } from './study-progress.js';

export interface StudyOptions extends LogicOptions {
  readonly out?: string;
  readonly workers?: string;
  readonly resume?: boolean;
  readonly extend?: boolean;
  readonly force?: boolean;
  readonly timeLimit?: string;
  readonly slice?: string;
  readonly redis?: string | true;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

/** Some designs failed. */
const SOME_FAILED = 3;

export async function studyCommand(file: string, options: StudyOptions, io: Io): Promise<void> {
  const slice = sliceOf(options.slice);
  const workers = workersOf(options.workers);
  const limit_ms = limitOf(options.timeLimit);
  const loaded = loadStudy(file, options);
  if (options.quiet !== true) printCautions(loaded.cautions, io);
  const out = options.out ?? `${basename(file, extname(file))}${slice ? `-${slice.number}-of-${slice.of}` : ''}.study`;
  const standing = new Standing(loaded.plan, sliceMine(slice));
  const intent = { resume: options.resume === true, extend: options.extend === true, force: options.force === true };
  const folder = await StudyFolder.open(out, { request: loaded.request, slice }, intent, standing, io);

  const stop = new AbortController();
  let ending: () => void = () => undefined;
  const ended = new Promise<void>((resolve) => (ending = resolve));
  const progress = startStudyProgress(standing, io, options.quiet === true);
  // On a signal the process ends when this has: what is done is synced, the lock is given back.
  const forget = onSignal(async () => {
    stop.abort();
    await ended;
    io.err(pausedWords(standing, file, out, options, 'stopped'));
  });
  let executor: Executor | undefined;
  const timer = limit_ms === null ? undefined : setTimeout(() => stop.abort(), limit_ms);
  timer?.unref();
  try {
    executor = await executorOf(loaded, workers, options, io);
    const done = await onDiskLater(`the journal in ${pathText(out)} can't be written`, () =>
      inWords(() =>
        runStudy(standing, folder.journal, executor!, stop.signal, { progress: () => progress.update(standing) }),
      ),
    );
    progress.stop();
    await executor.close();
    executor = undefined;
    if (!done) {
      // A signal says so itself.
      if (limit_ms !== null) io.err(pausedWords(standing, file, out, options, 'paused'));
      return;
    }
    if (slice) {
      io.out(`Slice ${slice.number}/${slice.of} is done; \`jambeam merge DIR… --out DIR\` puts all of them together\n`);
    } else {
      const summary = await writeResults(folder.path, standing, folder.journal);
      io.out(options.json === true ? jsonText(summary) : studySummaryText(summary, pathText(join(out, 'report.html'))));
    }
    if (standing.designs.some((design) => design.ended === 'failed')) process.exitCode = SOME_FAILED;
  } finally {
    clearTimeout(timer);
    progress.stop();
    await executor?.close();
    folder.close();
    forget();
    ending();
  }
}

async function executorOf(
  { code, request, plan }: LoadedStudy,
  workers: number,
  options: StudyOptions,
  io: Io,
): Promise<Executor> {
  if (options.redis !== undefined) {
    const url = redisUrl(options.redis);
    const { openQueue } = await import('../../study/queue/coordinator.js');
    return inWords(() => openQueue(url, request, plan, (words) => options.quiet === true || io.err(`${words}\n`)));
  }
  if (code) await tryToLoad(code);
  return openPool({ workers, ...(code && { codes: code.codes, limit_s: code.limit_s }) });
}

/** Code that can't be loaded is told at once, and not as the fault of every design. */
async function tryToLoad({ codes, limit_s }: CodeJob): Promise<void> {
  const thread = new CodeThread(codes, limit_s);
  try {
    await thread.load();
  } catch (error) {
    throw new UserProblem((error as Error).message);
  } finally {
    await thread.end();
  }
}

/** The command that goes on, as it can be pasted. */
function pausedWords(standing: Standing, file: string, out: string, options: StudyOptions, how: string): string {
  const { done, most } = standing.cells;
  const logics = (options.logics ?? []).flatMap(({ option, value }) => [option, value]);
  const again = [
    'jambeam',
    'study',
    file,
    '--out',
    out,
    ...(options.slice ? ['--slice', options.slice] : []),
    ...(options.redis ? ['--redis'] : []),
    ...logics,
    '--resume',
  ];
  return `${how}: ${done} of ${standing.plan.stopping.fixed === null ? 'at most ' : ''}${most} replicates are done and kept in ${pathText(out)}\ngo on with: ${again.map(shellWord).join(' ')}\n`;
}

export function sliceOf(text: string | undefined): Slice | null {
  if (text === undefined) return null;
  const [, number, of] = /^(\d{1,5})\/(\d{1,5})$/.exec(text) ?? [];
  const slice = { number: Number(number), of: Number(of) };
  if (slice.number >= 1 && slice.number <= slice.of) return slice;
  throw new UserProblem(`--slice: expected NUMBER/OF, such as 3/16, found ${quote(text)}`);
}

export function workersOf(text: string | undefined): number {
  if (text === undefined) return availableParallelism();
  const workers = Number(text);
  if (Number.isInteger(workers) && workers >= 1 && workers <= 1024) return workers;
  throw new UserProblem(`--workers: expected a whole number from 1 to 1024, found ${quote(text)}`);
}

/** Milliseconds; null: none. */
function limitOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  const [, number, unit] = /^(\d+(?:\.\d+)?) ?(s|min|m|h|d)$/.exec(text) ?? [];
  const ms = { s: 1000, min: 60_000, m: 60_000, h: 3_600_000, d: 86_400_000 }[unit ?? ''];
  const limit = ms === undefined ? Number.NaN : Number(number) * ms;
  // A timer holds no more than 2³¹ milliseconds.
  if (limit > 0 && limit < 2 ** 31) return limit;
  throw new UserProblem(
    `--time-limit: expected a time such as 8h, 90min or 30s, at most 24 days, found ${quote(text)}`,
  );
}
