/** Shares and percentiles of samples that stand for unequal parts of a mix. */

/** A share of those looked at, and how many they were. */
export interface Share {
  /** From 0 to 1. */
  readonly value: number;
  readonly n: number;
}

export interface Weighted<T> {
  readonly item: T;
  /** Share of the mix that this one stands for, over how many stand for it. */
  readonly weight: number;
}

/** Weighted share of those for whom `holds` is true; 0 of none. */
export function shareOf<T>(all: readonly Weighted<T>[], holds: (item: T) => boolean): Share {
  let yes = 0;
  let total = 0;
  for (const { item, weight } of all) {
    total += weight;
    if (holds(item)) yes += weight;
  }
  return { value: total > 0 ? yes / total : 0, n: all.length };
}

/** Weighted mean; 0 of none. */
export function meanOf<T>(all: readonly Weighted<T>[], value: (item: T) => number): number {
  let sum = 0;
  let total = 0;
  for (const { item, weight } of all) {
    sum += weight * value(item);
    total += weight;
  }
  return total > 0 ? sum / total : 0;
}

/**
 * Weighted percentiles: the smallest value that at least a share `p` of the weight does not exceed.
 *
 * @param ps shares from 0 to 1
 * @returns one value per share; null if there is nothing
 */
export function quantilesOf(values: readonly Weighted<number>[], ps: readonly number[]): number[] | null {
  if (values.length === 0) return null;
  const sorted = values.toSorted((a, b) => a.item - b.item);
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0);
  return ps.map((p) => {
    let below = 0;
    for (const { item, weight } of sorted) {
      below += weight;
      // A billionth of slack: the running sum of equal weights must reach p itself.
      if (below >= (p - 1e-9) * total) return item;
    }
    return (sorted[sorted.length - 1] as Weighted<number>).item;
  });
}
