/** How long somebody waits who types a command: a process from its start to its end. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { check } from './check.js';
import type { Measured } from './measured.js';
import { timed } from './measured.js';

/** @param root the checkout whose command line is started */
export function help(root: string, repeats: number): Measured {
  return { label: '--help', units: 1, ...timed(repeats, () => check(start(root, '--help') > 500, 'no help')) };
}

/** The starter scenario to its finished report. */
export function starterRun(root: string, repeats: number): Measured {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  const out = join(folder, 'starter.run');
  const times = timed(repeats, () => {
    start(root, 'run', join(root, 'scenarios/starter.yaml'), '--out', out);
    check(existsSync(join(out, 'report.html')), 'no report');
  });
  rmSync(folder, { recursive: true });
  return { label: 'starter scenario to finished report', units: 1, ...times };
}

/** The guesthouse with sensors of a kind, 20 replicates of a week, to its finished report; once. */
export function houseRun(root: string, sensor: string): Measured {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  const out = join(folder, 'house.run');
  const before = performance.now();
  start(
    root,
    'run',
    join(root, 'scenarios/guesthouse.yaml'),
    '--days',
    '7',
    '--replicates',
    '20',
    '--set',
    `doors.*.beams.*.sensor=${sensor}`,
    '--out',
    out,
  );
  const seconds = [(performance.now() - before) / 1000];
  check(existsSync(join(out, 'report.html')), 'no report');
  rmSync(folder, { recursive: true });
  return { label: `guesthouse, ${sensor}`, units: 20, seconds, cpu_s: seconds };
}

/** @returns how many characters it said */
function start(root: string, ...args: readonly string[]): number {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'bin/jambeam.js'), ...args], {
    encoding: 'utf8',
  });
  check(status === 0, `exit code ${status}: ${stderr}`);
  return stdout.length;
}
