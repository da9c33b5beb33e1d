/** Which bodies are heard, and how far away: against the sonar equation in dB, and what moves with what. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEG, cos, sin } from '../../../src/engine/arithmetic.js';
import { absorption, speedOfSound } from '../../../src/sensors/ultrasonic/air.js';
import { levelOf } from '../../../src/sensors/ultrasonic/decibel.js';
import { directivity, directivityTable, sizeInWaves } from '../../../src/sensors/ultrasonic/piston.js';
import { makeUltrasonic } from '../../../src/sensors/ultrasonic/ranger.js';
import { type Built, EMPTY, placeOf, sceneOf, upright } from './building.js';

/** Open space: no echo but of bodies. Walls drown in a bounce loss of 60 dB. */
const OPEN: Built = { width_m: 6, height_m: 5, mounting: { height_m: 2.5 }, sensor: { bounce_loss_db: 60 } };
/** A long upright limb whose surface is `d` away, `angle` off the axis. */
function limbAt(d: number, angle_deg: number, radius: number, clothing = 0) {
  const r = d + radius;
  return sceneOf([upright(r * cos(angle_deg * DEG), r * sin(angle_deg * DEG), radius, 3, 2.5)], clothing);
}
const open = (sensor: Built['sensor'] = {}, air: Built['air'] = {}): Built => ({
  ...OPEN,
  sensor: { ...OPEN.sensor, ...sensor },
  air,
});

test('open space is silent', () => {
  expect(makeUltrasonic(placeOf(OPEN)).sees(EMPTY)).toBe(Infinity);
});

test('level = source − 40·lg R − 2αR + TS + 2·D − clothing decides, to 0.1 dB, at random places', () => {
  const ka = sizeInWaves(40_000, 0.007, 343.2);
  const alpha = absorption(40_000, { temperature_c: 20, humidity_percent: 50, pressure_kpa: 101.325 });
  const ranger = makeUltrasonic(placeOf(open({ diffuse_db: -60 })));
  let heard = 0;
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 3.5, noNaN: true }),
      fc.double({ min: 0, max: 60, noNaN: true }),
      fc.double({ min: 0.02, max: 0.2, noNaN: true }),
      fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      (d, angle, radius, u) => {
        const cylinder = Math.min((radius * d) / 2, (d * d) / 4);
        const s = sin(angle * DEG);
        const level =
          105 -
          40 * Math.log10(d) -
          2 * alpha * d +
          10 * Math.log10(Math.max(cylinder, Math.min((radius * radius) / 4, (d * d) / 4))) +
          2 * levelOf(directivity(ka, 6, s * s)) -
          12 * u;
        fc.pre(Math.abs(level - 68) > 0.1);
        const sees = ranger.sees(limbAt(d, angle, radius, u));
        if (level > 68) {
          heard++;
          expect(sees).toBeCloseTo(d, 9);
        } else expect(sees).not.toBeCloseTo(d, 9);
      },
    ),
    { seed: 1, numRuns: 2000 },
  );
  expect(heard).toBeGreaterThan(300);
});

test('random limbs at any slant, against a plain search for both places they echo from', () => {
  const ka = sizeInWaves(40_000, 0.007, 343.2);
  const alpha = absorption(40_000, { temperature_c: 20, humidity_percent: 50, pressure_kpa: 101.325 });
  const wave = 0.00858;
  const ranger = makeUltrasonic(placeOf(OPEN));
  /** Level of an echo, dB re the threshold, by formulas: place at `along`, `aside` of the axis, σ seen from `t` on the limb. */
  const level = (along: number, aside: number, t: number, length: number, radius: number): number => {
    const d = Math.hypot(along, aside);
    const half = Math.sqrt(wave * d) / 2;
    const seen = Math.max(0, Math.min(length, t + half) - Math.max(0, t - half));
    const area = Math.min(Math.max((radius * seen * seen) / (2 * wave), (radius * radius) / 4), (d * d) / 4);
    const beam = levelOf(directivity(ka, 6, Math.min(1, (aside * aside) / (d * d))));
    return 105 - 68 - 40 * Math.log10(d) - 2 * alpha * d + 10 * Math.log10(area) + 2 * beam;
  };
  const part = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
  const place = fc.tuple(part(0.4, 1.5), part(-0.8, 0.8), part(-0.8, 0.8));
  // Half of them anywhere, half leaning away from the ranger through its axis.
  const ends = fc.oneof(
    fc.tuple(place, place),
    fc
      .tuple(part(0.3, 0.5), part(-0.6, 0.6), part(-0.6, 0.6), part(0.6, 1))
      .map(([x, y, z, cross]) => [[x, y, z] as const, [x + 1.8 * (cross - x), -0.8 * y, -0.8 * z] as const]),
  );
  const count = { mirror: 0, diffuse: 0, none: 0 };
  fc.assert(
    fc.property(ends, part(0.02, 0.15), ([a, b], radius) => {
      const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
      fc.pre(length > 0.1);
      // Walk along the limb's line, also past its ends for the foot of the perpendicular.
      let [foot, least] = [0, Infinity];
      let [near, nearest] = [[0, 0, 0], Infinity];
      let [beside, aside, alongBeside] = [0, Infinity, 0];
      for (let t = -1; t <= length + 1; t += 0.0005) {
        const [x, y, z] = [0, 1, 2].map((i) => a[i]! + (t / length) * (b[i]! - a[i]!)) as [number, number, number];
        const [d, off] = [Math.hypot(x, y, z), Math.hypot(y, z)];
        if (d < least) [foot, least] = [t, d];
        if (t < 0 || t > length) continue;
        if (d < nearest) [near, nearest] = [[x, y, z], d];
        if (off < aside) [beside, aside, alongBeside] = [t, off, x];
      }
      const share = (nearest - radius) / nearest;
      const mirror = level(near[0]! * share, Math.hypot(near[1]!, near[2]!) * share, foot, length, radius);
      const entry = aside > radius ? alongBeside : alongBeside - Math.sqrt(radius * radius - aside * aside);
      const diffuse = level(entry, Math.max(0, aside - radius), beside, length, radius) - 15;
      fc.pre(Math.abs(mirror) > 0.3 && Math.abs(diffuse) > 0.3);
      const expected =
        mirror > 0 ? nearest - radius : diffuse > 0 ? Math.hypot(entry, Math.max(0, aside - radius)) : Infinity;
      count[mirror > 0 ? 'mirror' : diffuse > 0 ? 'diffuse' : 'none']++;
      const scene = sceneOf([[a[0], a[1], 2.5 + a[2], b[0], b[1], 2.5 + b[2], radius]], 1e-9);
      const sees = ranger.sees(scene);
      if (expected === Infinity) expect(sees).toBe(Infinity);
      else expect(Math.abs(sees - expected)).toBeLessThan(0.005);
    }),
    { seed: 6, numRuns: 600 },
  );
  expect(Math.min(count.mirror, count.diffuse, count.none)).toBeGreaterThan(10);
});

test('tables agree with formulas: directivity to 0.003 of the power on the axis, and to 0.1 dB down to −25 dB', () => {
  for (const ka of [1, 5.126, 20, 90]) {
    const table = directivityTable(ka, 6);
    for (let i = 0; i <= 5000; i++) {
      const exact = directivity(ka, 6, i / 5000);
      const got = table.at(i / 5000);
      expect(Math.abs(got - exact)).toBeLessThan(0.003);
      if (exact > 0.00316) expect(Math.abs(levelOf(got / exact))).toBeLessThan(0.1);
    }
  }
});

describe('default settings hear', () => {
  const seen = (built: Built, scene = EMPTY): number => makeUltrasonic(placeOf(built)).sees(scene);

  test('the far jamb straight across, up to 4 m', () => {
    for (const width_m of [0.5, 0.8, 2, 4]) expect(seen({ width_m })).toBe(width_m);
  });

  test('most trunks at 2 m: 0.1 m thick ones in four fifths of clothes, 0.15 m ones in nine tenths', () => {
    expect(seen(open(), limbAt(2, 0, 0.1, 0.79))).toBeCloseTo(2, 9);
    expect(seen(open(), limbAt(2, 0, 0.15, 0.9))).toBeCloseTo(2, 9);
    expect(seen(open(), limbAt(2, 0, 0.1, 0.99))).toBe(Infinity);
  });

  test('a child’s bare forearm at 0.8 m, and in any clothes', () => {
    for (const u of [0.01, 0.99]) expect(seen(open(), limbAt(0.8, 0, 0.025, u))).toBeCloseTo(0.8, 9);
  });

  test('a leg 25° off the axis at 0.8 m in most clothes, not in all', () => {
    expect(seen(open(), limbAt(0.8, 25, 0.05, 0.6))).toBeCloseTo(0.8, 9);
    expect(seen(open(), limbAt(0.8, 25, 0.05, 0.99))).toBe(Infinity);
  });

  test('a trunk at 0.5 m up to some 30° to 40° off the axis, by its clothes', () => {
    const edge = (u: number): number => {
      const ranger = makeUltrasonic(placeOf(open()));
      let angle = 0;
      while (ranger.sees(limbAt(0.5, angle, 0.12, u)) < 0.51) angle += 0.5;
      return angle;
    };
    expect(edge(0.01)).toBeGreaterThan(35);
    expect(edge(0.01)).toBeLessThan(42);
    expect(edge(0.99)).toBeGreaterThan(28);
    expect(edge(0.99)).toBeLessThan(35);
  });
});

describe('what moves with what', () => {
  /** Angle up to which a limb at 0.8 m is heard. */
  const width = (built: Built): number => {
    const ranger = makeUltrasonic(placeOf(built));
    let angle = 0;
    while (angle < 90 && ranger.sees(limbAt(0.8, angle, 0.05)) < Infinity) angle += 0.25;
    return angle;
  };
  /** Distance up to which a trunk on the axis is heard. */
  const reach = (built: Built, clothing = 0): number => {
    const ranger = makeUltrasonic(placeOf(built));
    let d = 0.1;
    while (d < 4 && ranger.sees(limbAt(d, 0, 0.12, clothing)) < Infinity) d += 0.01;
    return d;
  };

  test('the cone: narrower for a larger piston and for shorter waves', () => {
    expect(width(open({ piston_radius_m: 0.005 }))).toBeGreaterThan(width(open()) + 3);
    expect(width(open())).toBeGreaterThan(width(open({ piston_radius_m: 0.009 })) + 3);
    expect(width(open())).toBeGreaterThan(width(open({ frequency_khz: 58 })) + 3);
  });

  test('the reach: with humidity as absorption goes, longest in dry air, shortest near 55 %', () => {
    const by = [10, 30, 55, 100].map((humidity_percent) => reach(open({ threshold_db: 74 }, { humidity_percent })));
    expect(by[0]).toBeGreaterThan(by[1]!);
    expect(by[1]).toBeGreaterThan(by[2]!);
    expect(by[3]).toBeGreaterThan(by[2]!);
  });

  test('the reach: shorter in thicker clothes, longer for a louder burst and a lower threshold alike', () => {
    expect(reach(open({}), 0.99)).toBeLessThan(reach(open({}), 0.01) - 0.3);
    expect(reach(open({ source_level_db: 110 }), 0.9)).toBeGreaterThan(reach(open(), 0.9) + 0.1);
    expect(reach(open({ source_level_db: 110 }), 0.9)).toBe(reach(open({ threshold_db: 63 }), 0.9));
  });

  test('no echo beyond the range, nor later than the controller waits', () => {
    expect(reach(open({ range_m: 1 }))).toBeCloseTo(1, 1);
    // 5 ms are 0.858 m at 343.2 m/s.
    expect(reach(open({ time_out_ms: 5 }))).toBeCloseTo((0.005 * speedOfSound(20)) / 2, 1);
  });
});

describe('which echo wins', () => {
  const ranger = makeUltrasonic(placeOf(OPEN));

  test('the earliest, not the loudest', () => {
    const scene = sceneOf([upright(1.15, 0, 0.15, 1, 2.5), upright(0.93, 0.2, 0.03, 1, 2.5)], 0);
    const finger = Math.sqrt(0.93 * 0.93 + 0.2 * 0.2) - 0.03;
    expect(finger).toBeLessThan(1);
    expect(ranger.sees(scene)).toBeCloseTo(finger, 9);
  });

  test('nearer than the blind zone is not heard, the next is', () => {
    const scene = sceneOf([upright(0.04, 0, 0.03, 0.1, 2.5), upright(1.1, 0, 0.1, 1, 2.5)], 0);
    expect(ranger.sees(scene)).toBeCloseTo(1, 9);
  });

  test('a limb that leans away throws its mirror echo aside, and is heard diffusely where the beam meets it', () => {
    // Leaning 60° through the axis at 0.6 m. Its nearest point is its end, 24° off the axis: near the first null of a
    // piston of 12.5 mm, sin⁻¹(3.832/9.154) = 24.7°.
    const [c, s] = [cos(60 * DEG), sin(60 * DEG)];
    const leaning = [0.6 - 0.3 * s, 0, 2.5 - 0.3 * c, 0.6 + 0.3 * s, 0, 2.5 + 0.3 * c, 0.04] as const;
    const seen = (diffuse_db: number): number =>
      makeUltrasonic(placeOf(open({ diffuse_db, piston_radius_m: 0.0125 }))).sees(sceneOf([leaning], 0.01));
    expect(seen(-60)).toBe(Infinity);
    // The axis enters it a radius over cos 60° before its own axis; taken for a sphere there, a radius before or less.
    expect(seen(-15)).toBeGreaterThan(0.6 - 0.04 / c);
    expect(seen(-15)).toBeLessThan(0.6);
  });

  test('what is behind the transducer is not heard', () => {
    expect(ranger.sees(sceneOf([upright(-0.5, 0, 0.15, 1, 2.5)], 0))).toBe(Infinity);
  });

  test('the echo of a limb that moves aside or tips over changes without a jump until it is lost', () => {
    const at = (lean: number): number => {
      const [c, s] = [cos(lean * DEG), sin(lean * DEG)];
      return ranger.sees(sceneOf([[0.6 - 0.25 * s, 0, 2.5 - 0.25 * c, 0.6 + 0.25 * s, 0, 2.5 + 0.25 * c, 0.06]], 0));
    };
    for (let lean = 0; lean < 25; lean += 0.1) expect(Math.abs(at(lean + 0.1) - at(lean))).toBeLessThan(0.002);
  });
});
