/** `jambeam check` of a study: how many designs, how long, how big, before a night is spent on it. */
import { short } from '../../engine/printable.js';
import { effortOf } from '../../effort/effort.js';
import { unflat } from '../../study/cells/cell.js';
import { type Done, withLesson } from '../../study/cells/do-cell.js';
import { doorTable, houseTable } from '../../study/columns.js';
import type { PlannedDesign, StudyPlan } from '../../study/plan/plan.js';
import { openPool } from '../../study/run/pool.js';
import { effortIn } from '../../study/summary.js';
import type { Io } from '../io.js';
import { jsonText } from '../io.js';
import type { LogicOptions } from '../logic-options.js';
import { durationText } from '../progress.js';
import { printCautions } from '../scenario-file.js';
import { loadStudy } from './study-file.js';
import { workersOf } from './options.js';

/** Designs that are tried, spread over the study. */
const TRIED = 5;

interface Trial {
  /** Seconds a cell takes, on average over the designs tried; the first of all, which warms up, apart. */
  readonly cell_s: number;
  readonly passages: number;
  readonly journal_bytes: number;
  readonly csv_bytes: number;
  readonly failed: readonly { readonly design: number; readonly error: string }[];
}

export async function checkStudyCommand(
  file: string,
  options: LogicOptions & { readonly json?: boolean },
  io: Io,
): Promise<void> {
  const { plan, code, cautions } = loadStudy(file, options);
  printCautions(cautions, io);
  const pool = openPool({ workers: 1, ...(code && { codes: code.codes, limit_s: code.limit_s }) });
  try {
    const trial = await tryOut(plan, async (planned) => {
      const design = plan.design(planned);
      const lesson = planned.learns ? await pool.run({ key: planned.key, design, replicate: 0 }) : null;
      const taught = withLesson(design, lesson && 'lesson' in lesson ? lesson.lesson : null);
      const began = performance.now();
      const done = await pool.run({ key: planned.key, design: taught, replicate: 1 });
      return { done, seconds: (performance.now() - began) / 1000 };
    });
    const workers = workersOf(undefined);
    const cells = plan.designs.length * plan.stopping.most;
    io.out(options.json === true ? jsonText(dataOf(plan, trial, cells)) : textOf(plan, trial, cells, workers));
  } finally {
    await pool.close();
  }
}

async function tryOut(
  plan: StudyPlan,
  cell: (planned: PlannedDesign) => Promise<{ done: Done; seconds: number }>,
): Promise<Trial> {
  const { designs } = plan;
  const count = Math.min(TRIED, designs.length);
  const tried = Array.from(
    { length: count },
    (_, i) => designs[Math.floor((i * (designs.length - 1)) / Math.max(1, count - 1))]!,
  );
  // Threads, tables of gaits and compiled code come with the first one.
  await cell(tried[0]!);
  let seconds = 0;
  let passages = 0;
  let journal = 0;
  let csv = 0;
  const failed: { design: number; error: string }[] = [];
  for (const planned of tried) {
    const { done, seconds: took } = await cell(planned);
    if ('failed' in done) failed.push({ design: planned.number, error: done.failed });
    if (!('cell' in done)) continue;
    seconds += took;
    const counts = unflat(done.cell, planned.shape);
    passages += counts.doors.reduce((sum, logics) => sum + logics[0]!.total.visits, 0);
    journal += JSON.stringify(done.cell).length + 60;
    const effort = effortIn(effortOf(plan.design(planned)));
    for (const table of [houseTable(plan), doorTable(plan)])
      for (const row of table.rows(planned, 1, counts, effort)) csv += row.join(',').length + 1;
  }
  const whole = Math.max(1, tried.length - failed.length);
  return {
    cell_s: seconds / whole,
    passages: passages / whole,
    journal_bytes: journal / whole,
    csv_bytes: csv / whole,
    failed,
  };
}

function textOf(plan: StudyPlan, trial: Trial, cells: number, workers: number): string {
  const { factors, designs, left_out, stopping, unpaired, study } = plan;
  const { until } = stopping;
  const atMost = until ? 'at most ' : '';
  const crowds = new Set(designs.map(({ crowd }) => crowd)).size;
  const lines = [
    `${study.name}: ${designs.length} designs${left_out > 0 ? `, ${left_out} combinations left out by conditions` : ''}`,
    ...factors.map(
      ({ name, levels, keys }, f) =>
        `  ${name}: ${levels.map(({ label }) => label).join(', ')}  (${keys.join(', ') || 'nothing'})${unpaired[f] ? '; it changes the crowd itself: unpaired' : ''}`,
    ),
    crowds === 1
      ? 'All designs meet the same crowds, replicate by replicate: differences are paired.'
      : `The designs meet ${crowds} different crowds: differences are paired only between designs of one crowd.`,
    until
      ? `Replicates: from ${until.at_least} in steps of ${until.batch}, until half of the interval of ${until.until} is at most ${short(until.half_width)}, at most ${stopping.most}${until.most_passages === undefined ? '' : ` or ${until.most_passages} passages`}.`
      : `Replicates: ${stopping.fixed} of each design.`,
    '',
    `Measured on ${Math.min(TRIED, designs.length)} designs: ${short(trial.cell_s * 1000, 2)} ms a replicate, ${Math.round(trial.passages)} passages in it.`,
    `In all ${atMost}${cells} replicates: ${atMost}${durationText((trial.cell_s * cells) / workers)} on ${workers} cores.`,
    `Results: ${atMost}${megabytes(trial.csv_bytes * cells)} of CSV, about a third of it as Parquet; the journal ${atMost}${megabytes(trial.journal_bytes * cells)}.`,
    ...trial.failed.map(({ design, error }) => `Design ${design} fails: ${error}`),
    '',
  ];
  return lines.join('\n');
}

function dataOf({ designs, left_out, factors, unpaired }: StudyPlan, trial: Trial, cells: number): object {
  return {
    designs: designs.length,
    left_out,
    factors: factors.map(({ name, keys, levels }, f) => ({
      name,
      keys,
      levels: levels.map(({ label }) => label),
      unpaired: unpaired[f],
    })),
    most_cells: cells,
    cell_s: trial.cell_s,
    passages_a_cell: trial.passages,
    most_csv_bytes: Math.round(trial.csv_bytes * cells),
    most_journal_bytes: Math.round(trial.journal_bytes * cells),
    failed: trial.failed,
  };
}

function megabytes(bytes: number): string {
  return `${short(Math.max(0.1, bytes / 1e6), 2)} MB`;
}
