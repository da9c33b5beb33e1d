/** The frame's own echoes, and where along the walk anything matters. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEG, cos, sin } from '../../../src/engine/arithmetic.js';
import { standsIn } from '../../../src/sensors/ultrasonic/blocking.js';
import { makeUltrasonic } from '../../../src/sensors/ultrasonic/ranger.js';
import { type Built, type Capsule, EMPTY, placeOf, sceneOf, upright } from './building.js';

const idle = (built: Built): number => makeUltrasonic(placeOf(built)).sees(EMPTY);

describe('the empty frame', () => {
  test('is heard at the foot of the perpendicular, also when the axis leans a little', () => {
    for (const turn_deg of [0, 5, -10, 20]) expect(idle({ mounting: { turn_deg } })).toBe(0.8);
    for (const tilt_deg of [-15, 10]) expect(idle({ mounting: { tilt_deg } })).toBe(0.8);
  });

  test('under the lintel: the floor', () => {
    expect(idle({ mounting: { mount: 'lintel', height_m: 2 } })).toBe(2);
  });

  test('is lost when the beam is turned out of the frame, and shows diffusely where a tilted axis meets it', () => {
    expect(idle({ mounting: { turn_deg: 45 } })).toBe(Infinity);
    // Tilted 50° down from 0.5 m: the floor is met at 0.5/sin 50°, nearer than that at its foot's side lobe.
    const down = { mounting: { height_m: 0.5, tilt_deg: -50 }, width_m: 3 };
    expect(idle(down)).toBeCloseTo(0.5 / Math.sin((50 * Math.PI) / 180), 6);
    expect(idle({ ...down, sensor: { diffuse_db: -60 } })).toBe(Infinity);
  });

  test('a ranger near the floor hears its own side lobe there, less with shading', () => {
    expect(idle({ mounting: { height_m: 0.04 } })).toBe(0.04);
    expect(idle({ mounting: { height_m: 0.2 } })).toBe(0.8);
    expect(idle({ mounting: { height_m: 0.2 }, sensor: { shading_db: 0 } })).toBe(0.2);
  });

  test('sinks below the threshold with what the bounce takes: 105 − 20·lg 1.6 − 1.318·1.6 − loss = 98.8 − loss', () => {
    expect(idle({ sensor: { bounce_loss_db: 30.7 } })).toBe(0.8);
    expect(idle({ sensor: { bounce_loss_db: 30.9 } })).toBe(Infinity);
  });

  test('wins against a body behind it, also where the tilted axis meets the frame later', () => {
    // A ball on the axis, tilted by 15°: its echo at 0.81 m comes between the jamb's at 0.8 m and its diffuse one.
    const [c, s] = [cos(15 * DEG), sin(15 * DEG)];
    const ball: Capsule = [0.91 * c, 0, 1 + 0.91 * s, 0.91 * c, 0, 1 + 0.91 * s, 0.1];
    expect(makeUltrasonic(placeOf({ mounting: { tilt_deg: 15 } })).sees(sceneOf([ball], 0.1))).toBe(0.8);
  });

  test('is hidden by a body that touches the way, even one that isn’t heard', () => {
    const ranger = makeUltrasonic(placeOf());
    const blind = (y: number) => sceneOf([upright(0.01, y, 0.02, 0.02)], 0.5);
    expect(ranger.sees(blind(0.019))).toBe(Infinity);
    expect(ranger.sees(blind(0.021))).toBe(0.8);
  });
});

const coordinate = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const capsule = (y0: number, y1: number): fc.Arbitrary<Capsule> =>
  fc.tuple(
    coordinate(0, 0.8),
    coordinate(y0, y1),
    coordinate(0, 2),
    coordinate(0, 0.8),
    coordinate(y0, y1),
    coordinate(0, 2),
    coordinate(0.02, 0.3),
  );

test('a capsule stands in a way exactly when some pair of points is nearer than its radius', () => {
  fc.assert(
    fc.property(capsule(-0.3, 0.3), capsule(-0.3, 0.3), ([ax, ay, az, bx, by, bz], limb) => {
      const [cx, cy, cz, dx, dy, dz, radius] = limb;
      let least = Infinity;
      const steps = 100;
      for (let i = 0; i <= steps; i++) {
        for (let j = 0; j <= steps; j++) {
          const [s, t] = [i / steps, j / steps];
          const x = ax + s * (bx - ax) - cx - t * (dx - cx);
          const y = ay + s * (by - ay) - cy - t * (dy - cy);
          const z = az + s * (bz - az) - cz - t * (dz - cz);
          least = Math.min(least, Math.sqrt(x * x + y * y + z * z));
        }
      }
      // The grid's least is at most some millimetres too long.
      fc.pre(Math.abs(least - radius) > 0.02);
      expect(standsIn(sceneOf([limb]), 0, ax, ay, az, bx, by, bz)).toBe(least < radius);
    }),
    { seed: 2, numRuns: 300 },
  );
});

describe('outside near_m and heights_m nothing changes what is seen', () => {
  const places: [string, Built][] = [
    ['straight across', {}],
    ['turned', { mounting: { turn_deg: 20, at_m: 0.1 } }],
    ['turned out of the frame', { mounting: { turn_deg: 50 } }],
    ['under the lintel', { mounting: { mount: 'lintel', height_m: 2, tilt_deg: 10 } }],
    ['loud, with side lobes', { sensor: { source_level_db: 130, piston_radius_m: 0.012, shading_db: 0 } }],
  ];
  test.each(places)('%s', (_, built) => {
    const ranger = makeUltrasonic(placeOf(built));
    const { near_m, heights_m } = ranger;
    /** Just beyond one end or the other of y (1) or z (2), by so much at either end of the limb. */
    const beyond = (limb: Capsule, axis: 1 | 2, above: boolean): Capsule => {
      const [low, high] = axis === 1 ? near_m : heights_m;
      const moved = [...limb] as [...Capsule];
      for (const end of [axis, axis + 3]) moved[end] = above ? high + limb[6] + limb[end]! : low - limb[6] - limb[end]!;
      return moved;
    };
    const along = fc.tuple(capsule(0, 1), fc.boolean()).map(([limb, above]) => beyond(limb, 1, above));
    const upright = fc.tuple(capsule(-0.3, 0.3), fc.boolean()).map(([limb, above]) => beyond(limb, 2, above));
    const middle = (near_m[0] + near_m[1]) / 2;
    const inside = fc.array(capsule(middle - 0.3, middle + 0.3), { maxLength: 3 });
    const outside = fc.array(fc.oneof(along, upright), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(inside, outside, coordinate(0.001, 0.999), (some, more, u) => {
        expect(ranger.sees(sceneOf([...some, ...more], u))).toBe(ranger.sees(sceneOf(some, u)));
      }),
      { seed: 3, numRuns: 400 },
    );
  });

  test('and the bounds are tight: some body is heard that touches the last tenth within them', () => {
    const ranger = makeUltrasonic(placeOf());
    const [, high] = ranger.near_m;
    let edge = 0;
    for (const radius of [0.03, 0.06, 0.1, 0.15, 0.25, 0.5]) {
      for (let angle = 20; angle < 50; angle += 0.25) {
        const [c, s] = [cos(angle * DEG), sin(angle * DEG)];
        const r = 0.799 + radius;
        // Of the upright limb only what is nearest along the walk counts: it must lie beyond the bound altogether.
        if (ranger.sees(sceneOf([upright(r * c, r * s, radius, 2)], 0.001)) < 0.8)
          edge = Math.max(edge, r * s - radius);
      }
    }
    expect(edge).toBeGreaterThan(0.9 * high);
    expect(edge).toBeLessThan(high);
  });
});
