/** Where beams look: right-angled triangles by hand, and what holds of every direction. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Mounting, barrierLine, rangerLine } from '../../src/geometry/mounting.js';

const OPENING = { width_m: 0.9, height_m: 2.1 };
const near = (got: { x: number; y: number; z: number }, x: number, y: number, z: number): void => {
  expect(got.x).toBeCloseTo(x, 12);
  expect(got.y).toBeCloseTo(y, 12);
  expect(got.z).toBeCloseTo(z, 12);
};

describe('a light barrier', () => {
  const beam = { at_m: 0.04, height_m: 1 };
  test('goes straight across, from whichever jamb', () => {
    const left = barrierLine({ mount: 'left-jamb', ...beam }, OPENING);
    near(left.from, 0, 0.04, 1);
    near(left.to, 0.9, 0.04, 1);
    const right = barrierLine({ mount: 'right-jamb', ...beam }, OPENING);
    near(right.from, 0.9, 0.04, 1);
    near(right.to, 0, 0.04, 1);
  });
  test('or aslant, to where its receiver is', () => {
    const { to } = barrierLine({ mount: 'left-jamb', ...beam, far_at_m: -0.1, far_height_m: 0.4 }, OPENING);
    near(to, 0.9, -0.1, 0.4);
  });
});

describe('a ranger', () => {
  const jamb: Mounting = { mount: 'left-jamb', at_m: 0.05, height_m: 1 };
  const lintel: Mounting = { mount: 'lintel', at_m: 0.05, height_m: 2 };
  test('in a jamb looks at the other one', () => {
    near(rangerLine(jamb, OPENING).to, 0.9, 0.05, 1);
    near(rangerLine({ ...jamb, mount: 'right-jamb' }, OPENING).to, 0, 0.05, 1);
  });
  test('under the lintel looks at the floor, from the middle unless it is put elsewhere', () => {
    near(rangerLine(lintel, OPENING).from, 0.45, 0.05, 2);
    near(rangerLine(lintel, OPENING).to, 0.45, 0.05, 0);
    near(rangerLine({ ...lintel, across_m: 0.2 }, OPENING).to, 0.2, 0.05, 0);
  });
  test('tilted by 45° in a jamb it rises as much as it goes across, or falls', () => {
    near(rangerLine({ ...jamb, tilt_deg: 45 }, OPENING).to, 0.9, 0.05, 1.9);
    near(rangerLine({ ...jamb, mount: 'right-jamb', tilt_deg: -45 }, OPENING).to, 0, 0.05, 0.1);
  });
  test('tilted by 30° under the lintel it meets the right jamb where a half square of side 0.45 m says', () => {
    // tan 30° = 1 / √3: 0.45 m across are 0.45 · √3 m down.
    near(rangerLine({ ...lintel, tilt_deg: 30 }, OPENING).to, 0.9, 0.05, 2 - 0.45 * Math.sqrt(3));
    near(rangerLine({ ...lintel, tilt_deg: -30 }, OPENING).to, 0, 0.05, 2 - 0.45 * Math.sqrt(3));
  });
  test('turned by 60° it goes along the walk √3 times as far as across, or as far down', () => {
    near(rangerLine({ ...jamb, turn_deg: 60 }, OPENING).to, 0.9, 0.05 + 0.9 * Math.sqrt(3), 1);
    near(rangerLine({ ...lintel, turn_deg: -60 }, OPENING).to, 0.45, 0.05 - 2 * Math.sqrt(3), 0);
  });
  test('tilted first and turned then: its slope across is that of the tilt, whatever the turn', () => {
    const angle = fc.integer({ min: -60, max: 60 });
    fc.assert(
      fc.property(angle, angle, (tilt_deg, turn_deg) => {
        const slope = Math.tan((tilt_deg * Math.PI) / 180);
        const along = 1 / Math.cos((turn_deg * Math.PI) / 180);
        const across = rangerLine({ ...jamb, tilt_deg, turn_deg }, OPENING);
        const dx = across.to.x - across.from.x;
        const dz = across.to.z - across.from.z;
        expect(dz).toBeCloseTo(dx * slope, 9);
        // Turned out of the door plane: y over the length within the plane is the tangent of the turn.
        const dy = across.to.y - across.from.y;
        expect(Math.hypot(dx, dy, dz)).toBeCloseTo(Math.hypot(dx, dz) * along, 9);
        const down = rangerLine({ ...lintel, tilt_deg, turn_deg }, OPENING);
        expect(down.to.x - down.from.x).toBeCloseTo((down.from.z - down.to.z) * slope, 9);
        expect(Math.sign(down.to.y - down.from.y)).toBe(Math.sign(turn_deg));
      }),
      { seed: 1 },
    );
  });
});
