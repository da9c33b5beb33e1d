/** The forward pass of a hidden Markov model, against a printed example and against counting every path. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { forwardStep, stepProbability } from '../../../src/counter/hidden-markov/forward.js';

describe('the forward pass', () => {
  // S. Russell, P. Norvig, Artificial Intelligence: A Modern Approach, 3rd ed., section 15.2, the umbrella world: rain stays
  // with 0.7, an umbrella is seen with 0.9 in rain and 0.2 without; P(rain) = 0.818 after one umbrella, 0.883 after two.
  test('gives the umbrella world as printed', () => {
    const umbrella = {
      transition: [
        [0.7, 0.3],
        [0.3, 0.7],
      ],
      emission: [
        [0.9, 0.1],
        [0.2, 0.8],
      ],
    };
    const one = forwardStep(umbrella, [0.5, 0.5], 0);
    const two = forwardStep(umbrella, one, 0);
    expect(one[0]).toBeCloseTo(0.818, 3);
    expect(two[0]).toBeCloseTo(0.883, 3);
    // The unrounded values by hand: 0.45/0.55 and 0.565…/0.640….
    expect(one[0]).toBeCloseTo(9 / 11, 12);
    expect(two[0]).toBeCloseTo(
      (0.9 * (0.7 * (9 / 11) + 0.3 * (2 / 11))) /
        (0.9 * (0.7 * (9 / 11) + 0.3 * (2 / 11)) + 0.2 * (0.3 * (9 / 11) + 0.7 * (2 / 11))),
      12,
    );
  });

  const row = (n: number) =>
    fc.array(fc.integer({ min: 1, max: 20 }), { minLength: n, maxLength: n }).map((counts) => {
      const all = counts.reduce((a, b) => a + b, 0);
      return counts.map((one) => one / all);
    });
  const model = fc.record({
    transition: fc.tuple(row(3), row(3), row(3)),
    emission: fc.tuple(row(2), row(2), row(2)),
    prior: row(3),
    seen: fc.array(fc.integer({ min: 0, max: 1 }), { minLength: 1, maxLength: 6 }),
  });

  /** Weight of every path of hidden states, by brute force. */
  function paths({
    transition,
    emission,
    prior,
    seen,
  }: {
    transition: number[][];
    emission: number[][];
    prior: number[];
    seen: number[];
  }) {
    let all: { path: number[]; weight: number }[] = prior.map((weight, i) => ({ path: [i], weight }));
    for (const one of seen)
      all = all.flatMap(({ path, weight }) =>
        [0, 1, 2].map((j) => ({
          path: [...path, j],
          weight: weight * transition[path.at(-1)!]![j]! * emission[j]![one]!,
        })),
      );
    return all;
  }

  test('agrees with the sum over all paths, states and steps alike', () => {
    fc.assert(
      fc.property(model, (given) => {
        let belief = given.prior;
        let before = belief;
        for (const one of given.seen) {
          before = belief;
          belief = forwardStep(given, belief, one);
        }
        const all = paths(given);
        const whole = all.reduce((sum, { weight }) => sum + weight, 0);
        const share = (which: (path: number[]) => boolean): number =>
          all.filter(({ path }) => which(path)).reduce((sum, { weight }) => sum + weight, 0) / whole;
        for (const i of [0, 1, 2]) {
          expect(belief[i]).toBeCloseTo(
            share((path) => path.at(-1) === i),
            9,
          );
          for (const j of [0, 1, 2])
            expect(stepProbability(given, before, belief, given.seen.at(-1)!, i, j)).toBeCloseTo(
              share((path) => path.at(-2) === i && path.at(-1) === j),
              9,
            );
        }
      }),
      { seed: 9, numRuns: 200 },
    );
  });
});
