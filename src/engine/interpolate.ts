/** Between two places: straight lines between the rows of a table, and the smooth way from rest to rest. */

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

/** From rest to rest (smoothstep): share of the way at a share `t` of the time; at its fastest 1.5 times the mean. */
export function smoothstep(t: number): number {
  return t * t * (3 - 2 * t);
}

/** Up from rest and down to rest: height at a share `t` of the time, `most` in the middle. */
export function hump(most: number, t: number): number {
  return most * 16 * t * t * (1 - t) * (1 - t);
}
