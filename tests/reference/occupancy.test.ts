/**
 * Guests of a house against the infinite-server queue: with single guests who come as a Poisson process of rate λ and
 * stay for times S of any law, the number in the room is Poisson with mean λE[S] once it has settled, and with mean
 * λ∫₀ᵗP(S > u)du a time t after it was empty (L. Takács, Introduction to the Theory of Queues, 1962, ch. 3, from memory;
 * the exponential case: https://en.wikipedia.org/wiki/M/M/∞_queue).
 *
 * A guest is in the room from one crossing of the door plane to the other, a few seconds longer than the stay of half an
 * hour: 0.3 % of the mean, well within the bounds. Bounds are 99.9 %; the seeds are fixed.
 */
import { describe, expect, test } from 'vitest';
import { chiSquareQuantile } from '../../src/engine/distribution-functions.js';
import { live, personsIn } from '../agents/household/houses.js';
import { howMany } from '../how-many.js';

const PER_HOUR = 4;
const STAY_H = 0.5;
const MEAN = PER_HOUR * STAY_H;
const REPLICATES = howMany(300, 3000);
const HOUR_US = 3.6e9;
const Z = 3.29;

/** ∫₀ᵗ P(S > u) du at t = 0.25 h for stays of mean 0.5 h, hours. */
const EARLY: Readonly<Record<string, number>> = {
  exponential: STAY_H * (1 - Math.exp(-0.25 / STAY_H)),
  even: 0.25 - (0.25 * 0.25) / (2 * 2 * STAY_H),
  fixed: 0.25,
};

function guests(law: string, replicate: number): { early: number; settled: number } {
  const lived = live(
    {
      rooms: ['living'],
      doors: [['outside', 'living', 1]],
      household: {
        visitors: [
          {
            name: 'guest',
            per_day: 24 * PER_HOUR,
            from: '00:00',
            to: '00:00',
            rooms: [{ room: 'living', share: 1 }],
            stay_min: 60 * STAY_H,
            stay_law: law,
          },
        ],
        turn_back_share: 0,
        linger_share: 0,
        reach_share: 0,
      },
      hours: 6,
    },
    `${law} ${replicate}`,
  );
  return { early: personsIn(lived, 0, 0.25 * HOUR_US), settled: personsIn(lived, 0, 6 * HOUR_US - 1) };
}

describe.each(['exponential', 'log-normal', 'even', 'fixed'])('stays of law %s', (law) => {
  const seen = Array.from({ length: REPLICATES }, (_, r) => guests(law, r));

  test('settled, the number in the room is Poisson with mean λE[S] = 2', () => {
    // Cells 0, 1, 2, 3, 4, 5 and more, of Poisson(2).
    const expected = [0, 1, 2, 3, 4].map((k) => (Math.exp(-MEAN) * MEAN ** k) / [1, 1, 2, 6, 24][k]!);
    expected.push(1 - expected.reduce((sum, p) => sum + p, 0));
    const counts = expected.map((_, k) => seen.filter(({ settled }) => Math.min(settled, 5) === k).length);
    const chi2 = counts.reduce(
      (sum, n, k) => sum + (n - REPLICATES * expected[k]!) ** 2 / (REPLICATES * expected[k]!),
      0,
    );
    expect(chi2).toBeLessThan(chiSquareQuantile(0.999, expected.length - 1));
    const mean = seen.reduce((sum, { settled }) => sum + settled, 0) / REPLICATES;
    expect(Math.abs(mean - MEAN)).toBeLessThan(Z * Math.sqrt(MEAN / REPLICATES));
  });

  test.runIf(law in EARLY)('a quarter of an hour after it was empty the mean is λ∫P(S > u)du', () => {
    const mean = seen.reduce((sum, { early }) => sum + early, 0) / REPLICATES;
    const theory = PER_HOUR * EARLY[law]!;
    expect(Math.abs(mean - theory)).toBeLessThan(Z * Math.sqrt(theory / REPLICATES));
  });
});
