/** `jambeam run`: a scenario to a folder of results. */
import { basename, extname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { summaryText } from '../report/summary.js';
import type { Design } from '../scenario/schema.js';
import type { Io } from './io.js';
import { jsonText } from './io.js';
import { OutFolder } from './out-folder.js';
import { UserProblem, pathText } from './problem.js';
import { startProgress } from './progress.js';
import { RUN_FOLDER } from './run-folder.js';
import type { ExtentOptions } from './run-options.js';
import { setsOf } from './run-options.js';
import type { RunJob, RunMessage, RunResult } from './run-worker.js';
import { loadScenario, printCautions } from './scenario-file.js';
import { onSignal } from './signals.js';

export interface RunOptions extends ExtentOptions {
  readonly out?: string;
  readonly edges?: boolean;
  readonly json?: boolean;
  readonly force?: boolean;
}

export async function runCommand(file: string, options: RunOptions, io: Io): Promise<void> {
  const { sets, issues } = setsOf(options);
  const { design, cautions } = loadScenario(file, sets, issues);
  printCautions(cautions, io);
  const out = options.out ?? `${basename(file, extname(file))}.run`;
  const folder = OutFolder.open(RUN_FOLDER, out, { scenarioFile: file }, options.force === true);
  for (const left of folder.leftovers)
    io.err(`note: ${pathText(left)} was left by a run that was killed; delete it when no run is going on\n`);
  const forget = onSignal(() => {
    folder.discard();
    io.err('stopped; nothing was written\n');
  });
  let result: RunResult;
  try {
    const job = { folder: folder.unfinished, what: `${pathText(out)} can't be written`, edges: options.edges === true };
    result = await simulateInWorker({ design, ...job }, io);
    folder.finish();
  } catch (error) {
    folder.discard();
    throw error;
  } finally {
    forget();
  }
  io.out(options.json === true ? jsonText(result.metrics) : summary(design, result, out, io));
}

function summary(design: Design, { metrics, activity }: RunResult, out: string, io: Io): string {
  const report = io.paint.bold(pathText(join(out, 'report.html')));
  return `${summaryText(design, metrics, { colour: io.colour, activity })}\nThe report: ${report} (open it in a browser)\n`;
}

/** Runs the job on a thread of its own; rejects with a user's problem, or with what went wrong with us. */
async function simulateInWorker(job: RunJob, io: Io): Promise<RunResult> {
  const worker = new Worker(new URL('./run-worker.js', import.meta.url), {
    workerData: job,
    // Short-lived rows need no large nursery; a small one keeps memory flat without costing time.
    resourceLimits: { maxYoungGenerationSizeMb: 8 },
  });
  const progress = startProgress(job.design.replicates, io);
  let stopped = false;
  const forget = onSignal(async () => {
    stopped = true;
    progress.stop();
    await worker.terminate();
  });
  try {
    return await new Promise<RunResult>((resolve, reject) => {
      worker.on('message', (message: RunMessage) => {
        if (message.kind === 'progress') progress.update(message.done);
        else if (message.kind === 'done') resolve(message);
        else if (message.kind === 'refused') reject(new UserProblem(message.message));
        else reject(Object.assign(new Error(message.message), { stack: message.stack }));
      });
      worker.on('error', reject);
      // After a signal nobody waits for an answer any more: the process is about to end.
      worker.on('exit', () => stopped || reject(new Error('the simulation ended without a result')));
    });
  } finally {
    progress.stop();
    forget();
  }
}
