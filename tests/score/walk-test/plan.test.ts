/** A plan keeps its two promises, counted out exactly: seldom a false alarm, and what it says it finds out it finds out. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Claim, claimOf, doubled, ERROR, POWER, pValue } from '../../../src/score/walk-test/claim.js';
import { atLeast, atMost } from '../../../src/score/walk-test/exact.js';
import { planOf, planWalks } from '../../../src/score/walk-test/plan.js';

const share = fc.double({ min: 0, max: 1, noNaN: true });
const interval = fc.tuple(share, share, share).map((ends) => {
  const [low, value, high] = [...ends].sort((a, b) => a - b) as [number, number, number];
  return { low, value, high };
});
const narrow = (value: number, half = value / 10) => ({
  prediction: { value, low: Math.max(0, value - half), high: Math.min(1, value + half) },
});

/** Probability that a claim is refuted where the true share is `p`: summed over everything that can be seen. */
function refuted(claim: Claim, walks: number, error: number, p: number): number {
  let sum = 0;
  for (let k = 0; k <= walks; k++) {
    const chance =
      k < walks * p ? atMost(k, walks, p) - atMost(k - 1, walks, p) : atLeast(k, walks, p) - atLeast(k + 1, walks, p);
    if (pValue(claim, k, walks) <= error) sum += chance;
  }
  return sum;
}

describe('a claim', () => {
  test('is of the rarer walks', () => {
    expect(claimOf({ value: 0.1, low: 0.05, high: 0.2 })).toMatchObject({ of: 'wrong', low: 0.05, high: 0.2 });
    const { of, low, high } = claimOf({ value: 0.9, low: 0.8, high: 0.95 });
    expect([of, low.toFixed(6), high.toFixed(6)]).toEqual(['right', '0.050000', '0.200000']);
  });

  test('doubling never goes beyond 1, and is always more', () => {
    expect([0.01, 0.25, 0.5, 0.8].map(doubled)).toEqual([0.02, 0.5, 0.75, 0.9]);
    fc.assert(fc.property(share, (x) => doubled(x) <= 1 && doubled(x) >= x));
  });

  test('is refuted falsely no more often than said, wherever in its interval the truth is', () => {
    const places = fc.constantFrom(0, 0.5, 1);
    const errors = fc.constantFrom(0.05, 0.01);
    fc.assert(
      fc.property(interval, fc.integer({ min: 1, max: 60 }), places, errors, (prediction, walks, place, error) => {
        const claim = claimOf(prediction);
        const truth = claim.low + place * (claim.high - claim.low);
        expect(refuted(claim, walks, error, truth)).toBeLessThanOrEqual(error + 1e-9);
      }),
      { seed: 1, numRuns: 200 },
    );
  });
});

describe('a plan', () => {
  test('shares what there is evenly among kinds that need the same, and gives all of it out', () => {
    const alike = Array.from({ length: 4 }, () => narrow(0.2));
    const need = planWalks(alike, 10_000).kinds[0]!.walks;
    for (const most of [need + 10, 2 * need, 3 * need, 4 * need]) {
      const walks = planWalks(alike, most).kinds.map((kind) => kind.walks);
      const sum = walks.reduce((total, one) => total + one, 0);
      expect(sum).toBeLessThanOrEqual(most);
      expect(sum).toBeGreaterThan(most - 2);
      // Walks come in pairs, there and back; what is left over after even shares goes to the first.
      expect(Math.max(...walks.slice(1)) - Math.min(...walks.slice(1))).toBeLessThanOrEqual(2);
      expect(Math.abs(walks[0]! - walks[3]!)).toBeLessThan(8);
    }
  });

  const kinds = [0.05, 0.2, 0.001, 0.95].map((value) => narrow(value));
  const plan = planWalks(kinds, 300);

  test('splits the chance of a false alarm over its kinds', () => {
    expect(plan.error).toBe(ERROR / kinds.length);
    for (const { claim, walks } of plan.kinds)
      expect(refuted(claim, walks, plan.error, claim.high)).toBeLessThanOrEqual(plan.error);
  });

  test('finds out what it says, four times in five, and hardly less', () => {
    for (const { claim, walks, finds } of plan.kinds) {
      expect(refuted(claim, walks, plan.error, finds)).toBeGreaterThanOrEqual(POWER);
      expect(finds).toBeGreaterThanOrEqual(claim.beyond);
    }
    const short = plan.kinds.filter(({ walks, needed }) => needed === null || walks < needed);
    expect(short.length).toBeGreaterThan(0);
    for (const { claim, walks, finds } of short)
      expect(refuted(claim, walks, plan.error, finds - 0.001)).toBeLessThan(POWER);
  });

  test('says what can’t be decided in any evening', () => {
    expect(plan.kinds[2]).toMatchObject({ needed: null });
    expect(plan.kinds[2]!.walks).toBeGreaterThanOrEqual(20);
    expect(plan.kinds[2]!.finds).toBeGreaterThan(0.05);
  });

  test('is never longer than asked for, is even, and gives every kind something', () => {
    fc.assert(
      fc.property(
        fc.array(interval, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 40, max: 400 }),
        (all, most) => {
          const { kinds: planned } = planWalks(
            all.map((prediction) => ({ prediction })),
            most,
          );
          expect(planned.reduce((sum, { walks }) => sum + walks, 0)).toBeLessThanOrEqual(most);
          for (const { walks } of planned) expect([walks % 2, walks >= 2]).toEqual([0, true]);
        },
      ),
      { seed: 2, numRuns: 40 },
    );
  });

  test('with room for all, all are decided', () => {
    for (const { walks, needed, finds, claim } of planWalks([narrow(0.2), narrow(0.3)], 1000).kinds)
      expect([walks, finds]).toEqual([needed, claim.beyond]);
  });

  test('nobody to walk, nothing planned', () => {
    expect(planWalks([], 300).kinds).toEqual([]);
    expect(planOf([], []).kinds).toEqual([]);
  });

  test('as many walks as were done say what they find out', () => {
    const [few, many] = [10, 400].map((walks) => planOf([narrow(0.1)], [walks]).kinds[0]!);
    expect(few!.finds).toBeGreaterThan(many!.finds);
    expect(many!.finds).toBe(many!.claim.beyond);
    // Two walks can't refute one in two.
    expect(planOf([narrow(0.5)], [2]).kinds[0]!.finds).toBe(1);
  });
});
