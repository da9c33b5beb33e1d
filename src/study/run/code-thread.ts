/**
 * Cells whose logics are code of the user's own, on a thread that can be ended: a step that never returns, or that ends the
 * process, costs one design and not the study.
 */
import { Worker } from 'node:worker_threads';
import { type Code, codeJob } from '../../plugins/code.js';
import { killLeft, watchHeart } from '../../plugins/heart.js';
import { goneProblem, stuckProblem } from '../../plugins/stopped.js';
import type { Done, Task } from '../cells/do-cell.js';

const SCRIPT = new URL('./code-worker.js', import.meta.url);

export class CodeThread {
  private worker: Worker | null = null;
  private readonly job;

  constructor(codes: readonly Code[], limit_s: number) {
    this.job = codeJob(codes, limit_s);
    process.on('exit', () => killLeft(this.job.shared));
  }

  async run(task: Task): Promise<Done> {
    const worker = (this.worker ??= this.start());
    const { job } = this;
    const doors = task.design.doors.map(({ name }) => name);
    let unwatch = (): void => undefined;
    try {
      return await new Promise<Done>((resolve) => {
        const over = (problem: { message: string; hint?: string | undefined }): void => {
          this.worker = null;
          void worker.terminate();
          killLeft(job.shared);
          resolve({ failed: problem.hint === undefined ? problem.message : `${problem.message}; ${problem.hint}` });
        };
        unwatch = watchHeart(job.shared, job.limit_s, (place) => over(stuckProblem(job, doors, place)));
        let fault: unknown;
        worker.once('message', (done: Done) => resolve(done));
        worker.once('error', (error) => (fault = error));
        worker.once('exit', () =>
          over(goneProblem(job, doors, fault) ?? { message: `its thread ended: ${String(fault)}` }),
        );
        worker.postMessage(task);
      });
    } finally {
      unwatch();
      worker.removeAllListeners();
    }
  }

  private start(): Worker {
    // What a module prints is no result.
    const worker = new Worker(SCRIPT, { workerData: this.job, stdout: true, stderr: true });
    worker.unref();
    return worker;
  }
}
