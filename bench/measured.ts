/** What a measurement gives, as JSON from the process that took it. */

export interface Measured {
  readonly label: string;
  /** Passages (or whatever is counted) in one repeat. */
  readonly units: number;
  /** Time by the clock of each repeat, seconds. */
  readonly seconds: readonly number[];
  /** Processor time of each repeat, seconds, all threads of the process together: what a busy machine spoils least. */
  readonly cpu_s: readonly number[];
  /** Most memory the process held, MB. */
  readonly peak_mb?: number;
}

/** Times `work` so many times, after one run to warm up. */
export function timed(repeats: number, work: () => unknown): Pick<Measured, 'seconds' | 'cpu_s'> {
  work();
  const seconds: number[] = [];
  const cpu_s: number[] = [];
  for (let i = 0; i < repeats; i++) {
    const cpu = process.cpuUsage();
    const start = performance.now();
    work();
    seconds.push((performance.now() - start) / 1000);
    const { user, system } = process.cpuUsage(cpu);
    cpu_s.push((user + system) / 1e6);
  }
  return { seconds, cpu_s };
}

export function least(all: readonly number[]): number {
  return Math.min(...all);
}

export function median(all: readonly number[]): number {
  const sorted = all.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
