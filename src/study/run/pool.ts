/** Cells on all cores of this machine, by a pool of worker threads. */
import process from 'node:process';
import { Piscina } from 'piscina';
import type { Code } from '../../plugins/code.js';
import type { Done, Task } from '../cells/do-cell.js';
import type { Executor } from './executor.js';

const WORKER = new URL('./pool-worker.js', import.meta.url).href;
/**
 * Where Node can take such a module by `require`, the pool does, and a thread that is stopped just then ends the whole process
 * (seen with Node 20.20.2: "IsGraphAsync must be used on an instantiated module"). By `import` it ends alone.
 */
const BY_IMPORT = '--no-experimental-require-module';
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
    ...(process.allowedNodeEnvironmentFlags.has(BY_IMPORT) && { execArgv: [BY_IMPORT] }),
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
