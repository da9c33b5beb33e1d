/** Peak memory of a process that simulates so many passages of the default mix and writes their rows. */
import { check } from './check.js';
import { crowdNamed, designOf } from './crowds.js';
import type { Measured } from './measured.js';
import { run } from './pipeline.js';

export function memory(passages: number): Measured[] {
  const start = performance.now();
  const cpu = process.cpuUsage();
  run(designOf(crowdNamed('default mix'), passages), ({ house }) =>
    check(Math.abs(house.visits / passages - 1) < 0.1, `${house.visits} visits instead of about ${passages}`),
  );
  const seconds = [(performance.now() - start) / 1000];
  const { user, system } = process.cpuUsage(cpu);
  const cpu_s = [(user + system) / 1e6];
  return [{ label: 'memory', units: passages, seconds, cpu_s, peak_mb: process.resourceUsage().maxRSS / 1024 }];
}
