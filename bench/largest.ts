/** The largest house that a scenario may hold, over a year: the command to its finished report, and its memory. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { check } from './check.js';
import { command } from './command.js';
import type { Measured } from './measured.js';

const DOORS = 50;
const BEAMS = 4;
/** Each door sees one party an hour go in and come out again. */
const ARRIVALS_PER_HOUR = 1;

export function largestHouse(root: string, days: number): Measured[] {
  const cwd = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  try {
    writeFileSync(join(cwd, 'house.yaml'), JSON.stringify(house(24 * days)));
    const { seconds, cpu_s, peak_mb } = command(root, cwd, 'run', 'house.yaml', '--out', 'house.run');
    check(existsSync(join(cwd, 'house.run/report.html')), 'no report');
    const metrics = JSON.parse(readFileSync(join(cwd, 'house.run/metrics.json'), 'utf8')) as {
      readonly house: { readonly visits: number };
    };
    const { visits } = metrics.house;
    const expected = 2 * DOORS * ARRIVALS_PER_HOUR * 24 * days * house(0).replicates;
    check(Math.abs(visits / expected - 1) < 0.1, `${visits} passages instead of about ${expected}`);
    return [{ label: `${days}`, units: visits, seconds: [seconds], cpu_s: [cpu_s], peak_mb }];
  } finally {
    rmSync(cwd, { recursive: true });
  }
}

function house(hours: number) {
  const numbers = Array.from({ length: DOORS }, (_, i) => i + 1);
  const beam = (name: string, at_m: number, height_m: number) => ({ name, sensor: 'light-barrier', at_m, height_m });
  const beams = [beam('A', -0.05, 0.45), beam('B', 0.05, 0.45), beam('C', -0.05, 1.15), beam('D', 0.05, 1.15)];
  check(beams.length === BEAMS, 'another number of beams');
  return {
    format: 1,
    name: 'largest',
    replicates: 2,
    hours,
    rooms: numbers.map((n) => ({ name: `room-${n}` })),
    doors: numbers.map((n) => ({
      name: `door-${n}`,
      from: 'outside',
      to: `room-${n}`,
      width_m: 0.9,
      beams,
      traffic: { arrivals_per_hour: ARRIVALS_PER_HOUR, mix: [{ who: 'adult', kind: 'through', share: 1 }] },
    })),
    logics: ['two-height'],
  };
}
