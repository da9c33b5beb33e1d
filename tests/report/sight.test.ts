/** What rangers are drawn to look into: against closed forms of cones cut by walls, and a handbook's piston. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BeamLine } from '../../src/geometry/beam-line.js';
import { rangerLine } from '../../src/geometry/mounting.js';
import { hull, type Flat } from '../../src/report/drawing/hull.js';
import { spread } from '../../src/report/drawing/labels.js';
import { drawnAxis, halfPowerAngle, outline, sightOf, type Box } from '../../src/report/drawing/sight.js';
import { sensorSchema, type Sensor } from '../../src/sensors/schema.js';

const OPENING = { width_m: 0.8, height_m: 2 };
const BOX: Box = { low: { x: 0, y: -5, z: 0 }, high: { x: 0.8, y: 5, z: 2 } };
const RAD = Math.PI / 180;

const cone = (half_angle_deg: number, range_m = 20): Sensor =>
  sensorSchema.parse({ kind: 'time-of-flight-ranger', half_angle_deg, range_m });
const sight = (sensor: Sensor) => {
  const found = sightOf(sensor, 20);
  if (found === null) throw new Error('a light barrier');
  return found;
};
const area = (points: readonly Flat[]): number =>
  points.reduce((sum, [x, y], i) => {
    const [nx, ny] = points[(i + 1) % points.length] ?? [0, 0];
    return sum + (x * ny - nx * y) / 2;
  }, 0);
const most = (points: readonly Flat[], axis: 0 | 1): number => Math.max(...points.map((p) => p[axis]));
const least = (points: readonly Flat[], axis: 0 | 1): number => Math.min(...points.map((p) => p[axis]));

describe('how wide the cone of an ultrasonic ranger is', () => {
  // sin θ = 1.616340 / (k a), the root of 2·J1(x)/x = √½ (a circular piston's far field; Kinsler, Frey, Coppens, Sanders,
  // Fundamentals of Acoustics, ch. 7, from memory), solved with J1's power series in Python; c = 343.2 m/s at 20 °C.
  test.each([
    [0.005, 26.1957],
    [0.007, 18.3797],
    [0.008, 16.0156],
  ])('a bare piston of radius %d m at 40 kHz: %d°', (piston_radius_m, degrees) => {
    const sensor = sensorSchema.parse({ kind: 'ultrasonic-ranger', piston_radius_m, shading_db: 0 });
    if (sensor.kind !== 'ultrasonic-ranger') throw new Error('another kind');
    // The directivity is the code's own, from a library's J1.
    expect(halfPowerAngle(sensor, 20) / RAD).toBeCloseTo(degrees, 3);
  });

  test('too small a piston sends everywhere', () => {
    const sensor = sensorSchema.parse({ kind: 'ultrasonic-ranger', piston_radius_m: 0.001, shading_db: 0 });
    if (sensor.kind !== 'ultrasonic-ranger') throw new Error('another kind');
    expect(halfPowerAngle(sensor, 20)).toBe(Math.PI / 2);
  });
});

describe('the outline', () => {
  test('of a level cone across the opening is a triangle of W² tan α, seen from the front and from above', () => {
    const line = rangerLine({ mount: 'left-jamb', at_m: 0, height_m: 1 }, OPENING);
    for (const seen of ['front', 'above'] as const) {
      const points = outline(line, sight(cone(15)), BOX, seen);
      expect(area(points)).toBeCloseTo(0.8 ** 2 * Math.tan(15 * RAD), 3);
      expect(most(points, 1) - least(points, 1)).toBeCloseTo(2 * 0.8 * Math.tan(15 * RAD), 3);
    }
  });

  test('of a tilted cone has its sides at tilt ± α', () => {
    const line = rangerLine({ mount: 'left-jamb', at_m: 0, height_m: 1.2, tilt_deg: -25 }, OPENING);
    const points = outline(line, sight(cone(10)), BOX, 'front');
    expect(most(points, 1)).toBeCloseTo(1.2, 3);
    const far = points.filter(([x]) => x > 0.8 - 1e-3).map(([, z]) => z);
    expect(Math.max(...far)).toBeCloseTo(1.2 - 0.8 * Math.tan(15 * RAD), 3);
    expect(Math.min(...far)).toBeCloseTo(1.2 - 0.8 * Math.tan(35 * RAD), 3);
  });

  test('from the right jamb is the mirror image', () => {
    const of = (mount: 'left-jamb' | 'right-jamb') =>
      outline(rangerLine({ mount, at_m: 0.1, height_m: 1, tilt_deg: 20 }, OPENING), sight(cone(12)), BOX, 'front');
    expect(area(of('right-jamb'))).toBeCloseTo(area(of('left-jamb')), 3);
    expect(least(of('right-jamb'), 0)).toBeCloseTo(0, 6);
    expect(most(of('right-jamb'), 1)).toBeCloseTo(most(of('left-jamb'), 1), 3);
  });

  test('under the lintel is a disc of H tan α from above, cut by the jambs', () => {
    const line = rangerLine({ mount: 'lintel', at_m: 0.05, height_m: 2 }, OPENING);
    const radius = 2 * Math.tan(15 * RAD);
    const points = outline(line, sight(cone(15)), BOX, 'above');
    expect(most(points, 1)).toBeCloseTo(0.05 + radius, 2);
    expect(least(points, 1)).toBeCloseTo(0.05 - radius, 2);
    // A disc without the two caps beyond the jambs, 0.4 m from its middle.
    const caps = 2 * (radius ** 2 * Math.acos(0.4 / radius) - 0.4 * Math.sqrt(radius ** 2 - 0.16));
    expect(area(points)).toBeCloseTo(Math.PI * radius ** 2 - caps, 2);
  });

  test('ends at the range where that is shorter than the way across', () => {
    const line = rangerLine({ mount: 'left-jamb', at_m: 0, height_m: 1 }, OPENING);
    const points = outline(line, sight(cone(15, 0.5)), BOX, 'front');
    expect(Math.max(...points.map(([x, z]) => Math.hypot(x, z - 1)))).toBeCloseTo(0.5, 3);
    expect(area(points)).toBeCloseTo(0.5 ** 2 * 15 * RAD, 3);
    expect(drawnAxis(line, 0.5, BOX).to.x).toBeCloseTo(0.5, 12);
  });

  test('of a spot of light is as wide as the spot, at the sensor and far away', () => {
    const line = rangerLine({ mount: 'left-jamb', at_m: 0, height_m: 1 }, OPENING);
    const spot = { kind: 'triangulation-ranger', spot_diameter_m: 0.01, spot_growth_m_per_m: 0.05, range_m: 5 };
    const points = outline(line, sight(sensorSchema.parse(spot)), BOX, 'above');
    const wide = (x: number): number =>
      most(
        points.filter((p) => Math.abs(p[0] - x) < 1e-3),
        1,
      );
    expect(2 * wide(0)).toBeCloseTo(0.01, 3);
    expect(2 * wide(0.8)).toBeCloseTo(0.01 + 0.8 * 0.05, 3);
  });

  const mounting = fc.record({
    mount: fc.constantFrom('left-jamb' as const, 'right-jamb' as const, 'lintel' as const),
    at_m: fc.integer({ min: -30, max: 30 }).map((cm) => cm / 100),
    height_m: fc.integer({ min: 5, max: 195 }).map((cm) => cm / 100),
    tilt_deg: fc.integer({ min: -80, max: 80 }),
    turn_deg: fc.integer({ min: -55, max: 55 }),
  });
  test('stays within the opening and holds the axis, however the ranger is mounted', () => {
    fc.assert(
      fc.property(mounting, fc.integer({ min: 1, max: 45 }), (beam, half) => {
        const placed = beam.mount === 'lintel' ? { ...beam, height_m: 2 } : beam;
        const line: BeamLine = rangerLine(placed, OPENING);
        const seen = sight(cone(half, 1.5));
        const points = outline(line, seen, BOX, 'front');
        for (const [x, z] of points) {
          expect(x).toBeGreaterThanOrEqual(-1e-4);
          expect(x).toBeLessThanOrEqual(0.8 + 1e-4);
          expect(z).toBeGreaterThanOrEqual(-1e-4);
          expect(z).toBeLessThanOrEqual(2 + 1e-4);
        }
        const { from, to } = drawnAxis(line, seen.range_m, BOX);
        const middle: Flat = [(from.x + to.x) / 2, (from.z + to.z) / 2];
        expect(insideOf(points, middle)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });
});

/** Left of every edge of a counter-clockwise outline, to a tenth of a millimetre. */
function insideOf(points: readonly Flat[], [x, y]: Flat): boolean {
  return points.every(([ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length] ?? [0, 0];
    const length = Math.hypot(bx - ax, by - ay);
    return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length >= -2e-4;
  });
}

const flat = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));
test('a hull holds every point, and has no corner of its own', () => {
  fc.assert(
    fc.property(fc.array(flat, { minLength: 3, maxLength: 40 }), (points) => {
      const around = hull(points);
      for (const corner of around) expect(points).toContainEqual(corner);
      if (around.length > 2) for (const p of points) expect(insideOf(around, p)).toBe(true);
    }),
  );
});

test('labels keep their order and their distance, and stay above the floor while there is room', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 300 }), { maxLength: 8 }),
      fc.integer({ min: 250, max: 400 }),
      (wanted, high) => {
        const sorted = [...wanted].sort((a, b) => a - b);
        const places = spread(sorted, 30, high);
        places.slice(1).forEach((place, i) => expect(place - (places[i] ?? 0)).toBeGreaterThanOrEqual(30));
        const needed = (sorted[0] ?? 0) + 30 * (sorted.length - 1);
        if (places.length > 0)
          expect(Math.max(...places)).toBeLessThanOrEqual(Math.max(high, needed, sorted.at(-1) ?? 0));
      },
    ),
  );
});
