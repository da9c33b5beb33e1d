/** What stands in a spot: shares and distances, against rays sent one by one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { entryOf } from '../../../src/sensors/optics/ray.js';
import { type Spot, spotAlong } from '../../../src/sensors/optics/spot.js';
import { Targets } from '../../../src/sensors/optics/targets.js';
import { type Capsule, sceneOf, upright } from '../ultrasonic/building.js';

const ACROSS = { from: { x: 0, y: 0, z: 1 }, to: { x: 0.8, y: 0, z: 1 } };
/** A spot of 1 cm radius that doesn't grow, and a cone of 0.2 m per metre. */
const THIN = spotAlong(ACROSS, 0.01, 0);
const CONE = spotAlong(ACROSS, 0, 0.2);

function look(spot: Spot, ...capsules: Capsule[]): Targets {
  const targets = new Targets();
  targets.find(sceneOf(capsules), spot);
  return targets;
}

describe('one limb', () => {
  test('in the middle of the spot hides all behind it', () => {
    const { count, share, distance_m, left } = look(THIN, upright(0.4, 0, 0.05));
    expect([count, share[0], left]).toEqual([1, 1, 0]);
    expect(distance_m[0]).toBeCloseTo(0.35, 12);
  });

  test('with its edge in the middle hides half', () => {
    for (const spot of [THIN, CONE]) expect(look(spot, upright(0.4, 0.05, 0.05)).left).toBeCloseTo(0.5, 1);
    expect(look(THIN, upright(0.4, 0.05, 0.05)).left).toBeCloseTo(0.5, 9);
  });

  test('hides nothing beside the spot, behind the sensor, or behind the far jamb', () => {
    for (const limb of [upright(0.4, 0.0601, 0.05), upright(-0.1, 0, 0.05), upright(0.86, 0, 0.05)])
      expect(look(THIN, limb).count).toBe(0);
    expect(look(THIN, upright(0.84, 0, 0.05)).distance_m[0]).toBeCloseTo(0.79, 12);
  });

  test('that ends in the middle hides half; an arm across the beam hides as much lying as standing', () => {
    expect(look(CONE, [0.4, 0, 1.5, 0.4, 0, 1.5, 0.5]).left).toBeCloseTo(0.5, 1);
    const lying: Capsule = [0.5, -0.4, 1, 0.5, 0.4, 1, 0.03];
    expect(look(CONE, lying).left).toBeCloseTo(look(CONE, upright(0.5, 0, 0.03, 0.8)).left, 9);
  });

  test('thin in a wide cone: a strip, ½ − … of handbooks: (2/π)·(asin w + w·√(1 − w²))', () => {
    // 2 cm wide at 0.5 m, where the cone is 0.1 m in radius: w = 0.1.
    const strip = (2 / Math.PI) * (Math.asin(0.1) + 0.1 * Math.sqrt(1 - 0.01));
    expect(look(CONE, upright(0.5, 0, 0.01)).share[0]).toBeCloseTo(strip, 4);
  });
});

describe('several limbs', () => {
  test('come nearest first, each with its share of what the nearer ones leave', () => {
    const { count, share, distance_m, capsule, left } = look(THIN, upright(0.6, -0.05, 0.05), upright(0.3, 0.05, 0.05));
    expect(count).toBe(2);
    expect([...capsule.subarray(0, 2)]).toEqual([1, 0]);
    expect(distance_m[0]).toBeLessThan(distance_m[1]!);
    expect(share[0]).toBeCloseTo(0.5, 9);
    expect(share[1]).toBeCloseTo(0.25, 9);
    expect(left).toBeCloseTo(0.25, 9);
  });

  test('of a whole crowd only the farthest are left out', () => {
    const limbs = Array.from({ length: 100 }, (_, i) => upright(0.7 - ((i * 37) % 100) * 0.005, 0.0595, 0.05));
    const { count, distance_m, capsule } = look(THIN, ...limbs);
    expect(count).toBe(64);
    const nearest = limbs.map(([x]) => x).sort((a, b) => a - b);
    expect([...capsule].map((i) => limbs[i]?.[0])).toEqual(nearest.slice(0, 64));
    expect([...distance_m]).toEqual([...distance_m].sort((a, b) => a - b));
  });
});

test('in whatever order a scene lists its limbs, what gets light is the same', () => {
  const n = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const limb = fc
    .tuple(n(0.15, 0.7), n(-0.15, 0.15), n(-0.2, 0.2), n(0.02, 0.15))
    .map(([x, y, lean, r]): Capsule => [x, y, 0.7, x, y + lean, 1.3, r]);
  const lit = (targets: Targets) =>
    [...targets.share.subarray(0, targets.count)]
      .map((share, i) => [share, targets.distance_m[i]])
      .filter(([share]) => share);
  let full = 0;
  fc.assert(
    fc.property(fc.array(limb, { minLength: 2, maxLength: 12 }), fc.constantFrom(THIN, CONE), (limbs, spot) => {
      const one = look(spot, ...limbs);
      const other = look(spot, ...limbs.toReversed());
      expect(lit(other)).toEqual(lit(one));
      expect(other.left).toBe(one.left);
      if (one.left === 0) full++;
    }),
    { seed: 14, numRuns: 500 },
  );
  expect(full).toBeGreaterThan(100);
});

/** Share of a spot's rays that a limb stops, and how far along the axis on average; rays spread evenly over the disc. */
function shot(spot: Spot, [ax, ay, az, bx, by, bz, radius]: Capsule): { share: number; mean_m: number } {
  const cells = 60;
  let [hit, all, sum] = [0, 0, 0];
  for (let i = 0; i < cells; i++) {
    for (let j = 0; j < cells; j++) {
      const [v, w] = [(2 * i + 1) / cells - 1, (2 * j + 1) / cells - 1];
      if (v * v + w * w > 1) continue;
      all++;
      const [oy, oz] = [v * spot.radius_m, 1 + w * spot.radius_m];
      const [dy, dz] = [v * spot.growth, w * spot.growth];
      const length = Math.hypot(1, dy, dz);
      const ends = [ax, ay - oy, az - oz, bx, by - oy, bz - oz] as const;
      const way = entryOf(1 / length, dy / length, dz / length, ...ends, radius);
      if (way / length >= 0.8) continue;
      hit++;
      sum += way / length;
    }
  }
  return { share: hit / all, mean_m: hit > 0 ? sum / hit : Infinity };
}

test('limbs at any slant and place: near what rays say', () => {
  const n = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const place = fc.tuple(n(0.3, 0.6), n(-0.25, 0.25), n(0.75, 1.25));
  const limb = fc
    .tuple(place, n(0, 0.5), n(0, 6.283), n(-0.3, 0.3), n(0.03, 0.18))
    .map(([[x, y, z], length, angle, lean, r]): Capsule => {
      const [ey, ez] = [length * Math.cos(angle), length * Math.sin(angle)];
      return [x, y, z, Math.min(0.65, Math.max(0.25, x + lean * length)), y + ey, z + ez, r];
    });
  const off: number[] = [];
  const ways: number[] = [];
  for (const spot of [THIN, CONE]) {
    fc.assert(
      fc.property(limb, (one) => {
        const rays = shot(spot, one);
        const { share, count, distance_m } = look(spot, one);
        const found = count > 0 ? share[0]! : 0;
        off.push(Math.abs(found - rays.share));
        if (Math.min(found, rays.share) > 0.2) ways.push(Math.abs(distance_m[0]! - rays.mean_m));
      }),
      { seed: 13, numRuns: 400 },
    );
  }
  const mean = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0) / all.length;
  // What the simplification costs: on average less than 1 % of the spot and 1 cm, at worst some 10 % and 5 cm.
  expect(mean(off)).toBeLessThan(0.01);
  expect(Math.max(...off)).toBeLessThan(0.12);
  expect(mean(ways)).toBeLessThan(0.01);
  expect(Math.max(...ways)).toBeLessThan(0.05);
  expect(ways.length).toBeGreaterThan(150);
});
