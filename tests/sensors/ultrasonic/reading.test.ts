/** From echo to number: temperature, ticks, noise, and how long it takes. */
import fc from 'fast-check';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { NO_ECHO } from '../../../src/sensors/ranger.js';
import { makeUltrasonic } from '../../../src/sensors/ultrasonic/ranger.js';
import { type Built, EMPTY, placeOf } from './building.js';

const rangerOf = (sensor: Built['sensor'] = {}, temperature_c = 20) =>
  makeUltrasonic(placeOf({ sensor, air: { temperature_c } }));

test('the burst goes out as the turn starts, and that pose counts', () => {
  const ranger = rangerOf();
  expect(ranger.poseTime(1234)).toBe(1234);
  expect(ranger.latest_us).toBe(0);
});

describe('how long it takes', () => {
  // 2·d/c at 343.2 m/s, worked by hand.
  test.each([
    [0.02, 117],
    [0.8, 4662],
    [1.55, 9033],
    [4, 23_310],
  ])('%d m: %d µs', (d, us) => {
    expect(rangerOf().busy_us(d)).toBe(us);
  });

  test('no echo: the time-out', () => {
    expect(rangerOf().busy_us(Infinity)).toBe(38_000);
  });

  test('by the real speed of sound, whatever the controller takes for granted', () => {
    // 2·1.55/331.3 = 9.357 ms at 0 °C by the dry-air rule; 331.286 m/s gives 9.3575.
    expect(rangerOf({ assumed_temperature_c: 30 }, 0).busy_us(1.55)).toBe(9357);
  });
});

describe('the wrong temperature', () => {
  test('1.20 m at 5 °C, taken for 20 °C, reads 1.232 m: 1.20·√(293.15/278.15)', () => {
    expect(rangerOf({}, 5).reading(1.2, 0.5) / 1e6).toBeCloseTo(1.232, 3);
  });

  test('1.55 m at 30 °C, taken for 20 °C, reads 25.78 mm low', () => {
    expect(1.55e6 - rangerOf({ tick_us: 0.1 }, 30).reading(1.55, 0.5)).toBeCloseTo(25_780, -2);
  });

  test('the right one reads right, to half a tick', () => {
    for (const d of [0.05, 0.8, 1.55, 3.9]) {
      expect(
        Math.abs(rangerOf({}, 5).reading(d, 0.5) - rangerOf({ assumed_temperature_c: 5 }, 5).reading(d, 0.5)),
      ).toBeGreaterThan(1000 * d);
      // Half of 1 µs there and back: 86 µm, and the micrometre's own rounding.
      expect(Math.abs(rangerOf({ assumed_temperature_c: 5 }, 5).reading(d, 0.5) - 1e6 * d)).toBeLessThanOrEqual(87);
    }
  });
});

test('readings are whole ticks: 1 µs of echo is 171.6 µm', () => {
  const ranger = rangerOf();
  const steps = new Set<number>();
  let last = ranger.reading(1, 0.5);
  for (let d = 1; d < 1.01; d += 1e-5) {
    const reading = ranger.reading(d, 0.5);
    if (reading !== last) steps.add(reading - last);
    last = reading;
  }
  expect([...steps].sort((a, b) => a - b)).toEqual([171, 172]);
});

test('a bias is added to every reading', () => {
  expect(rangerOf({ bias_m: 0.05 }).reading(1, 0.5) - rangerOf().reading(1, 0.5)).toBe(50_000);
  expect(rangerOf({ bias_m: -0.5 }).reading(0.1, 0.5)).toBe(0);
});

describe('noise', () => {
  test('a wall at 0.8 m: right on average, and scattering by 1 mm + 0.8·2 mm', () => {
    const ranger = rangerOf();
    const wall = ranger.sees(EMPTY);
    const stream = Stream.root('ultrasonic-noise');
    const n = 4000;
    const readings = Array.from({ length: n }, (_, i) => ranger.reading(wall, stream.at(i)) / 1e6);
    const sd = 0.001 + 0.002 * 0.8;
    // 3.29 standard errors (99.9 %); of a standard deviation, sd/√(2n). A tick adds 1/12 of its square: nothing here.
    expect(Math.abs(mean(readings) - 0.8)).toBeLessThan((3.29 * sd) / Math.sqrt(n));
    expect(Math.abs(sampleStandardDeviation(readings) - sd)).toBeLessThan((3.29 * sd) / Math.sqrt(2 * n));
  });

  test('grows with distance as set', () => {
    const ranger = rangerOf({ noise_m: 0.002, noise_per_m: 0.01, tick_us: 0.01 });
    // One standard deviation above the middle: the normal distribution's 84.1345 %.
    for (const d of [0.5, 1, 2])
      expect(ranger.reading(d, 0.841345) - ranger.reading(d, 0.5)).toBeCloseTo(2000 + 10_000 * d, -1);
  });

  test('a reading never falls as its uniform grows, no echo counting as furthest', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 4.5, noNaN: true }),
        fc.array(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), { minLength: 2, maxLength: 8 }),
        fc.constantFrom(rangerOf(), rangerOf({ noise_per_m: 0.3, tick_us: 50 }, -5), rangerOf({ bias_m: -0.3 }, 40)),
        (seen, uniforms, ranger) => {
          const order = [...uniforms].sort((a, b) => a - b).map((u) => ranger.reading(seen, u));
          for (const reading of order) expect(Number.isInteger(reading) && reading >= NO_ECHO).toBe(true);
          const asDistance = order.map((reading) => (reading === NO_ECHO ? Infinity : reading));
          expect(asDistance).toEqual([...asDistance].sort((a, b) => a - b));
        },
      ),
      { seed: 4, numRuns: 500 },
    );
  });

  test('carries no echo into the blind zone, and none back from beyond the range', () => {
    const ranger = rangerOf({ noise_m: 0.1, tick_us: 0.01 });
    expect(ranger.reading(0.05, 0.01)).toBe(20_000);
    expect(ranger.reading(3.95, 0.5)).not.toBe(NO_ECHO);
    expect(ranger.reading(3.95, 0.99)).toBe(NO_ECHO);
    expect(ranger.reading(Infinity, 0.01)).toBe(NO_ECHO);
  });
});

test('strays lie between blind zone and range', () => {
  expect(rangerOf({ blind_m: 0.03, range_m: 2 }).strays_m).toEqual([0.03, 2]);
});
