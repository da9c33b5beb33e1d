/** The thread beneath a pool's thread: opens the code once, says that it is ready or why not, does cells as they are asked for. */
import { parentPort, workerData } from 'node:worker_threads';
import type { CodeJob } from '../../plugins/code.js';
import { codeProblemOf, openCode } from '../../plugins/open-code.js';
import type { Done, Task } from '../cells/do-cell.js';
import { doCell, failedBy, failedOurselves } from '../cells/do-cell.js';

const job = workerData as CodeJob;

try {
  const code = await openCode(job);
  parentPort?.on('message', (task: Task) => parentPort?.postMessage(done(task, code)));
  parentPort?.postMessage({ lesson: {} } satisfies Done);
} catch (error) {
  parentPort?.postMessage(faultOf(error));
}

function done(task: Task, code: Awaited<ReturnType<typeof openCode>>): Done {
  try {
    return doCell(task, code.outside);
  } catch (error) {
    return faultOf(error);
  }
}

function faultOf(error: unknown): Done {
  const problem = codeProblemOf(error, job.codes);
  return problem ? failedBy(problem) : failedOurselves(error);
}
