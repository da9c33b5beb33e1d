/** What a capsule breaks of a row of beams: against the distance from each beam to its axis. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planeOf, sectionOf } from '../../src/geometry/section.js';

interface Flat {
  readonly u: number;
  readonly v: number;
}

/** Distance from a point to a segment: the foot of the perpendicular, kept between the ends. */
function distance(p: Flat, a: Flat, b: Flat): number {
  const [du, dv] = [b.u - a.u, b.v - a.v];
  const square = du * du + dv * dv;
  const t = square === 0 ? 0 : ((p.u - a.u) * du + (p.v - a.v) * dv) / square;
  const s = Math.min(1, Math.max(0, t));
  return Math.hypot(p.u - a.u - s * du, p.v - a.v - s * dv);
}

test('a ball breaks the beams within half its chord: 3, 4, 5', () => {
  const ball = { u: 2, v: 0.3 };
  const [low, high] = sectionOf(ball, ball, 0.5)!;
  expect(low).toBeCloseTo(1.6, 12);
  expect(high).toBeCloseTo(2.4, 12);
  expect(sectionOf({ u: 2, v: 0.6 }, { u: 2, v: 0.6 }, 0.5)).toBeNull();
  expect(sectionOf(ball, ball, 0)).toBeNull();
});

test('a rod through the plane, upright and at 45°, breaks its width across the walk', () => {
  const [low, high] = sectionOf({ u: 1, v: -1 }, { u: 1, v: 1 }, 0.1)!;
  expect([low, high]).toEqual([0.9, 1.1]);
  const aslant = sectionOf({ u: 0, v: -1 }, { u: 2, v: 1 }, 0.1)!;
  expect(aslant[0]).toBeCloseTo(1 - 0.1 * Math.SQRT2, 12);
  expect(aslant[1]).toBeCloseTo(1 + 0.1 * Math.SQRT2, 12);
});

test('a beam is broken exactly if it is nearer to the axis than the reach', () => {
  const place = fc.record({
    u: fc.double({ min: -1, max: 1, noNaN: true }),
    v: fc.double({ min: -1, max: 1, noNaN: true }),
  });
  fc.assert(
    fc.property(place, place, fc.double({ min: 0.01, max: 0.8, noNaN: true }), (a, b, reach) => {
      const section = sectionOf(a, b, reach);
      for (let u = -2; u <= 2; u += 0.01) {
        const off = distance({ u, v: 0 }, a, b) - reach;
        if (Math.abs(off) < 1e-9) continue;
        const inside = section !== null && section[0] <= u && u <= section[1];
        expect(inside, `at ${u}`).toBe(off < 0);
      }
    }),
    { seed: 2, numRuns: 200 },
  );
});

test('in the plane of an aslant beam all its points have one u, and v grows upward', () => {
  const line = { from: { x: 0, y: 0.1, z: 1 }, to: { x: 0.9, y: 0.3, z: 1 } };
  const plane = planeOf(line);
  const [from, to] = [plane(line.from), plane(line.to)];
  expect(from.u).toBeCloseTo(to.u, 12);
  expect(from.v).toBeCloseTo(0, 12);
  expect(to.v).toBeCloseTo(0, 12);
  expect(plane({ ...line.from, z: 1.2 }).v).toBeCloseTo(0.2, 12);
  // Along the walk by the beam's own direction: a metre ahead is cos of its angle away from it.
  const cosine = 0.9 / Math.hypot(0.9, 0.2);
  expect(plane({ ...line.from, y: 1.1 }).u - from.u).toBeCloseTo(cosine, 12);
});
