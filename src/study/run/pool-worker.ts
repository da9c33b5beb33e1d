/** A thread of the pool: does one cell after another. Code of the user's own runs in a thread of its own beneath it. */
import type { Done } from '../cells/do-cell.js';
import { doCell, failedOurselves } from '../cells/do-cell.js';
import { CodeThread } from './code-thread.js';
import type { PoolTask } from './pool.js';

let beneath: CodeThread | null = null;

export default async function work({ codes, limit_s, ...task }: PoolTask): Promise<Done> {
  if (codes.length > 0) {
    beneath ??= new CodeThread(codes, limit_s);
    return beneath.run(task);
  }
  try {
    return doCell(task);
  } catch (error) {
    return failedOurselves(error);
  }
}
