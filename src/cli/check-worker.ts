/** The worker thread of `check` with code of the user's own. */
import type { Design } from '../scenario/schema.js';
import { type Findings, findingsOf } from './check-findings.js';
import { type WorkerJob, answerParent } from './worker-port.js';

export interface CheckJob extends WorkerJob {
  readonly design: Design;
}

await answerParent(async ({ design }: CheckJob, code): Promise<Findings> => findingsOf(design, code?.outside));
