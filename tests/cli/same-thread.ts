/**
 * Lets a command do on this very thread what it gives to a thread of its own. A new thread reads every module anew and
 * begins with cold code, which is four fifths of a short run. Threads themselves are for tests that start processes;
 * code of a user's own, which may have to be ended, gets its thread here too.
 */
import { EventEmitter } from 'node:events';
import { syncBuiltinESMExports } from 'node:module';
import threads from 'node:worker_threads';
import type { WorkerJob } from '../../src/cli/worker-port.js';

type Options = threads.WorkerOptions & { workerData?: unknown };

const { Worker } = threads;
/** Modules of the workers' own are read once per job; what they import stays. */
let jobs = 0;

/** The scripts that are given one job, and end with it. */
const JOB = /\/dist\/cli\/(?:\w[\w-]*-worker|replay\/worker)\.js$/;

/** Does something while jobs of commands stay on this thread. One at a time: it changes what modules import. */
export async function onSameThread<T>(work: () => Promise<T>): Promise<T> {
  const here = function (script: string | URL, options: Options): unknown {
    const stays = JOB.test(String(script)) && (options.workerData as WorkerJob).code === null;
    return stays ? new Here(String(script), options.workerData) : new Worker(script, options);
  };
  change({ Worker: here as unknown as typeof Worker });
  try {
    return await work();
  } finally {
    change({ Worker });
  }
}

function change(parts: Partial<typeof threads>): void {
  Object.assign(threads, parts);
  syncBuiltinESMExports();
}

/** What stands in for a thread: messages go both ways as copies, and arrive later, as they do between threads. */
class Here extends EventEmitter {
  constructor(script: string, job: unknown) {
    super();
    void this.run(`${script}?job=${jobs++}`, structuredClone(job));
  }

  async terminate(): Promise<number> {
    throw new Error('a job on this thread cannot be ended');
  }

  private async run(script: string, job: unknown): Promise<void> {
    const { parentPort, workerData } = threads;
    const port = { postMessage: (message: unknown) => this.later('message', structuredClone(message)) };
    change({ parentPort: port as threads.MessagePort, workerData: job });
    try {
      await import(/* @vite-ignore */ script);
    } catch (error) {
      this.later('error', error);
    } finally {
      change({ parentPort, workerData });
      this.later('exit', 0);
    }
  }

  private later(event: string, value: unknown): void {
    setImmediate(() => this.emit(event, value));
  }
}
