/** What a triangulation ranger sees: bodies, edges of limbs, the fold, the end of its range. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EMPTY, seenBy, triangulation, upright } from '../optics/building.js';

test('an empty door: the far jamb; under the lintel, with range enough: the floor', () => {
  expect(triangulation().sees(EMPTY)).toBeCloseTo(0.8, 12);
  const lintel = { mounting: { mount: 'lintel', height_m: 2 } } as const;
  expect(triangulation({ range_m: 3 }, lintel).sees(EMPTY)).toBeCloseTo(2, 12);
});

test('a limb in its axis: the surface, whatever its clothes', () => {
  for (const d of [0.1, 0.25, 0.6])
    for (const clothing of [0.01, 0.99])
      expect(seenBy(triangulation(), [upright(d + 0.1, 0, 0.1)], clothing)).toBeCloseTo(d, 9);
});

test('what is wholly behind somebody is not seen', () => {
  const front = upright(0.4, 0, 0.1);
  expect(seenBy(triangulation(), [upright(0.65, 0, 0.1), front])).toBe(seenBy(triangulation(), [front]));
});

describe('the edge of a limb in the spot', () => {
  // A spot of 2 cm that doesn't grow.
  const ranger = triangulation({ spot_diameter_m: 0.02, spot_growth_m_per_m: 0 });

  test('pulls what is seen from the jamb to the limb, ever further as it comes in', () => {
    const seen = Array.from({ length: 241 }, (_, i) => seenBy(ranger, [upright(0.5, 0.112 - i * 1e-4, 0.1)]));
    expect(seen[0]).toBeCloseTo(0.8, 12);
    for (const [i, one] of seen.entries()) if (i > 0) expect(one).toBeLessThanOrEqual(seen[i - 1]!);
    // No leap: a tenth of a millimetre of edge moves it by no more than a fiftieth of the way.
    for (const [i, one] of seen.entries()) if (i > 0) expect(seen[i - 1]! - one).toBeLessThan(0.01);
    // Wholly in the spot 9 cm beside its axis, where the surface is √(0.1² − 0.09²) before that.
    expect(seen[220]).toBeCloseTo(0.5 - Math.sqrt(0.1 ** 2 - 0.09 ** 2), 2);
  });

  test('half in it: the mean of both places on the detector, weighted by what comes back', () => {
    // The edge is in the middle; the half it covers has its middle 5 mm in: √(0.1² − 0.095²) before the limb's axis.
    const near = 0.5 - Math.sqrt(0.1 ** 2 - 0.095 ** 2);
    const weights = [0.5 / near ** 2, 0.5 / 0.8 ** 2] as const;
    const place = (weights[0] / (near + 0.01) + weights[1] / 0.81) / (weights[0] + weights[1]);
    expect(seenBy(ranger, [upright(0.5, 0.1, 0.1)])).toBeCloseTo(1 / place - 0.01, 9);
  });

  test('of one standing nearer than half the way counts for more than half', () => {
    const middle = (a: number, b: number) => 1 / ((1 / (a + 0.01) + 1 / (b + 0.01)) / 2) - 0.01;
    expect(seenBy(ranger, [upright(0.3, 0.1, 0.1)])).toBeLessThan(middle(0.3, 0.8));
  });

  test('two edges from both sides: the nearer takes its half, the other half of the rest', () => {
    const both = seenBy(ranger, [upright(0.3, 0.1, 0.1), upright(0.6, -0.1, 0.1)]);
    const depth = Math.sqrt(0.1 ** 2 - 0.095 ** 2);
    const parts = [
      [0.5, 0.3 - depth],
      [0.25, 0.6 - depth],
      [0.25, 0.8],
    ] as const;
    const weight = parts.reduce((sum, [share, d]) => sum + share / d ** 2, 0);
    const place = parts.reduce((sum, [share, d]) => sum + share / d ** 2 / (d + 0.01), 0) / weight;
    expect(both).toBeCloseTo(1 / place - 0.01, 9);
  });
});

describe('nearer than the fold', () => {
  test('it reads further and further away, up to nothing at all', () => {
    const seen = [0.1, 0.08, 0.06, 0.04, 0.02, 0.001].map((d) => seenBy(triangulation(), [upright(d + 0.1, 0, 0.1)]));
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBeGreaterThan(5);
    expect(triangulation().reading(seen.at(-1)!, 0.5)).toBe(-1);
  });

  test('somebody who touches the sensor is away; so is one whose limb the sensor is in', () => {
    expect(seenBy(triangulation(), [upright(0.1, 0, 0.1)])).toBeGreaterThan(100);
    expect(seenBy(triangulation(), [upright(0.05, 0, 0.1)])).toBe(Infinity);
  });

  test('a curve with an offset below 0 folds before its volts have no end', () => {
    const ranger = triangulation({ offset_m: -0.05, fold_m: 0.03 });
    expect(ranger.strays_m[0]).toBeGreaterThan(0.05);
    expect(seenBy(ranger, [upright(0.04 + 0.1, 0, 0.1)])).toBeGreaterThan(0.04);
  });
});

describe('beyond the range', () => {
  test('the output fades with the return: at twice the range by four', () => {
    // A quarter of 1/(1.6 + 0.01).
    expect(triangulation({ range_m: 0.8 }, { width_m: 1.6 }).sees(EMPTY)).toBeCloseTo(4 * 1.61 - 0.01, 9);
  });

  test('a wide door reads as nothing, a body in it as it is', () => {
    const ranger = triangulation({}, { width_m: 1.2 });
    expect(ranger.reading(ranger.sees(EMPTY), 0.5)).toBe(-1);
    expect(seenBy(ranger, [upright(0.5, 0, 0.1)])).toBeCloseTo(0.4, 9);
  });
});

test('whatever stands there, what it sees is a distance: never below the fold, never not a number', () => {
  const n = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const limb = fc.tuple(n(-0.2, 1), n(-0.2, 0.2), n(0.8, 1.2), n(-0.2, 1), n(-0.2, 0.2), n(0.8, 1.2), n(0.01, 0.25));
  const ranger = triangulation();
  fc.assert(
    fc.property(fc.array(limb, { maxLength: 8 }), (limbs) => {
      const seen = seenBy(ranger, limbs);
      expect(seen).toBeGreaterThanOrEqual(0.1 - 1e-9);
    }),
    { seed: 21, numRuns: 1000 },
  );
});
