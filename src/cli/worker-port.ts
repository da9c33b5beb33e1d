/** The worker's end of a command that simulates on a thread of its own: one job in, progress and one answer out. */
import { parentPort, workerData } from 'node:worker_threads';
import type { CodeJob } from '../plugins/code.js';
import type { CodeProblem } from '../plugins/code-problem.js';
import type { OpenCode } from '../plugins/open-code.js';
import { NoSuchPassage } from '../simulate/traced.js';
import { UserProblem, onDisk } from './problem.js';

export interface WorkerJob {
  /** Code of the user's own, if there is any. */
  readonly code: CodeJob | null;
  /** What a refusal of the disk begins with. */
  readonly what: string;
}

export type WorkerMessage<Result> =
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'done'; readonly result: Result }
  | { readonly kind: 'refused'; readonly message: string; readonly placed: boolean }
  | { readonly kind: 'failed'; readonly message: string; readonly stack: string };

export type Tell = (done: number) => void;

/** Does the job this worker was started with. */
export async function answerParent<Job extends WorkerJob, Result>(
  work: (job: Job, code: OpenCode | null, progress: Tell) => Promise<Result>,
): Promise<void> {
  if (!parentPort) return;
  const port = parentPort;
  const job = workerData as Job;
  const tell = (message: WorkerMessage<Result>): void => port.postMessage(message);
  let code: OpenCode | null = null;
  try {
    // What loads modules is itself loaded only where there is one.
    if (job.code) code = await (await import('../plugins/open-code.js')).openCode(job.code);
    const result = await work(job, code, (done) => tell({ kind: 'progress', done }));
    tell({ kind: 'done', result });
  } catch (error) {
    const problem = job.code && (await import('../plugins/open-code.js')).codeProblemOf(error, job.code.codes);
    tell(failureOf(error, problem, job.what));
  } finally {
    code?.close();
  }
}

function failureOf(error: unknown, problem: CodeProblem | null, what: string): WorkerMessage<never> {
  if (problem) return refusal(new UserProblem(problem.message, problem.hint, problem.placed));
  if (error instanceof NoSuchPassage) return refusal(new UserProblem(error.message, error.hint));
  try {
    onDisk(what, () => {
      throw error;
    });
  } catch (refused) {
    if (refused instanceof UserProblem) return refusal(refused);
  }
  const { message, stack = '' } = error instanceof Error ? error : new Error(String(error));
  return { kind: 'failed', message, stack };
}

function refusal({ message, placed }: UserProblem): WorkerMessage<never> {
  return { kind: 'refused', message, placed };
}
