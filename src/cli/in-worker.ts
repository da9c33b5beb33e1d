/**
 * Runs a job on a thread of its own, so that this one can hear Ctrl-C and draw progress; and so that code of the user's
 * own that never returns can be ended, and the programs it has started with it.
 */
import { Worker } from 'node:worker_threads';
import { CodeProblem } from '../plugins/code-problem.js';
import { killLeft, watchHeart } from '../plugins/heart.js';
import { goneProblem, stuckProblem } from '../plugins/stopped.js';
import type { Io } from './io.js';
import { UserProblem } from './problem.js';
import { onSignal } from './signals.js';
import type { WorkerJob, WorkerMessage } from './worker-port.js';

export interface InWorkerOptions {
  readonly io: Io;
  /** Names of the doors, in the design's order. */
  readonly doors: readonly string[];
  readonly progress?: { update(done: number): void; stop(): void };
}

/** @throws {UserProblem} what the user can mend, the code's faults included; else what went wrong with us */
export async function inWorker<Result>(
  script: URL,
  job: WorkerJob,
  { io, doors, progress }: InWorkerOptions,
): Promise<Result> {
  const { code } = job;
  const worker = new Worker(script, {
    workerData: job,
    stdout: code !== null,
    stderr: code !== null,
  });
  // What a module prints is no result, and no matter of the terminal's: it goes to stderr, made fit to print.
  if (code)
    for (const stream of [worker.stdout, worker.stderr])
      stream.setEncoding('utf8').on('data', (text: string) => io.err(text));
  const killPrograms = (): void => void (code && killLeft(code.shared));
  process.on('exit', killPrograms);
  let stopped = false;
  const forget = onSignal(async () => {
    stopped = true;
    progress?.stop();
    await worker.terminate();
    killPrograms();
  });
  let unwatch = (): void => undefined;
  try {
    return await new Promise<Result>((resolve, reject) => {
      if (code)
        unwatch = watchHeart(code.shared, code.limit_s, (place) => {
          reject(asUserProblem(stuckProblem(code, doors, place)));
          void worker.terminate();
        });
      const gone = (error?: unknown): UserProblem | null => {
        const problem = code && goneProblem(code, doors, error);
        return problem && asUserProblem(problem);
      };
      worker.on('message', (message: WorkerMessage<Result>) => {
        // An answer that crosses with a signal comes too late: the command says that it was stopped.
        if (stopped) return;
        if (message.kind === 'progress') progress?.update(message.done);
        else if (message.kind === 'done') resolve(message.result);
        else if (message.kind === 'refused') reject(new UserProblem(message.message, undefined, message.placed));
        else reject(Object.assign(new Error(message.message), { stack: message.stack }));
      });
      worker.on('error', (error) => reject(gone(error) ?? error));
      // After a signal nobody waits for an answer any more: the process is about to end.
      worker.on('exit', () => stopped || reject(gone() ?? new Error('the simulation ended without a result')));
    });
  } finally {
    unwatch();
    progress?.stop();
    forget();
    // Once it has answered it only ends its programs, which takes them a second at most.
    if (code && !stopped) await ended(worker);
    killPrograms();
    process.off('exit', killPrograms);
  }
}

/** Programs are given so long to end by themselves. */
const ENDING_MS = 3000;

async function ended(worker: Worker): Promise<void> {
  if (worker.threadId === -1) return;
  await new Promise<void>((done) => {
    const timer = setTimeout(() => void worker.terminate().then(() => done()), ENDING_MS);
    worker.once('exit', () => {
      clearTimeout(timer);
      done();
    });
  });
}

function asUserProblem({ message, hint, placed }: CodeProblem): UserProblem {
  return new UserProblem(message, hint, placed);
}
