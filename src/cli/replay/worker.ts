/** The worker thread of `replay` with code of the user's own. */
import { writeSync } from 'node:fs';
import { type WorkerJob, answerParent } from '../worker-port.js';
import { type ReplayJob, replayLog } from './job.js';
import { watchedLine } from './words.js';

export type ReplayWorkerJob = ReplayJob & WorkerJob;

await answerParent(async (job: ReplayWorkerJob, code) => {
  return replayLog(job, {
    outside: code?.outside,
    // Straight to standard output: what the worker prints otherwise goes to stderr with the code's own words.
    watched: (one) => void writeSync(1, watchedLine(one, job.design)),
  });
});
