/**
 * The cheapest design that surely meets what is wanted. Bounds hold at once for all designs that were tested, for all that is
 * wanted, and for all looks after which a design might have stopped: with 95 % confidence none that is picked fails.
 */
import { chiSquareQuantile, tQuantile } from '../../engine/distribution-functions.js';
import { LEVEL, jackknifeError } from '../../score/jackknife.js';
import type { Measure, Ratio } from './measure.js';
import { sampleOf } from './samples.js';

export interface Want {
  /** Path in metrics.json. */
  readonly metric: string;
  readonly is: '<' | '<=' | '>' | '>=';
  readonly limit: number;
}

/** `house.wrong_per_100 < 3`; null when it is none. */
export function wantOf(text: string): Want | null {
  const [, metric, is, number] = /^\s*(\S+?)\s*(<=?|>=?)\s*(-?\d+(?:\.\d+)?(?:e-?\d+)?)\s*$/.exec(text) ?? [];
  return metric === undefined ? null : { metric, is: is as Want['is'], limit: Number(number) };
}

/**
 * How bad the true value may be: the end of a one-sided interval that fails with probability `alpha`.
 *
 * Where events are counted it is the farther one of the jackknife's and the exact one of a Poisson count (F. Garwood,
 * "Fiducial limits for the Poisson distribution", Biometrika 28, 1936, 437–442): few events hide how much replicates differ,
 * and no crowd's counts differ less than independent ones.
 *
 * @returns null where nothing can be said
 */
export function bound(
  ratios: readonly Ratio[],
  measure: Pick<Measure, 'options'>,
  side: 'upper' | 'lower',
  alpha: number,
): number | null {
  const { scale = 1, signed = false, counted = !signed, max = Infinity } = measure.options;
  const sample = ratios.length < 2 ? null : sampleOf(ratios, measure);
  if (sample === null) return null;
  const half = tQuantile(1 - alpha, ratios.length - 1) * jackknifeError(sample.without);
  const sign = side === 'upper' ? 1 : -1;
  const ends = [sample.value + sign * half];
  if (counted) {
    const events = ratios.reduce((sum, one) => sum + one.events, 0);
    const exposure = ratios.reduce((sum, one) => sum + one.exposure, 0);
    const count =
      side === 'upper'
        ? chiSquareQuantile(1 - alpha, 2 * events + 2) / 2
        : events === 0
          ? 0
          : chiSquareQuantile(alpha, 2 * events) / 2;
    ends.push((scale * count) / exposure);
  } else if (half === 0) return null;
  const end = side === 'upper' ? Math.max(...ends) : Math.min(...ends);
  return Math.min(max, signed ? end : Math.max(0, end));
}

/** How often one bound of so many may fail, so that all of them hold together: Bonferroni's inequality. */
export function alphaOf(designs: number, wants: number, looks: number): number {
  return (1 - LEVEL) / (designs * wants * looks);
}

export function meets({ is, limit }: Want, end: number | null): boolean {
  if (end === null) return false;
  if (is === '<') return end < limit;
  if (is === '<=') return end <= limit;
  return is === '>' ? end > limit : end >= limit;
}

export function sideOf({ is }: Want): 'upper' | 'lower' {
  return is.startsWith('<') ? 'upper' : 'lower';
}
