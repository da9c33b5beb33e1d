/** Many comparisons at once. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { holm, probability, simultaneous } from '../../../src/study/judge/simultaneous.js';

/** Holm's procedure as a closed test: p adjusted is the largest over all sets with it of Bonferroni's p of the set (R. Marcus, E. Peritz, K. R. Gabriel, Biometrika 63, 1976, 655–660). */
function closed(p: readonly number[]): number[] {
  return p.map((_, i) => {
    let largest = 0;
    for (let set = 1; set < 1 << p.length; set++) {
      if (!((set >> i) & 1)) continue;
      const inside = p.filter((__, j) => (set >> j) & 1);
      largest = Math.max(largest, Math.min(1, Math.min(...inside) * inside.length));
    }
    return largest;
  });
}

test('Holm, as R has it', () => {
  // R 4.2.2: p.adjust(c(0.01, 0.02, 0.03, 0.04), "holm") and p.adjust(c(0.04, 0.005, 0.13, 0.011, 0.02), "holm")
  expect(holm([0.01, 0.02, 0.03, 0.04])).toEqual([0.04, 0.06, 0.06, 0.06]);
  const adjusted = holm([0.04, 0.005, 0.13, 0.011, 0.02]);
  [0.08, 0.025, 0.13, 0.044, 0.06].forEach((p, i) => expect(adjusted[i]).toBeCloseTo(p, 12));
});

test('Holm is the closed test of all sets by Bonferroni', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 8 }), (p) => {
      const adjusted = holm(p);
      closed(p).forEach((one, i) => expect(adjusted[i]).toBeCloseTo(one, 12));
    }),
    { seed: 3 },
  );
});

describe("one comparison is Student's", () => {
  // W. S. Gosset's sleep data, ten differences between two soporifics: mean 1.58, t = 4.0621, 9 degrees of freedom,
  // p = 0.002833, 95 % interval 0.7001 to 2.4599 (Student, "The probable error of a mean", Biometrika 6, 1908, 1–25; the
  // numbers are those R 4.2.2 prints for t.test of the differences of its data set `sleep`).
  const differences = [1.2, 2.4, 1.3, 1.3, 0, 1, 1.8, 0.8, 4.6, 1.4];
  const mean = differences.reduce((sum, one) => sum + one, 0) / 10;
  const error = Math.sqrt(differences.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 9 / 10);
  const contrast = { value: mean, error, freedom: 9 };

  test('its interval and its probability', () => {
    const { low, high } = simultaneous(contrast, 1);
    expect(low).toBeCloseTo(0.7001, 4);
    expect(high).toBeCloseTo(2.4599, 4);
    expect(probability(contrast)).toBeCloseTo(0.002833, 5);
  });

  test('an interval of several leaves 0 out exactly when the adjusted probability says so', () => {
    const p = probability(contrast)!;
    const edge = 0.05 / p;
    expect(simultaneous(contrast, edge * 0.999).low).toBeGreaterThan(0);
    expect(simultaneous(contrast, edge * 1.001).low).toBeLessThan(0);
  });
});
