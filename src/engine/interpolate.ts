/** Straight lines between the rows of a table. */

/**
 * Value at `x` of the polyline through (`xs[i]`, `ys[i]`); before the first and after the last row their value holds.
 * `xs` rises strictly and is short: the search is linear.
 */
export function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  const last = xs.length - 1;
  if (!(x > (xs[0] as number))) return ys[0] as number;
  if (x >= (xs[last] as number)) return ys[last] as number;
  let i = 1;
  while ((xs[i] as number) <= x) i++;
  const x0 = xs[i - 1] as number;
  const y0 = ys[i - 1] as number;
  return y0 + (((ys[i] as number) - y0) * (x - x0)) / ((xs[i] as number) - x0);
}
