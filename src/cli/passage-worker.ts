/** The worker thread of `passage` with code of the user's own. */
import type { Design } from '../scenario/schema.js';
import type { PassageChoice } from '../simulate/traced.js';
import { tracePassage } from '../simulate/passage-trace.js';
import { type WorkerJob, answerParent } from './worker-port.js';

export interface PassageJob extends WorkerJob {
  readonly design: Design;
  readonly choice: PassageChoice;
}

await answerParent(async ({ design, choice }: PassageJob, code) => tracePassage(design, choice, code?.outside));
