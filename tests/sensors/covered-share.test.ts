/**
 * Share of a beam that a limb covers. Expected: the area of a circular segment as handbooks give it, ½R²(α − sin α) with
 * α the angle at the centre (I. N. Bronshtein, K. A. Semendyayev, Handbook of Mathematics, plane figures: circle), and an
 * integration by strips that knows no formula.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clearanceAt, clearanceOf, segmentShare, stripShare } from '../../src/sensors/light-barrier/covered-share.js';

const SEED = { seed: 7, numRuns: 300 };

/** Share of a unit disc with x between two limits, by 20,000 strips of its chord (midpoint rule). */
function integrated(from: number, to: number): number {
  const low = Math.max(-1, from);
  const high = Math.min(1, to);
  if (high <= low) return 0;
  const n = 20_000;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const x = low + ((i + 0.5) * (high - low)) / n;
    sum += 2 * Math.sqrt(1 - x * x);
  }
  return (sum * (high - low)) / n / Math.PI;
}

describe('circular segments', () => {
  // α 60, 90, 120, 180 degrees: (α − sin α)/2π.
  test.each([
    { alpha_deg: 60, share: (Math.PI / 3 - Math.sqrt(3) / 2) / (2 * Math.PI) },
    { alpha_deg: 90, share: (Math.PI / 2 - 1) / (2 * Math.PI) },
    { alpha_deg: 120, share: ((2 * Math.PI) / 3 - Math.sqrt(3) / 2) / (2 * Math.PI) },
    { alpha_deg: 180, share: 0.5 },
  ])('of $alpha_deg degrees', ({ alpha_deg, share }) => {
    const x = Math.cos(((alpha_deg / 2) * Math.PI) / 180);
    expect(segmentShare(x)).toBeCloseTo(share, 12);
    // The other side of the same edge has the rest.
    expect(segmentShare(-x)).toBeCloseTo(1 - share, 12);
  });

  test('an edge beside the disc, and one past it', () => {
    expect(segmentShare(1)).toBe(0);
    expect(segmentShare(1.7)).toBe(0);
    expect(segmentShare(-1)).toBe(1);
  });
});

describe('a limb before the beam', () => {
  const place = fc.record({
    distance: fc.double({ min: 0, max: 3, noNaN: true }),
    half: fc.double({ min: 0.01, max: 3, noNaN: true }),
  });

  test('the covered share is the area of the disc behind a strip', () => {
    fc.assert(
      fc.property(place, ({ distance, half }) => {
        expect(stripShare(distance, half, 1)).toBeCloseTo(integrated(distance - half, distance + half), 5);
      }),
      { ...SEED, numRuns: 100 },
    );
  });

  test('at the clearance exactly the wanted share is covered; nearer more, further less', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.3, noNaN: true }),
        fc.double({ min: 0.0005, max: 0.05, noNaN: true }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (limb, radius, share) => {
          const clearance = clearanceAt(limb, radius, share);
          const most = integrated(-limb / radius, limb / radius);
          if (clearance === -Infinity) {
            expect(most).toBeLessThan(share + 1e-5);
            return;
          }
          const covered = (distance: number) => integrated((distance - limb) / radius, (distance + limb) / radius);
          expect(covered(limb + clearance)).toBeCloseTo(share, 4);
          expect(covered(limb + clearance + 0.01 * radius)).toBeLessThan(share);
          if (limb + clearance > 0.01 * radius)
            expect(covered(limb + clearance - 0.01 * radius)).toBeGreaterThanOrEqual(share - 1e-5);
        },
      ),
      SEED,
    );
  });

  test('half covered is reached as the edge of a wide limb meets the middle of the beam', () => {
    for (const radius of [0.002, 0.003, 0.02]) expect(clearanceAt(0.05, radius, 0.5)).toBeCloseTo(0, 9);
  });

  test('a limb too thin for the share never breaks the beam', () => {
    // A strip through the middle, a tenth of the disc wide, covers 12.7 % of it (2·0.1·2/π, the chord nearly the diameter).
    expect(integrated(-0.1, 0.1)).toBeCloseTo(0.127, 3);
    expect(clearanceAt(0.1, 1, 0.13)).toBe(-Infinity);
    expect(clearanceAt(0.1, 1, 0.12)).toBeGreaterThan(-0.1);
  });

  test('remembering the value of wide limbs changes none', () => {
    const of = clearanceOf(0.02, 0.3);
    for (const limb of [0.001, 0.004, 0.0099, 0.0101, 0.0199, 0.02, 0.05, 0.2])
      expect(of(limb)).toBeCloseTo(clearanceAt(limb, 0.01, 0.3), 12);
  });
});
