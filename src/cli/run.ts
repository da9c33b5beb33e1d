/** `jambeam run`: a scenario to a folder of results. */
import { basename, extname, join } from 'node:path';
import { summaryText } from '../report/summary.js';
import { headed } from '../scenario/heading.js';
import { designSchema } from '../scenario/schema.js';
import { type HeadingOptions, headingOf } from './heading-options.js';
import { inWorker } from './in-worker.js';
import type { Io } from './io.js';
import { jsonText } from './io.js';
import type { LogicOptions } from './logic-options.js';
import { codeOf, givenLogics } from './logic-options.js';
import { OutFolder } from './out-folder.js';
import { pathText } from './problem.js';
import { startProgress } from './progress.js';
import { RUN_FOLDER } from './run-folder.js';
import type { ExtentOptions } from './run-options.js';
import { setsOf } from './run-options.js';
import type { RunJob, RunResult } from './run-worker.js';
import { loadScenario, printCautions } from './scenario-file.js';
import { onSignal } from './signals.js';

const RUN_WORKER = new URL('./run-worker.js', import.meta.url);

export interface RunOptions extends ExtentOptions, LogicOptions, HeadingOptions {
  readonly out?: string;
  readonly edges?: boolean;
  readonly json?: boolean;
  readonly force?: boolean;
  readonly static?: boolean;
}

export async function runCommand(file: string, options: RunOptions, io: Io): Promise<void> {
  const { sets, issues } = setsOf(options);
  const given = givenLogics(options);
  const { heading, issues: ofHeading } = headingOf(options);
  const { design: written, cautions } = loadScenario(file, sets, given, [...issues, ...ofHeading]);
  // In the schema's order, or the report's own scenario would not be that of a run of the report.
  const design = designSchema.parse(headed(written, heading));
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
    const what = `${pathText(out)} can't be written`;
    const code = codeOf(design, given);
    const job: RunJob = {
      design,
      code,
      folder: folder.unfinished,
      what,
      edges: options.edges === true,
      static: options.static === true,
    };
    const doors = design.doors.map(({ name }) => name);
    result = await inWorker(RUN_WORKER, job, { io, doors, progress: startProgress(design.replicates, io) });
    folder.finish();
  } catch (error) {
    folder.discard();
    throw error;
  } finally {
    forget();
  }
  const { metrics, activity } = result;
  if (options.json === true) return io.out(jsonText(metrics));
  const report = io.paint.bold(pathText(join(out, 'report.html')));
  io.out(
    `${summaryText(design, metrics, { colour: io.colour, activity })}\nThe report: ${report} (open it in a browser)\n`,
  );
}
