/** From what a triangulation ranger sees to the controller's number: volts, noise, sunlight, converter, curve or table. */
import fc from 'fast-check';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { NO_ECHO, type Ranger } from '../../../src/sensors/ranger.js';
import { EMPTY, triangulation } from '../optics/building.js';

/** Many readings of one distance, metres; no echo left in as -1 µm. */
function many(ranger: Ranger, seen_m: number, n = 4000): number[] {
  const stream = Stream.root('triangulation-readings');
  return Array.from({ length: n }, (_, i) => ranger.reading(seen_m, stream.at(i)) / 1e6);
}

describe('it measures all the time', () => {
  const ranger = triangulation({ measure_ms: 40 }, { phase: 0.25 });

  test('what counts is the middle of the last measurement that is complete', () => {
    // Measurements begin at 10, 50, 90 ms: the one complete at 90 ms began at 50 ms.
    expect(ranger.poseTime(90_000)).toBe(70_000);
    expect(ranger.poseTime(129_999)).toBe(70_000);
    expect(ranger.poseTime(130_000)).toBe(110_000);
    expect(ranger.latest_us).toBe(0);
    for (let start_us = 0; start_us < 200_000; start_us += 777)
      expect(start_us - ranger.poseTime(start_us)).toBeLessThanOrEqual(ranger.held_us);
  });

  test('reads within one measurement share the pose, which is half to one and a half measurements old', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 31 }), fc.double({ min: 0, max: 1, noNaN: true }), (start, phase) => {
        const one = triangulation({ measure_ms: 38.3 }, { phase });
        const pose = one.poseTime(start);
        expect(Number.isInteger(pose)).toBe(true);
        expect(start - pose).toBeGreaterThanOrEqual(19_150);
        expect(start - pose).toBeLessThan(19_150 + 38_300);
        expect([0, 38_300]).toContain(one.poseTime(start + 19_000) - pose);
        expect(one.poseTime(start + 38_300) - pose).toBe(38_300);
      }),
      { seed: 22, numRuns: 300 },
    );
  });

  test('a read costs the time of a conversion, whatever is there', () => {
    for (const seen of [0.2, Infinity]) expect(triangulation({ conversion_ms: 0.11 }).busy_us(seen)).toBe(110);
  });
});

describe('a wall at 0.4 m', () => {
  const sd_v = 0.02;
  // 0.41²/0.24 metres a volt; and as the curve is bent, the mean of many is too long by σ²·0.41³/0.24².
  const sd_m = (sd_v * 0.41 ** 2) / 0.24;
  const bent_m = (sd_v ** 2 * 0.41 ** 3) / 0.24 ** 2;
  const readings = many(triangulation({ noise_v: sd_v }), 0.4);

  test('right on average, but for the bend of its curve', () => {
    expect(Math.abs(mean(readings) - 0.4 - bent_m)).toBeLessThan((3.29 * sd_m) / Math.sqrt(readings.length));
  });

  test('scattering by the noise over the slope', () => {
    // Steps of 3.4 mm add 1/12 of their square, the bend some 1 %: within 5 % in all, 3.29 standard errors being 3.7 %.
    const known = Math.sqrt(sd_m ** 2 + 0.00342 ** 2 / 12);
    expect(Math.abs(sampleStandardDeviation(readings) / known - 1)).toBeLessThan(0.05);
  });

  test('read by a controller whose curve has 5 % too much gain: too long by 5 % of 0.41 m', () => {
    const ranger = triangulation({
      linearised_by: 'fitted',
      fitted: { gain_v_m: 0.252, offset_m: 0.01, base_v: 0 },
      adc_bits: 24,
    });
    expect(ranger.reading(0.4, 0.5)).toBeCloseTo(400_000 + 20_500, -1);
  });
});

test('a wall just within the range is lost as often as noise carries it below the last count', () => {
  // Counts up to 60 read as 0.24/(60.5 · 4.8828 mV) − 0.01 = 0.8024 m or more: nothing. 0.75 m gives 0.24/0.76 V; what is
  // below 61 · 4.8828 mV, by (0.315789 − 0.297852)/0.02 = 0.8969 standard deviations, is lost: 18.489 % of the normal curve.
  const readings = many(triangulation({ noise_v: 0.02, range_m: 0.8 }), 0.75);
  const lost = readings.filter((reading) => reading < 0).length / readings.length;
  expect(Math.abs(lost - 0.18489)).toBeLessThan(3.29 * Math.sqrt((0.18489 * 0.81511) / readings.length));
});

describe('daylight', () => {
  const at = (sunlight_klx: number) =>
    triangulation(
      { adc_bits: 24, noise_v: 0.005, sunlight_noise_v_per_klx: 0.001, sunlight_shift_v_per_klx: 0.002 },
      { sunlight_klx },
    );

  test('shifts the volts: 10 klx by 20 mV, at 0.4 m from 0.585366 V to 0.605366 V, which reads 0.38645 m', () => {
    expect(at(10).reading(0.4, 0.5) / 1e6).toBeCloseTo(0.24 / 0.605366 - 0.01, 5);
  });

  test('adds noise: 5 mV in the dark, 15 mV at 10 klx', () => {
    const spread = (klx: number) => (at(klx).reading(0.2, 0.841345) - at(klx).reading(0.2, 0.158655)) / 2000;
    // 1.8375 mm per 10 mV at 0.2 m; at 10 klx the shift of 20 mV makes the slope steeper by (1.1629/1.1429)².
    expect(spread(0)).toBeCloseTo(0.91875, 2);
    expect(spread(10)).toBeCloseTo((3 * 0.91875) / (1.162857 / 1.142857) ** 2, 2);
  });

  test('noise grows as the spot fades, to twice as much with nothing there', () => {
    // With nothing there the volts are the base, 1 V, and noise; what noise adds looks like a body.
    const ranger = triangulation({
      base_v: 1,
      noise_v: 0.1,
      adc_bits: 24,
      range_m: 2,
      fold_m: 0.05,
    });
    // Two standard deviations of 0.1 V above the base: 0.24/0.2 − 0.01.
    expect(ranger.reading(Infinity, 0.158655) / 1e6).toBeCloseTo(1.19, 3);
  });
});

describe('the converter', () => {
  test('gives whole counts: a distance is one of few, and stays in its count', () => {
    const ranger = triangulation({ adc_bits: 6 });
    const readings = new Set(Array.from({ length: 700 }, (_, i) => ranger.reading(0.1 + i / 1000, 0.5)));
    // 2.18 V to 0.30 V in steps of 5/64 V: counts 27 to 3; those up to 3 read beyond the range.
    expect(readings.size).toBe(25);
    expect(readings.has(NO_ECHO)).toBe(true);
  });

  test('ends at its reference and at 0', () => {
    const ranger = triangulation({ adc_reference_v: 1, adc_bits: 10 });
    // 0.1 m would be 2.18 V: all it shows is 1023.5/1024 V.
    expect(ranger.reading(0.1, 0.5) / 1e6).toBeCloseTo((0.24 * 1024) / 1023.5 - 0.01, 6);
    expect(ranger.reading(0.12, 0.5)).toBe(ranger.reading(0.1, 0.5));
    expect(triangulation({ noise_v: 1 }).reading(0.8, 1 - 1e-9)).toBe(NO_ECHO);
  });
});

describe('a table', () => {
  const table = [
    { volts: 0.3, distance_m: 0.8 },
    { volts: 2.2, distance_m: 0.1 },
    { volts: 0.6, distance_m: 0.4 },
  ];
  const ranger = triangulation({ linearised_by: 'table', table, adc_bits: 24 });
  /** Distance at which the sensor gives so many volts. */
  const giving = (volts: number) => 0.24 / volts - 0.01;

  test.each([
    ['a row', 0.6, 0.4],
    ['half way between two', 0.45, 0.6],
    ['a quarter of the way between others', 1.8, 0.175],
    ['more volts than any', 2.5, 0.1],
  ])('%s', (_, volts, metres) => {
    expect(ranger.reading(giving(volts), 0.5) / 1e6).toBeCloseTo(metres, 5);
  });

  test('fewer volts than any: nothing', () => {
    expect(ranger.reading(giving(0.299), 0.5)).toBe(NO_ECHO);
    expect(triangulation({ linearised_by: 'table', table, range_m: 0.5 }).reading(giving(0.45), 0.5)).toBe(NO_ECHO);
  });
});

test('an idle door at the very end of the range reads, by default, as the far jamb or as nothing', () => {
  const ranger = triangulation();
  const readings = many(ranger, ranger.sees(EMPTY), 500);
  for (const reading of readings) expect(reading === -1e-6 || reading > 0.6).toBe(true);
});

test('a reading never falls as its uniform grows, no echo counting as furthest', () => {
  const uniform = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });
  const rangers = [
    triangulation(),
    triangulation({ noise_v: 0.5, base_v: 0.4 }, { sunlight_klx: 50 }),
    triangulation({ linearised_by: 'fitted', fitted: { gain_v_m: 0.2, offset_m: 0.05, base_v: 0.3 }, noise_v: 0.2 }),
    triangulation({
      linearised_by: 'table',
      table: [
        { volts: 0.2, distance_m: 1 },
        { volts: 2, distance_m: 0.1 },
        { volts: 1, distance_m: 0.2 },
      ],
      noise_v: 0.3,
    }),
  ];
  fc.assert(
    fc.property(
      fc.oneof(fc.double({ min: 0.1, max: 3, noNaN: true }), fc.constant(Infinity)),
      fc.array(uniform, { minLength: 2, maxLength: 8 }),
      fc.constantFrom(...rangers),
      (seen, uniforms, ranger) => {
        const order = [...uniforms].sort((a, b) => a - b).map((u) => ranger.reading(seen, u));
        for (const reading of order) expect(Number.isInteger(reading) && reading >= NO_ECHO).toBe(true);
        const asDistance = order.map((reading) => (reading === NO_ECHO ? Infinity : reading));
        expect(asDistance).toEqual([...asDistance].sort((a, b) => a - b));
      },
    ),
    { seed: 23, numRuns: 500 },
  );
});
