/**
 * Triangulation against values from outside.
 *
 * - Geometry: x = f·B/d by similar triangles, and that sensitivity falls with the square of the distance:
 *   visionbook.apartsin.com, section 13.5; "triangulation": courses.cs.washington.edu/courses/cse576/02au, slide 17.
 * - V = G/(d + k): the output is affine in x, and an origin that isn't the front face turns d into d + k (derivation).
 * - Below d_min = f·B/x_max the spot leaves the detector, and the output falls: one voltage for two distances (that it
 *   rises and then falls: roboticsclub.org/redmine/projects/colony/wiki/Rangefinders_details; the formula: derivation).
 * - The illustrative curve G = 0.24 V·m, k = 0.01 m, 5 V over 10 bits is invented, no device behind it; its table is plain
 *   arithmetic: one step is δd = (d + k)²/G · 5 V/1024.
 * - Circular segment: Bronshtein & Semendyayev, mensuration (from memory).
 */
import { describe, expect, test } from 'vitest';
import { placeOf, slopeAt, voltsAt } from '../../src/sensors/triangulation/curve.js';
import { countOf, lineariserOf } from '../../src/sensors/triangulation/linearise.js';
import { triangulationSchema } from '../../src/sensors/triangulation/schema.js';
import { seenBy, triangulation, upright } from '../sensors/optics/building.js';

const curve = { gain_v_m: 0.24, offset_m: 0.01, base_v: 0 };
const sensor = triangulationSchema.parse({ kind: 'triangulation-ranger', ...curve, adc_bits: 10, adc_reference_v: 5 });
const STEP_V = 0.004882813;

describe('the illustrative curve', () => {
  // d (m), V, code floor(V·1024/5), slope (mV/cm), one step of the converter (mm), 10 mV of noise (mm).
  test.each([
    [0.1, 2.181818, 446, 198.347, 0.24617, 0.5042],
    [0.2, 1.142857, 234, 54.422, 0.89722, 1.8375],
    [0.4, 0.585366, 119, 14.277, 3.41998, 7.0042],
    [0.8, 0.296296, 60, 3.658, 13.34839, 27.3375],
  ])('at %d m', (d, volts, code, slope, step_mm, noise_mm) => {
    expect(voltsAt(curve, d)).toBeCloseTo(volts, 6);
    expect(countOf(sensor, voltsAt(curve, d))).toBe(code);
    expect(slopeAt(curve, d) * 10).toBeCloseTo(slope, 3);
    expect((STEP_V / slopeAt(curve, d)) * 1000).toBeCloseTo(step_mm, 4);
    expect((0.01 / slopeAt(curve, d)) * 1000).toBeCloseTo(noise_mm, 4);
  });

  test.each([
    [0.1, 0.24617],
    [0.2, 0.89722],
    [0.4, 3.41998],
    [0.79, 13.0208],
  ])('a reading at %d m moves by steps of %d mm', (d, step_mm) => {
    // At 0.79 m: 0.8²/0.24·4.882813 mV. Steps from count to count lie around the one at the very distance.
    const distanceOf = lineariserOf({ ...sensor, range_m: 1 });
    const count = countOf(sensor, voltsAt(curve, d));
    const step = (distanceOf(count - 1) - distanceOf(count + 1)) / 2000;
    expect(Math.abs(step / step_mm - 1)).toBeLessThan(0.04);
  });

  test('10 mV of noise are 7.00 mm at 0.4 m, in the reading itself', () => {
    // One standard deviation either way: the normal distribution's 15.8655 % and 84.1345 %; 24 bits leave no steps.
    const ranger = triangulation({ ...curve, noise_v: 0.01, adc_bits: 24 });
    const spread = ranger.reading(0.4, 0.841345) - ranger.reading(0.4, 0.158655);
    expect(spread / 2000).toBeCloseTo(7.0042, 2);
    expect(Math.abs(ranger.reading(0.1, 0.841345) / 1000 - 100 - 0.5042)).toBeLessThan(0.005);
  });
});

describe('similar triangles: focal length 16 mm, base 20 mm, detector to 3.2 mm', () => {
  const [f_m, base_m, most_m] = [0.016, 0.02, 0.0032];
  const place = (d: number): number => f_m * base_m * placeOf({ ...curve, offset_m: 0 }, 0.1, d);

  test.each([
    [0.1, 3.2],
    [0.2, 1.6],
    [0.4, 0.8],
    [0.8, 0.4],
  ])('at %d m the spot stands at %d mm', (d, mm) => {
    expect(place(d) * 1000).toBeCloseTo(mm, 9);
  });

  test('moving by 32, 8, 2, 0.5 µm per mm: with the square of the distance', () => {
    const moves = [0.1, 0.2, 0.4, 0.8].map((d) => (place(d) - place(d + 1e-7)) / 1e-7);
    for (const [i, known] of [32, 8, 2, 0.5].entries()) expect(moves[i]! * 1000).toBeCloseTo(known, 3);
  });

  test('is at the end of the detector at 0.1 m, and further in on both sides of it', () => {
    expect(place(0.1)).toBeCloseTo(most_m, 12);
    for (const d of [0.05, 0.0999, 0.1001, 0.2]) expect(place(d)).toBeLessThan(most_m);
  });
});

test('nearer than the fold there is a second distance for each voltage: an arm at 5 cm reads as one beyond 10 cm', () => {
  const ranger = triangulation();
  for (const d of [0.02, 0.05, 0.09]) expect(seenBy(ranger, [upright(d + 0.05, 0, 0.05)])).toBeGreaterThan(0.1);
  // Straight down to the base: at half the fold half the volts, 2.181818/2, which 0.24/V − 0.01 makes 0.21 m.
  expect(seenBy(ranger, [upright(0.05 + 0.05, 0, 0.05)])).toBeCloseTo(0.21, 9);
  expect(seenBy(ranger, [upright(0.1 + 0.05, 0, 0.05)])).toBeCloseTo(0.1, 9);
});
