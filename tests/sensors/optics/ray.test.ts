/** Where a ray meets a limb: worked by hand, and felt for step by step. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { entryOf } from '../../../src/sensors/optics/ray.js';

type Six = readonly [number, number, number, number, number, number];

/** Along the first axis. */
const ahead = (ends: Six, radius: number): number => entryOf(1, 0, 0, ...ends, radius);

test('an upright limb across the ray: its axis less its radius, less of it when it is met beside its middle', () => {
  expect(ahead([0.5, 0, -1, 0.5, 0, 1], 0.1)).toBeCloseTo(0.4, 12);
  expect(ahead([0.5, 0.06, -1, 0.5, 0.06, 1], 0.1)).toBeCloseTo(0.42, 12);
});

test('a limb slanted by 45° is √2 as thick', () => {
  expect(ahead([0, 0, -0.5, 1, 0, 0.5], 0.1)).toBeCloseTo(0.5 - 0.1 * Math.SQRT2, 12);
});

test('a limb that points at the sensor, and one that ends on the ray: the ball at its end', () => {
  expect(ahead([0.5, 0, 0, 0.9, 0, 0], 0.1)).toBeCloseTo(0.4, 12);
  expect(ahead([0.9, 0, 0, 0.5, 0, 0], 0.1)).toBeCloseTo(0.4, 12);
  expect(ahead([0.5, 0, 0.06, 0.5, 0, 1], 0.1)).toBeCloseTo(0.42, 12);
  for (const length of [0, 1e-17, 1e-9]) expect(ahead([0.5, 0, 0, 0.5, 0, length], 0.1)).toBeCloseTo(0.4, 9);
});

test('a miss beside the limb and beyond its end; from inside: below 0', () => {
  expect(ahead([0.5, 0.11, -1, 0.5, 0.11, 1], 0.1)).toBe(Infinity);
  expect(ahead([0.5, 0, 0.11, 0.5, 0, 1], 0.1)).toBe(Infinity);
  expect(ahead([0.05, 0, -1, 0.05, 0, 1], 0.1)).toBeCloseTo(-0.05, 12);
});

/** Distance of a point on the ray from the limb's axis. */
function away(t: number, [ax, ay, az, bx, by, bz]: Six): number {
  const [ex, ey, ez] = [bx - ax, by - ay, bz - az];
  const e2 = ex * ex + ey * ey + ez * ez;
  const s = e2 > 0 ? Math.min(1, Math.max(0, ((t - ax) * ex - ay * ey - az * ez) / e2)) : 0;
  return Math.hypot(t - ax - s * ex, ay + s * ey, az + s * ez);
}

test('any limb: as far as steps get that never leap over a surface', () => {
  const n = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const ends = fc.tuple(n(0.5, 2), n(-0.5, 0.5), n(-0.5, 0.5), n(0.5, 2), n(-0.5, 0.5), n(-0.5, 0.5));
  let hits = 0;
  fc.assert(
    fc.property(ends, n(0.02, 0.3), (limb, radius) => {
      let t = 0;
      for (let i = 0; i < 3000 && t < 4; i++) {
        const gap = away(t, limb) - radius;
        if (gap < 1e-9) break;
        t += gap;
      }
      const found = ahead(limb, radius);
      if (found === Infinity) expect(t).toBeGreaterThan(4 - 1e-3);
      else {
        hits++;
        // Steps creep towards a surface that is grazed.
        expect(Math.abs(found - t)).toBeLessThan(1e-3);
        expect(away(found, limb)).toBeCloseTo(radius, 9);
      }
    }),
    { seed: 12, numRuns: 500 },
  );
  expect(hits).toBeGreaterThan(100);
});
