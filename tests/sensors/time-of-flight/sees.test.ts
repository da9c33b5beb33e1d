/** What a time-of-flight ranger sees: strength of returns, mixed targets, blind zone, range in light and dark. */
import { describe, expect, test } from 'vitest';
import { DEG } from '../../../src/engine/arithmetic.js';
import type { TimeOfFlightRanger } from '../../../src/sensors/time-of-flight/schema.js';
import { type Capsule, EMPTY, type Place, sceneOf, seenBy, timeOfFlight, upright } from '../optics/building.js';

/** White card: everything reflects 0.88. */
const WHITE = { reflectance_least: 0.88, reflectance_most: 0.88, jamb_reflectance: 0.88 } as const;
/** A narrow cone, so that one limb fills it anywhere in a hall. */
const NARROW = { half_angle_deg: 1, range_m: 3, ...WHITE } as const;
const HALL: Place = { width_m: 9 };

/** Whether a body whose front is so far away, filling the cone, is seen where it is. */
function seesAt(distance_m: number, sensor: Partial<TimeOfFlightRanger>, at: Place = {}): boolean {
  const seen = seenBy(timeOfFlight({ ...NARROW, ...sensor }, { ...HALL, ...at }), [upright(distance_m + 0.2, 0, 0.2)]);
  if (seen === Infinity) return false;
  expect(seen).toBeCloseTo(distance_m, 9);
  return true;
}

test('an empty door: the far jamb, or nothing when it is out of range', () => {
  expect(timeOfFlight().sees(EMPTY)).toBeCloseTo(0.8, 12);
  expect(timeOfFlight({ range_m: 0.7 }).sees(EMPTY)).toBe(Infinity);
});

describe('how far it sees', () => {
  test('white card in the dark at the usual budget: the stated range', () => {
    expect(seesAt(2.99, {})).toBe(true);
    expect(seesAt(3.01, {})).toBe(false);
  });

  // Where the strength of 0.88/3² comes from: a quarter of the reflectance at half the way; daylight divides the way;
  // at 16 times the budget a quarter of the strength will do, which is twice the way.
  test.each<[string, number, Partial<TimeOfFlightRanger>, number]>([
    ['a quarter of the reflectance', 1.5, { reflectance_least: 0.22, reflectance_most: 0.22 }, 0],
    ['daylight that halves it', 1.5, {}, 10],
    ['three times that daylight', 0.75, {}, 30],
    ['three times that, with 16 times the budget', 1.5, { timing_budget_ms: 528 }, 30],
    ['a sixteenth of the budget', 1.5, { timing_budget_ms: 33 / 16 }, 0],
  ])('%s: %d m', (_, range_m, sensor, sunlight_klx) => {
    expect(seesAt(range_m - 0.01, sensor, { sunlight_klx })).toBe(true);
    expect(seesAt(range_m + 0.01, sensor, { sunlight_klx })).toBe(false);
  });

  test('a longer budget than the usual one takes it no further than the range in the dark', () => {
    expect(seesAt(2.99, { timing_budget_ms: 528 })).toBe(true);
    expect(seesAt(3.01, { timing_budget_ms: 528 })).toBe(false);
  });

  test('clothes that draw dark are lost before those that draw bright', () => {
    const ranger = timeOfFlight({ ...NARROW, reflectance_least: 0.1, reflectance_most: 0.8 }, HALL);
    // 0.88/9 = 0.1/d² at 1.01 m, 0.8/d² at 2.86 m.
    const seen = (d: number, drawn: number) => seenBy(ranger, [upright(d + 0.2, 0, 0.2)], drawn) < Infinity;
    expect([seen(1, 0), seen(1.02, 0)]).toEqual([true, false]);
    expect([seen(2.85, 1), seen(2.87, 1)]).toEqual([true, false]);
  });
});

describe('mixed targets', () => {
  const growth = Math.tan(12.5 * DEG);
  /** Share of the cone that an upright limb in its middle covers: (2/π)·(asin w + w·√(1 − w²)), handbooks. */
  const stripOf = (radius: number, distance: number): number => {
    const w = radius / (growth * distance);
    return (2 / Math.PI) * (Math.asin(w) + w * Math.sqrt(1 - w * w));
  };
  const thin = (x: number): Capsule => upright(x, 0, 0.02, 1.2);

  test('nearer to each other than 0.3 m: the mean, weighted by share, reflectance and 1/d²', () => {
    const ranger = timeOfFlight({ reflectance_least: 0.4, reflectance_most: 0.4, jamb_reflectance: 0.7 });
    const share = stripOf(0.02, 0.6);
    const [body, jamb] = [(share * 0.4) / 0.58 ** 2, ((1 - share) * 0.7) / 0.8 ** 2];
    expect(seenBy(ranger, [thin(0.6)])).toBeCloseTo((body * 0.58 + jamb * 0.8) / (body + jamb), 4);
  });

  test('further from each other: the nearer one alone', () => {
    expect(seenBy(timeOfFlight({}, { width_m: 1.2 }), [thin(0.6)])).toBeCloseTo(0.58, 9);
  });

  test('unless it is too weak: then it only takes some light from what is behind', () => {
    // A strip of 4 cm at 0.6 m covers 19 % of the cone: 0.1·0.19/0.58² = 0.057, less than 0.88/3² = 0.098.
    const dark = seenBy(timeOfFlight({}, { width_m: 1.2 }), [thin(0.6)], 0);
    expect(dark).toBeCloseTo(1.2, 9);
  });

  test('a limb that comes into the cone pulls what is seen to itself, without a leap while it is near the jamb', () => {
    const ranger = timeOfFlight();
    const seen = Array.from({ length: 400 }, (_, i) => seenBy(ranger, [upright(0.65, 0.24 - i * 6e-4, 0.08)]));
    expect(seen[0]).toBeCloseTo(0.8, 12);
    expect(seen.at(-1)).toBeLessThan(0.65);
    for (const [i, one] of seen.entries()) if (i > 0) expect(Math.abs(seen[i - 1]! - one)).toBeLessThan(0.005);
  });

  test('the brighter of two clothes pulls more', () => {
    const scene = sceneOf([upright(0.65, 0.08, 0.08)]);
    const seen = [0.01, 0.5, 0.99].map((drawn) => {
      scene.clothing[0] = drawn;
      return timeOfFlight().sees(scene);
    });
    expect(seen).toEqual([...seen].sort((a, b) => b - a));
  });
});

describe('the blind zone', () => {
  test('what fills the cone there hides everything and gives nothing', () => {
    expect(seenBy(timeOfFlight({ blind_m: 0.03 }), [upright(0.02 + 0.1, 0, 0.1)])).toBe(Infinity);
    expect(seenBy(timeOfFlight({ blind_m: 0.03 }), [upright(0.04 + 0.1, 0, 0.1)])).toBeCloseTo(0.04, 9);
  });

  test('what fills part of it leaves the jamb to be seen, and doesn’t pull it nearer', () => {
    const finger: Capsule = [0.025, 0, 1, 0.025, 0, 1.2, 0.002];
    expect(seenBy(timeOfFlight({ blind_m: 0.03 }), [finger])).toBeCloseTo(0.8, 9);
  });

  test('leads no group: a dark and a bright target behind it are mixed as without it', () => {
    const two: Capsule[] = [upright(0.2, 0.01, 0.005, 0.5), upright(0.45, -0.01, 0.005, 0.5)];
    const ranger = timeOfFlight({ blind_m: 0.15, reflectance_least: 0.01, reflectance_most: 1 });
    const seen = (...more: Capsule[]): number => {
      const scene = sceneOf([...two, ...more]);
      scene.clothing[0] = 0.05;
      scene.clothing[1] = 0.99;
      return ranger.sees(scene);
    };
    expect(seen()).toBeGreaterThan(0.3);
    expect(seen()).toBeLessThan(0.4);
    expect(seen(upright(0.14, 0.04, 0.015, 0.1))).toBeCloseTo(seen(), 2);
  });
});

test('under the lintel: the floor, a head below it', () => {
  const lintel: Place = { mounting: { mount: 'lintel', height_m: 2 } };
  expect(timeOfFlight({}, lintel).sees(EMPTY)).toBeCloseTo(2, 9);
  const body: Capsule[] = [
    [0.4, 0, 1.65, 0.4, 0, 1.65, 0.1],
    [0.4, 0, 1, 0.4, 0, 1.35, 0.16],
  ];
  // The head's crown is 0.25 m below; it fills the cone, which is 0.078 m in radius where it is widest.
  expect(seenBy(timeOfFlight({}, lintel), body)).toBeCloseTo(0.25, 2);
});
