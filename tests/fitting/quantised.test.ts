/** What rounding does to noise, against theory at the ends and a plain simulation in between. */
import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../src/engine/distribution-functions.js';
import { Stream } from '../../src/engine/stream.js';
import { scatterSlope, scatterVariance, sharedVariance } from '../../src/fitting/quantised.js';

describe('rounding to a step', () => {
  test('without noise all of h²/12 is shared, and nothing scatters', () => {
    // Variance of a uniform error over one step: textbook.
    expect(sharedVariance(0, 2)).toBeCloseTo(4 / 12, 12);
    expect(scatterVariance(0, 2)).toBe(0);
  });

  test("with much noise nothing is shared, and h²/12 comes on top: Sheppard's correction", () => {
    expect(sharedVariance(2, 1)).toBeLessThan(1e-12);
    expect(scatterVariance(2, 1)).toBeCloseTo(4 + 1 / 12, 12);
  });

  test('without a step noise is noise', () => {
    expect([sharedVariance(0.3, 0), scatterVariance(0.3, 0)]).toEqual([0, 0.09]);
  });

  test.each([0.02, 0.1, 0.25, 0.4])('noise of %s steps, simulated: 1000 places in a step, 200 readings each', (sd) => {
    const chance = Stream.root('rounding');
    let within = 0;
    let between = 0;
    for (let place = 0; place < 1000; place++) {
      const truth = (place + 0.5) / 1000;
      const off = Array.from({ length: 200 }, (_, i) => {
        return Math.round(truth + sd * normalQuantile(chance.at(place * 200 + i), 0, 1)) - truth;
      });
      const mean = off.reduce((a, b) => a + b, 0) / off.length;
      const scatter = off.reduce((sum, x) => sum + (x - mean) * (x - mean), 0) / (off.length - 1);
      within += scatter / 1000;
      // The mean itself scatters; what is left of its square is the shared part.
      between += (mean * mean - scatter / off.length) / 1000;
    }
    expect(scatterVariance(sd, 1)).toBeCloseTo(within, 2);
    expect(Math.abs(scatterVariance(sd, 1) / within - 1)).toBeLessThan(0.02);
    expect(Math.abs(sharedVariance(sd, 1) - between)).toBeLessThan(0.0005);
  });

  test('its slope is that of its values, small noise included', () => {
    for (const sd of [0.001, 0.05, 0.3, 1]) {
      const rise = scatterVariance(sd * 1.01, 1) - scatterVariance(sd * 0.99, 1);
      expect(scatterSlope(sd, 1) / (rise / (0.02 * sd))).toBeCloseTo(1, 3);
    }
  });
});
