/** Ends of limbs in a spot much thinner than they are: all of the round end is there. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { spotAlong } from '../../../src/sensors/optics/spot.js';
import { Targets } from '../../../src/sensors/optics/targets.js';
import { type Capsule, sceneOf } from '../ultrasonic/building.js';

/** Straight down from a lintel, 4 mm wide. */
const DOWN = spotAlong({ from: { x: 0.4, y: 0, z: 2 }, to: { x: 0.4, y: 0, z: 0 } }, 0.002, 0);

function shareOf(limb: Capsule): number {
  const targets = new Targets();
  targets.find(sceneOf([limb]), DOWN);
  return targets.count > 0 ? targets.share[0]! : 0;
}

/** Least distance of a limb's axis from the spot's, of so many points along it. */
function awayFrom([ax, ay, , bx, by]: Capsule): number {
  let least = Infinity;
  for (let i = 0; i <= 1000; i++) {
    const t = i / 1000;
    least = Math.min(least, Math.hypot(ax + t * (bx - ax) - 0.4, ay + t * (by - ay)));
  }
  return least;
}

test('a head from above: all of the light while it is below, nothing after, however it leans', () => {
  const n = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  let below = 0;
  fc.assert(
    fc.property(n(0.25, 0.55), n(-0.15, 0.15), n(-0.05, 0.05), n(-0.05, 0.05), n(0, 0.1), (x, y, ex, ey, high) => {
      const head: Capsule = [x, y, 1.6, x + ex, y + ey, 1.6 + high, 0.09];
      // The edge of the spot is 2 mm from its middle; 1 mm more for the points and the bend of the head.
      const edge = awayFrom(head) - 0.09;
      if (edge < -0.003) expect(shareOf(head)).toBeGreaterThan(0.98);
      if (edge > 0.003) expect(shareOf(head)).toBe(0);
      if (edge < -0.003 && edge > -0.02) below++;
    }),
    { seed: 21, numRuns: 1500 },
  );
  expect(below).toBeGreaterThan(100);
});
