/**
 * Designs ranked. Differences to the best hold for all pairs of designs at once, for it is chance, too, that says which one
 * is the best; and of the designs a set is kept that holds the truly best one with 95 % confidence:
 *
 *     i stays if θ̂ᵢ ≤ θ̂ⱼ + t(1 − α/(k − 1)) · S(i, j) for every j,
 *
 * which is subset selection by pairwise screening. Source: B. L. Nelson, J. Swann, D. Goldsman, W. Song, "Simple procedures
 * for selecting the best simulated system when the number of alternatives is large", Operations Research 49, 2001,
 * 950–963 (from memory; there for independent samples; with paired ones the same bound by Bonferroni's inequality).
 */
import { tQuantile } from '../../engine/distribution-functions.js';
import { LEVEL } from '../../score/jackknife.js';
import type { RankedDesign, StudyDesign } from '../summary-schema.js';
import { type Contrast, type Sample, contrast } from './samples.js';
import { holm, probability, simultaneous } from './simultaneous.js';

export interface Ranked {
  readonly number: number;
  readonly crowd: number;
  readonly effort: StudyDesign['effort'];
  readonly sample: Sample;
}

/** Of more designs not every pair is tested: then Bonferroni's bound, which is more careful, takes the place of Holm's. */
const MOST_PAIRWISE = 200;
/** So many of the best do the screening: fewer only keep more. */
const SCREENING = 50;

/** @param designs over the same replicates; the best first in the answer, of equals the cheaper, then the lower number */
export function rank(designs: readonly Ranked[], best: 'least' | 'most'): RankedDesign[] {
  const sign = best === 'least' ? 1 : -1;
  const order = [...designs].sort(
    (a, b) => sign * (a.sample.value - b.sample.value) || dearer(a, b) || a.number - b.number,
  );
  const [first] = order;
  if (!first) return [];
  const k = order.length;
  const pairs = (k * (k - 1)) / 2;
  const worse = (a: Ranked, b: Ranked): Contrast => {
    const one = contrast(a.sample, b.sample, a.crowd === b.crowd);
    return { ...one, value: sign * one.value + 0 };
  };
  const adjusted = adjustedP(order, worse, pairs);
  const replicates = first.sample.without.length;
  return order.map((design, i): RankedDesign => {
    const perhaps_best =
      replicates < 2 ||
      order.slice(0, SCREENING).every((other) => {
        if (other === design) return true;
        const { value, error, freedom } = worse(design, other);
        return value <= tQuantile(1 - (1 - LEVEL) / (k - 1), freedom) * error;
      });
    return {
      design: design.number,
      worse_than_best: i === 0 ? null : simultaneous(worse(design, first), pairs),
      paired: design.crowd === first.crowd,
      p: i === 0 ? null : adjusted[i]!,
      perhaps_best,
    };
  });
}

/** Positive where `a` costs more, or else takes more holes, or else more cable; what isn't known comes after what is. */
function dearer({ effort: a }: Ranked, { effort: b }: Ranked): number {
  for (const key of ['cost', 'holes', 'cable_m'] as const) {
    const [one, other] = [a[key] ?? Infinity, b[key] ?? Infinity];
    if (one !== other) return one > other ? 1 : -1;
  }
  return 0;
}

/** Of each design's difference to the first; null where there is none. */
function adjustedP(
  order: readonly Ranked[],
  worse: (a: Ranked, b: Ranked) => Contrast,
  pairs: number,
): (number | null)[] {
  const toFirst = order.map((one) => probability(worse(one, order[0]!)));
  if (toFirst.includes(null) || order.length > MOST_PAIRWISE)
    return toFirst.map((p) => (p === null ? null : Math.min(1, p * pairs)));
  // All pairs, those with the first one first.
  const all = order.flatMap((a, i) => order.slice(i + 1).map((b) => probability(worse(b, a))!));
  return [null, ...holm(all).slice(0, order.length - 1)];
}
