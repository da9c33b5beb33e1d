/**
 * Cells whose logics are code of the user's own, on a thread that can be ended: a step that never returns, or that ends the
 * process, costs one design and not the study.
 */
import { Worker } from 'node:worker_threads';
import { type Code, type CodeJob, codeJob } from '../../plugins/code.js';
import { killLeft, watchHeart } from '../../plugins/heart.js';
import { goneProblem, stuckProblem } from '../../plugins/stopped.js';
import { type Done, type Task, failedBy } from '../cells/do-cell.js';

/** Loading may take so long at least. */
const LOAD_S = 60;
const SCRIPT = new URL('./code-worker.js', import.meta.url);

export class CodeThread {
  private worker: Worker | null = null;
  private readonly job: CodeJob;
  /** Takes the answer of the cell under way. */
  private answer: ((done: Done) => void) | null = null;
  private doors: readonly string[] = [];

  constructor(codes: readonly Code[], limit_s: number) {
    this.job = codeJob(codes, limit_s);
    process.on('exit', () => killLeft(this.job.shared));
  }

  /**
   * Loads the code, which is given more time than a step: how long it takes is a matter of the computer.
   *
   * @throws {Error} in words, when it is no logic
   */
  async load(): Promise<void> {
    if (this.worker !== null) return;
    this.worker = this.start();
    const loaded = await this.asked(this.worker, Math.max(LOAD_S, this.job.limit_s));
    if ('failed' in loaded) {
      await this.end();
      throw new Error(loaded.failed);
    }
  }

  /** One cell at a time. */
  async run(task: Task): Promise<Done> {
    this.doors = task.design.doors.map(({ name }) => name);
    await this.load();
    const worker = this.worker!;
    worker.postMessage(task);
    return this.asked(worker, this.job.limit_s);
  }

  async end(): Promise<void> {
    const { worker } = this;
    this.worker = null;
    await worker?.terminate();
    killLeft(this.job.shared);
  }

  /** What the thread answers next; how it ended, if it does not. */
  private async asked(worker: Worker, limit_s: number): Promise<Done> {
    const { job } = this;
    const answered = new Promise<Done>((resolve) => (this.answer = resolve));
    const unwatch = watchHeart(job.shared, limit_s, (place) => {
      this.over(worker, stuckProblem(job, this.doors, place));
      void worker.terminate();
    });
    try {
      return await answered;
    } finally {
      unwatch();
    }
  }

  private start(): Worker {
    const { job } = this;
    // What a module prints is no result.
    const worker = new Worker(SCRIPT, { workerData: job, stdout: true, stderr: true });
    let fault: unknown;
    worker.on('message', (done: Done) => this.answer?.(done));
    worker.on('error', (error) => (fault = error));
    worker.on('exit', () => {
      const gone = goneProblem(job, this.doors, fault);
      this.over(worker, gone ?? { message: `its thread ended${fault instanceof Error ? `: ${fault.message}` : ''}` });
    });
    return worker;
  }

  /** The thread is of no more use: the cell under way has failed, the next one gets a new thread. */
  private over(worker: Worker, problem: Parameters<typeof failedBy>[0]): void {
    if (this.worker !== worker) return;
    this.worker = null;
    killLeft(this.job.shared);
    this.answer?.(failedBy(problem));
    this.answer = null;
  }
}
