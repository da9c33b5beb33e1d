/**
 * The worker thread of a run: simulates and writes all files into the unfinished folder. On a thread of its own, so
 * that the main thread can hear Ctrl-C and draw progress while this one computes.
 */
import { join } from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import { renderReport } from '../report/report.js';
import { serialiseDesign } from '../scenario/design-json.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';
import { calibrated } from '../simulate/calibration.js';
import { simulate } from '../simulate/simulate.js';
import { allFigures } from '../simulate/sources.js';
import { VERSION } from '../simulate/version.js';
import { openEventFiles } from './event-files.js';
import { writeNew } from './files.js';
import { UserProblem, onDisk } from './problem.js';

export interface RunJob {
  readonly design: Design;
  readonly folder: string;
  /** What a refusal of the disk begins with. */
  readonly what: string;
  readonly edges: boolean;
}

/** What the summary is made from. */
export interface RunResult {
  readonly metrics: Metrics;
  readonly activity: Figures['activity'];
}

export type RunMessage =
  | { readonly kind: 'progress'; readonly done: number }
  | ({ readonly kind: 'done' } & RunResult)
  | { readonly kind: 'refused'; readonly message: string }
  | { readonly kind: 'failed'; readonly message: string; readonly stack: string };

const PROGRESS_EVERY_MS = 100;

async function run({ design: given, folder, edges }: RunJob, tell: (message: RunMessage) => void): Promise<RunResult> {
  tell({ kind: 'progress', done: 0 });
  // What is learnt before the run belongs to the design: design.json holds it.
  const design = calibrated(given);
  const files = openEventFiles(folder, design, edges);
  let told = performance.now();
  const { metrics, figures } = simulate(design, {
    ...files.sinks,
    progress(done) {
      if (performance.now() - told < PROGRESS_EVERY_MS) return;
      told = performance.now();
      tell({ kind: 'progress', done });
    },
  });
  files.close();
  const report = await renderReport({ design, metrics, figures, sources: allFigures(), version: VERSION });
  writeNew(join(folder, 'design.json'), serialiseDesign(design));
  writeNew(join(folder, 'metrics.json'), `${JSON.stringify(metrics, null, 2)}\n`);
  writeNew(join(folder, 'figures.json'), `${JSON.stringify(figures)}\n`);
  writeNew(join(folder, 'report.html'), report);
  return { metrics, activity: figures.activity };
}

if (parentPort) {
  const port = parentPort;
  const tell = (message: RunMessage): void => port.postMessage(message);
  const job = workerData as RunJob;
  try {
    tell({ kind: 'done', ...(await run(job, tell)) });
  } catch (error) {
    tell(failureOf(error, job.what));
  }
}

function failureOf(error: unknown, what: string): RunMessage {
  try {
    onDisk(what, () => {
      throw error;
    });
  } catch (problem) {
    if (problem instanceof UserProblem) return { kind: 'refused', message: problem.message };
  }
  const { message, stack = '' } = error instanceof Error ? error : new Error(String(error));
  return { kind: 'failed', message, stack };
}
