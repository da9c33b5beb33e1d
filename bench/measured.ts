/** What a measurement gives, as JSON from the process that took it. */

export interface Measured {
  readonly label: string;
  /** Passages (or whatever is counted) in one repeat. */
  readonly units: number;
  /** Wall-clock time of each repeat, seconds. */
  readonly seconds: readonly number[];
  /** Most memory the process held, MB. */
  readonly peak_mb?: number;
}

/** Times `work` so many times, after one run to warm up. */
export function timed(repeats: number, work: () => unknown): number[] {
  work();
  return Array.from({ length: repeats }, () => {
    const start = performance.now();
    work();
    return (performance.now() - start) / 1000;
  });
}

export function least(all: readonly number[]): number {
  return Math.min(...all);
}

export function median(all: readonly number[]): number {
  const sorted = all.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
