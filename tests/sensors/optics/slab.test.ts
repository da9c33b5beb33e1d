/** Where limbs matter: outside the slabs a ranger states, nothing changes what it sees; just inside, it does. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Ranger } from '../../../src/sensors/ranger.js';
import { type Capsule, EMPTY, type Place, seenBy, timeOfFlight, triangulation, upright } from './building.js';

const n = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const place: fc.Arbitrary<Place> = fc
  .record({
    mount: fc.constantFrom('left-jamb' as const, 'right-jamb' as const, 'lintel' as const),
    height_m: n(0.2, 1.8),
    at_m: n(-0.2, 0.2),
    tilt_deg: n(-30, 30),
    turn_deg: n(-30, 30),
    width_m: n(0.6, 1.4),
  })
  .map(({ width_m, height_m, ...mounting }) => ({
    width_m,
    mounting: { ...mounting, height_m: mounting.mount === 'lintel' ? 2 : height_m },
  }));
const end = fc.tuple(n(-0.3, 1.7), n(-0.6, 0.6), n(0, 2));
const limb = fc
  .tuple(end, end, n(0.01, 0.3))
  .map(([[ax, ay, az], [bx, by, bz], r]): Capsule => [ax, ay, az, bx, by, bz, r]);
const push = fc.tuple(fc.constantFrom('ahead', 'back', 'above', 'below'), n(1e-9, 0.05));

/** The limb, moved until all of it is so much outside one of the slabs. */
function pushed({ near_m, heights_m }: Ranger, limb: Capsule, [side, gap]: [string, number]): Capsule {
  const [ax, ay, az, bx, by, bz, r] = limb;
  if (side === 'ahead' || side === 'back') {
    const dy = side === 'ahead' ? near_m[1] + gap + r - Math.min(ay, by) : near_m[0] - gap - r - Math.max(ay, by);
    return [ax, ay + dy, az, bx, by + dy, bz, r];
  }
  const dz = side === 'above' ? heights_m[1] + gap + r - Math.min(az, bz) : heights_m[0] - gap - r - Math.max(az, bz);
  return [ax, ay, az + dz, bx, by, bz + dz, r];
}

const KINDS: readonly (readonly [string, (at: Place) => Ranger])[] = [
  ['triangulation', (at) => triangulation({ range_m: 10 }, at)],
  ['triangulation, a fat spot', (at) => triangulation({ spot_diameter_m: 0.2, spot_growth_m_per_m: 0.4 }, at)],
  ['time of flight', (at) => timeOfFlight({ range_m: 20 }, at)],
  ['time of flight, a wide cone', (at) => timeOfFlight({ range_m: 20, half_angle_deg: 40 }, at)],
];

describe.each(KINDS)('%s', (_, make) => {
  test('limbs wholly out of its slabs change nothing, whoever else is there', () => {
    fc.assert(
      fc.property(place, limb, push, limb, fc.boolean(), (at, outside, way, other, alone) => {
        const ranger = make(at);
        const others = alone ? [] : [other];
        expect(seenBy(ranger, [pushed(ranger, outside, way), ...others])).toBe(seenBy(ranger, others));
      }),
      { seed: 17, numRuns: 1000 },
    );
  });

  test('the slab is no wider than it must be: a limb 2 mm inside it, before the far jamb, is seen', () => {
    const ranger = make({});
    for (const side of [-1, 1]) {
      const y = side * (ranger.near_m[1] + 0.02 - 0.002);
      expect(seenBy(ranger, [upright(0.7999, y, 0.02)])).not.toBe(ranger.sees(EMPTY));
      expect(seenBy(ranger, [upright(0.7999, y + side * 0.003, 0.02)])).toBe(ranger.sees(EMPTY));
    }
    // So is one that hangs into it from above.
    const z = ranger.heights_m[1] + 0.02 - 0.002;
    expect(seenBy(ranger, [[0.7999, -0.5, z, 0.7999, 0.5, z, 0.02]])).not.toBe(ranger.sees(EMPTY));
  });
});

test('a spot is a few centimetres wide, a cone of 12.5° some decimetres', () => {
  expect(triangulation().near_m[1]).toBeCloseTo(0.012, 9);
  expect(timeOfFlight().near_m[1]).toBeCloseTo(0.8 * Math.tan((12.5 * Math.PI) / 180), 9);
});
