/** Designs that no other beats: each alternative is worse in something. */
import type { StudyDesign, StudySummary } from '../summary-schema.js';

const COSTS = ['holes', 'cable_m', 'cost'] as const;

/**
 * @param value of the ranked metric, turned so that less is better
 * @returns the efforts that differ between designs, and the designs of the front in order of their numbers
 */
export function front(
  designs: readonly { readonly number: number; readonly value: number; readonly effort: StudyDesign['effort'] }[],
): StudySummary['front'] {
  const by = COSTS.filter((cost) => {
    const all = designs.map(({ effort }) => effort[cost]);
    return !all.includes(null) && new Set(all).size > 1;
  });
  const points = designs.map(({ number, value, effort }) => ({
    number,
    at: [value, ...by.map((cost) => effort[cost]!)],
  }));
  // Whoever beats another comes before it in this order, so each is held against those that stayed alone.
  const order = [...points].sort((a, b) => compare(a.at, b.at) || a.number - b.number);
  const stayed: typeof points = [];
  for (const point of order) if (!stayed.some((other) => beats(other.at, point.at))) stayed.push(point);
  return { by: [...by], designs: stayed.map(({ number }) => number).sort((a, b) => a - b) };
}

function compare(a: readonly number[], b: readonly number[]): number {
  const i = a.findIndex((one, at) => one !== b[at]);
  return i < 0 ? 0 : a[i]! - b[i]!;
}

function beats(a: readonly number[], b: readonly number[]): boolean {
  return a.every((one, i) => one <= b[i]!) && a.some((one, i) => one < b[i]!);
}
