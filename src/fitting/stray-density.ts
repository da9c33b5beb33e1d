/** Where strays come from, as a density over readings: evenly from anywhere in the range of the bench. */
import type { Group } from './bench.js';

/** Length of what readings span: strays are taken to lie evenly in it. */
export function rangeOf(groups: readonly Group[]): number {
  return spanOf(groups.flatMap(({ values }) => values)).length;
}

function spanOf(values: readonly number[]): { readonly least: number; readonly length: number } {
  let [least, most] = [Infinity, -Infinity];
  for (const x of values) [least, most] = [Math.min(least, x), Math.max(most, x)];
  return { least, length: Math.max(most - least, 1e-9) };
}

/** Density of voltages of strays that lie evenly in distance, between the nearest and furthest that readings stand for. */
export function evenInDistance(groups: readonly Group[], parameters: readonly number[]): (volts: number) => number {
  const [gain = 0, offset = 0, base = 0] = parameters;
  const furthest = groups.at(-1)!.distance_m;
  // Near the base any voltage stands for any distance; not all of them are in the range.
  const limit = gain / (1.5 * furthest + offset);
  const distance = (volts: number) => gain / Math.max(volts - base, limit) - offset;
  const { least, length } = spanOf(groups.flatMap(({ values }) => values.map(distance)));
  return (volts) => {
    const d = Math.max(distance(volts), least);
    return ((d + offset) * (d + offset)) / Math.abs(gain) / length;
  };
}
