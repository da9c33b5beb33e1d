/**
 * The worker thread of a run: simulates and writes all files into the unfinished folder. On a thread of its own, so
 * that the main thread can hear Ctrl-C and draw progress while this one computes.
 */
import { join } from 'node:path';
import type { OpenCode } from '../plugins/open-code.js';
import { serialiseDesign } from '../scenario/design-json.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';
import { calibrated } from '../simulate/calibration.js';
import { simulate } from '../simulate/simulate.js';
import { openEventFiles } from './event-files.js';
import { writeNew } from './files.js';
import { writeScored } from './scored-files.js';
import { type Tell, type WorkerJob, answerParent } from './worker-port.js';

export interface RunJob extends WorkerJob {
  readonly design: Design;
  readonly folder: string;
  readonly edges: boolean;
  /** Whether the report is a page without any script. */
  readonly static: boolean;
}

/** What the summary is made from. */
export interface RunResult {
  readonly metrics: Metrics;
  readonly activity: Figures['activity'];
}

const PROGRESS_EVERY_MS = 100;

async function run(job: RunJob, code: OpenCode | null, tell: Tell): Promise<RunResult> {
  const { design: given, folder, edges } = job;
  tell(0);
  // What is learnt before the run belongs to the design: design.json holds it, and which code it was.
  const design = calibrated(code ? recorded(given, code) : given, code?.outside);
  const files = openEventFiles(folder, design, edges);
  let told = performance.now();
  const sinks = {
    ...files.sinks,
    progress(done: number) {
      if (performance.now() - told < PROGRESS_EVERY_MS) return;
      told = performance.now();
      tell(done);
    },
  };
  const { metrics, figures } = simulate(design, sinks, code?.outside);
  files.close();
  writeNew(join(folder, 'design.json'), serialiseDesign(design));
  await writeScored(folder, { design, metrics, figures }, job.static);
  return { metrics, activity: figures.activity };
}

/** The design says which code it was. */
function recorded(design: Design, code: OpenCode): Design {
  const logics = design.logics.map((logic) =>
    logic.use === 'module' || logic.use === 'process' ? { ...logic, ...code.recorded.get(logic.name) } : logic,
  );
  return { ...design, logics };
}

await answerParent(run);
