/** `jambeam study`: many designs under the same crowds, on all cores, kept cell by cell. */
import { basename, extname } from 'node:path';
import type { CodeJob } from '../../plugins/code.js';
import { CodeThread } from '../../study/run/code-thread.js';
import type { Executor } from '../../study/run/executor.js';
import { openPool } from '../../study/run/pool.js';
import { runStudy } from '../../study/run/run-study.js';
import { Standing } from '../../study/run/standing.js';
import { shellWord } from '../../report/shell-word.js';
import type { Io } from '../io.js';
import type { LogicOptions } from '../logic-options.js';
import { UserProblem, onDiskLater, pathText } from '../problem.js';
import { printCautions } from '../scenario-file.js';
import { onSignal } from '../signals.js';
import { conclude, doneWords, tellFailed } from './finish.js';
import { StudyFolder, sliceMine } from './study-folder.js';
import { limitOf, sliceOf, workersOf } from './options.js';
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
  readonly static?: boolean;
}

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
    if (!slice) return await conclude(out, folder, standing, io, options);
    io.out(`Slice ${slice.number}/${slice.of} is done; \`jambeam merge DIR… --out DIR\` puts all of them together\n`);
    tellFailed(standing);
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
    ...(options.static ? ['--static'] : []),
    '--resume',
  ];
  return `${how}: ${doneWords(standing.cells, standing.plan.stopping.fixed)} replicates are done and kept in ${pathText(out)}\ngo on with: ${again.map(shellWord).join(' ')}\n`;
}
