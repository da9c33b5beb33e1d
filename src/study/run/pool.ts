/** Cells on all cores of this machine, by a pool of worker threads. */
import { Piscina } from 'piscina';
import type { Code } from '../../plugins/code.js';
import type { Done, Task } from '../cells/do-cell.js';
import type { Executor } from './executor.js';

const WORKER = new URL('./pool-worker.js', import.meta.url).href;
/** A thread that ends three times over one cell ends because of it. */
const TRIES = 3;
/** Enough that no thread waits for its next cell. */
const AHEAD = 2;

/** What a thread gets. */
export interface PoolTask extends Task {
  readonly codes: readonly Code[];
  readonly limit_s: number;
}

export interface PoolOptions {
  readonly workers: number;
  /** Code of the user's own. */
  readonly codes?: readonly Code[];
  readonly limit_s?: number;
}

export function openPool({ workers, codes = [], limit_s = 10 }: PoolOptions): Executor {
  const pool = new Piscina({
    filename: WORKER,
    minThreads: workers,
    maxThreads: workers,
    idleTimeout: Infinity,
  });
  pool.on('error', () => undefined);
  const run = async (task: Task): Promise<Done> => {
    for (let tries = 1; ; tries++) {
      try {
        return (await pool.run({ ...task, codes, limit_s } satisfies PoolTask)) as Done;
      } catch (error) {
        const { message } = error as Error;
        if (tries === TRIES) return { failed: `its thread ended ${TRIES} times: ${message}` };
      }
    }
  };
  return { room: workers * AHEAD, run, close: () => pool.destroy() };
}
