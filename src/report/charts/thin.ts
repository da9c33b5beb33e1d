/** Fewer points for a picture than a run has, without hiding its extremes. */

/** At most `most` indices out of `n`, evenly spread, first and last kept. */
export function thinned(n: number, most: number): number[] {
  if (n <= most) return Array.from({ length: n }, (_, i) => i);
  return Array.from({ length: most }, (_, i) => Math.round((i * (n - 1)) / (most - 1)));
}

/**
 * At most about `most` indices of steps: per stretch of steps the first, the last, and those where either series is
 * least and greatest.
 */
export function thinnedSteps(series: readonly (readonly number[])[], most: number): number[] {
  const n = series[0]?.length ?? 0;
  if (n <= most) return Array.from({ length: n }, (_, i) => i);
  const stretches = Math.max(1, Math.floor(most / (2 + 2 * series.length)));
  const keep = new Set<number>([0, n - 1]);
  for (let s = 0; s < stretches; s++) {
    const [from, to] = [Math.floor((s * n) / stretches), Math.floor(((s + 1) * n) / stretches) - 1];
    keep.add(from).add(to);
    for (const values of series) {
      let [least, greatest] = [from, from];
      for (let i = from; i <= to; i++) {
        if ((values[i] ?? 0) < (values[least] ?? 0)) least = i;
        if ((values[i] ?? 0) > (values[greatest] ?? 0)) greatest = i;
      }
      keep.add(least).add(greatest);
    }
  }
  return [...keep].sort((a, b) => a - b);
}
