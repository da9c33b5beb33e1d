/** The guesthouse over a week or more: how long a replicate takes, and how much memory days cost. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openEventFiles } from '../src/cli/event-files.js';
import { formatIssue } from '../src/scenario/explain.js';
import { parseScenario } from '../src/scenario/parse.js';
import type { Design } from '../src/scenario/schema.js';
import { calibrated } from '../src/simulate/calibration.js';
import { runReplicate } from '../src/simulate/replicate.js';
import { check } from './check.js';
import type { Measured } from './measured.js';
import { timed } from './measured.js';

/** Replicates before the clock counts: the second is quicker than the first, the fifth than the second. */
const WARM_UP = 5;
/** Passages a day of the guesthouse, with room. */
const A_DAY = [300, 1200] as const;

/** From the folder of the build; the bench is started in the checkout. */
export function guesthouse(...sets: readonly string[]): Design {
  const { design, issues } = parseScenario(readFileSync('scenarios/guesthouse.yaml', 'utf8'), 'guesthouse.yaml', {
    sets,
  });
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

export function houseWeek(sensor: string, repeats: number): Measured[] {
  const design = calibrated(guesthouse(`doors.*.beams.*.sensor=${sensor}`, 'hours=168'));
  let number = 0;
  let passages = 0;
  const run = () => {
    passages = 0;
    runReplicate(design, ++number, { passage: () => passages++ });
    checkDays(passages, 7);
  };
  for (let i = 0; i < WARM_UP; i++) run();
  const times = timed(repeats, run);
  return [{ label: sensor, units: passages, ...times }];
}

export function houseMemory(days: number): Measured[] {
  const design = calibrated(guesthouse(`hours=${24 * days}`));
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  let passages = 0;
  const start = performance.now();
  try {
    const files = openEventFiles(folder, design, false);
    runReplicate(design, 1, {
      ...files.sinks,
      passage: (replicate, visit) => {
        passages++;
        files.sinks.passage?.(replicate, visit);
      },
    });
    files.close();
  } finally {
    rmSync(folder, { recursive: true });
  }
  checkDays(passages, days);
  const seconds = [(performance.now() - start) / 1000];
  return [
    { label: 'house memory', units: passages, seconds, cpu_s: seconds, peak_mb: process.resourceUsage().maxRSS / 1024 },
  ];
}

function checkDays(passages: number, days: number): void {
  const [least, most] = A_DAY;
  check(passages >= least * days && passages <= most * days, `${passages} passages in ${days} days`);
}
