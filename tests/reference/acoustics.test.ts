/**
 * Sound in air, pistons and target strength against values from outside.
 *
 * - Speed: 343.2·√(T/293.15 K), ISO 9613-1:1993 (second-hand); its values at six temperatures computed with scipy 1.10.1.
 * - Absorption at 40 kHz: ISO 9613-1 (3)–(5), computed with scipy 1.10.1; the long form of the standard and the form of
 *   Bass et al. 1995 agree with them to 0.06 %.
 * - Absorption at 1–8 kHz: ISO 9613-2:1996 Table 2 and ISO 9613-1:1993 Table 1, second-hand from public restatements;
 *   at the exact midband frequencies 1000·10^(k/10) Hz, as the standard's note 5 of 6.4 has it.
 * - Random airs: tests/reference/absorption-values.py, other formulas.
 * - Piston: zeros and levels of 2·J1(x)/x computed with scipy 1.10.1; nulls 3.83, 7.02, 10.17 also in lecture slides.
 * - Target strength: Urick, Principles of Underwater Sound (from memory); examples worked by hand.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { DEG, sin } from '../../src/engine/arithmetic.js';
import { absorption, speedOfSound } from '../../src/sensors/ultrasonic/air.js';
import { levelOf } from '../../src/sensors/ultrasonic/decibel.js';
import { directivity, piston, sizeInWaves } from '../../src/sensors/ultrasonic/piston.js';
import { targetArea, visibleLength } from '../../src/sensors/ultrasonic/target.js';

const air = (temperature_c: number, humidity_percent: number, pressure_kpa = 101.325) => ({
  temperature_c,
  humidity_percent,
  pressure_kpa,
});
/** Whether two numbers differ by at most a share of the second. */
const isWithin = (share: number, got: number, known: number): boolean => Math.abs(got / known - 1) <= share;

describe('speed of sound', () => {
  test.each([
    [0, 331.286],
    [10, 337.296],
    [15, 340.261],
    [20, 343.2],
    [25, 346.114],
    [30, 349.005],
  ])('%d °C: %d m/s', (temperature, known) => {
    expect(speedOfSound(temperature)).toBeCloseTo(known, 3);
  });

  test('the rule of thumb for dry air, 331.3 + 0.606·T, differs by less than 0.15 % in a house', () => {
    for (let t = 0; t <= 30; t++) expect(isWithin(0.0015, speedOfSound(t), 331.3 + 0.606 * t)).toBe(true);
  });
});

describe('absorption', () => {
  test.each([
    [10, 50, 0.847912],
    [20, 20, 0.783168],
    [20, 50, 1.318242],
    [20, 70, 1.285573],
    [30, 50, 1.340471],
  ])('40 kHz at %d °C, %d %%: %d dB/m to 0.1 %%', (t, humidity, known) => {
    expect(isWithin(0.001, absorption(40_000, air(t, humidity)), known)).toBe(true);
  });

  test('isn’t monotonic in humidity: at 20 °C and 40 kHz it peaks at 55.3 % with 1.3264 dB/m', () => {
    const at = (humidity: number): number => absorption(40_000, air(20, humidity));
    expect(at(10)).toBeCloseTo(0.4563, 3);
    expect(at(30)).toBeCloseTo(1.0679, 3);
    expect(at(55.3)).toBeCloseTo(1.3264, 3);
    expect(at(100)).toBeCloseTo(1.1135, 3);
    expect(at(55.3)).toBeGreaterThan(at(52));
    expect(at(55.3)).toBeGreaterThan(at(58));
  });

  // dB/km as published; the last digit printed decides the tolerance.
  test.each([
    ['9613-2', 10, 70, 0, '3.7'],
    ['9613-2', 10, 70, 3, '9.7'],
    ['9613-2', 10, 70, 6, '32.8'],
    ['9613-2', 10, 70, 9, '117'],
    ['9613-2', 20, 70, 0, '5.0'],
    ['9613-2', 20, 70, 3, '9.0'],
    ['9613-2', 20, 70, 6, '22.9'],
    ['9613-2', 20, 70, 9, '76.6'],
    ['9613-2', 30, 70, 0, '7.4'],
    ['9613-2', 30, 70, 6, '23.1'],
    ['9613-2', 30, 70, 9, '59.3'],
    ['9613-2', 15, 20, 0, '8.2'],
    ['9613-2', 15, 20, 3, '28.2'],
    ['9613-2', 15, 20, 6, '88.8'],
    ['9613-2', 15, 20, 9, '202'],
    ['9613-2', 15, 50, 3, '10.8'],
    ['9613-2', 15, 50, 9, '129'],
    ['9613-2', 15, 80, 3, '8.3'],
    ['9613-2', 15, 80, 6, '23.7'],
    ['9613-2', 15, 80, 9, '82.8'],
    ['9613-1', 20, 10, 0, '14.1'],
    ['9613-1', 20, 10, 6, '109'],
    ['9613-1', 20, 70, 0, '4.98'],
    ['9613-1', 20, 100, 0, '5.42'],
    ['9613-1', 20, 100, 6, '19.4'],
    ['9613-1', 10, 50, 0, '4.26'],
    ['9613-1', 30, 50, 0, '7.03'],
    ['9613-1', 25, 50, 3, '10.2'],
    ['9613-1', 25, 50, 9, '85.4'],
  ] as const)('ISO %s at %d °C, %d %%, 1000·10^(%d/10) Hz: %s dB/km', (_, t, humidity, band, published) => {
    const decimals = published.split('.')[1]?.length ?? 0;
    const got = 1000 * absorption(1000 * 10 ** (band / 10), air(t, humidity));
    // Half the last place, and a tenth of it for what was rounded from a neighbouring value (4.265, 85.45).
    expect(Math.abs(got - Number(published))).toBeLessThan(0.6 * 10 ** -decimals);
  });

  test('200 random airs by other formulas: within 0.2 %', () => {
    const { rows } = JSON.parse(readFileSync(new URL('absorption-values.json', import.meta.url), 'utf8')) as {
      rows: [number, number, number, number, number][];
    };
    expect(rows.length).toBe(200);
    const off = rows.filter(
      ([f, t, humidity, p, known]) => !isWithin(0.002, absorption(1000 * f, air(t, humidity, p)), known),
    );
    expect(off).toEqual([]);
  });
});

describe('piston', () => {
  test.each([
    ['half power', 1.61634, -3.0103],
    ['−3 dB', 1.613741, -3],
    ['half amplitude', 2.215089, -6.0206],
    ['−6 dB', 2.211785, -6],
    ['−10 dB', 2.731379, -10],
    ['−20 dB', 3.419739, -20],
    ['first side lobe', 5.135622, -17.5701],
    ['second side lobe', 8.417244, -23.8112],
  ])('%s at x = %d', (_, x, level_db) => {
    expect(levelOf(piston(x) * piston(x))).toBeCloseTo(level_db, 4);
  });

  test.each([3.831706, 7.015587, 10.173468])('null at %d', (x) => {
    expect(Math.abs(piston(x))).toBeLessThan(1e-6);
    expect(piston(x - 0.01) * piston(x + 0.01)).toBeLessThan(0);
  });

  test('side lobes are turning points', () => {
    for (const x of [5.135622, 8.417244]) {
      const level = Math.abs(piston(x));
      expect(level).toBeGreaterThan(Math.abs(piston(x - 0.02)));
      expect(level).toBeGreaterThan(Math.abs(piston(x + 0.02)));
    }
  });

  // 40 kHz, 343.2 m/s: half angles at half power and half amplitude, first null, level at right angles.
  test.each([
    [0.005, 3.66153, 26.1957, 37.2262, null, -28.376],
    [0.007, 5.126142, 18.3797, 25.6019, 48.3729, -17.571],
    [0.008, 5.858448, 16.0156, 22.2162, 40.8475, -19.733],
  ])('of %d m', (radius, ka, halfPower, halfAmplitude, firstNull, sideways) => {
    expect(sizeInWaves(40_000, radius, 343.2)).toBeCloseTo(ka, 5);
    // Without shading: the bare piston.
    const level = (angle_deg: number): number =>
      levelOf(directivity(ka, 0, Math.min(1, sin(angle_deg * DEG) * sin(angle_deg * DEG))));
    expect(level(halfPower)).toBeCloseTo(-3.0103, 3);
    expect(level(halfAmplitude)).toBeCloseTo(-6.0206, 3);
    if (firstNull !== null) expect(level(firstNull)).toBeLessThan(-80);
    expect(level(90)).toBeCloseTo(sideways, 2);
  });

  test('default shading is the obliquity factor (1 + cos θ)/2 to 0.03 dB, and leaves the axis alone', () => {
    for (const angle of [0, 20, 45, 60, 89]) {
      const s = sin(angle * DEG);
      const factor = (1 + Math.sqrt(1 - s * s)) / 2;
      const took = levelOf(directivity(2, 6, s * s)) - levelOf(directivity(2, 0, s * s));
      expect(Math.abs(took - levelOf(factor * factor))).toBeLessThan(0.03);
    }
  });
});

describe('target strength', () => {
  const WAVE = 0.00858;
  const long = (radius: number, r: number): number => {
    const visible = visibleLength(50, 100, WAVE * r);
    return levelOf(targetArea(radius, visible, r, WAVE));
  };

  test('long cylinder of 0.15 m: −12.218 dB at 0.8 m, −9.346 dB at 1.55 m (a·R/2)', () => {
    expect(long(0.15, 0.8)).toBeCloseTo(-12.218, 3);
    expect(long(0.15, 1.55)).toBeCloseTo(-9.346, 3);
  });

  test('sphere of 0.15 m: −22.499 dB (a²/4)', () => {
    expect(levelOf(targetArea(0.15, visibleLength(0, 0, WAVE), 1, WAVE))).toBeCloseTo(-22.499, 3);
  });

  test('short cylinder: a·L²/(2λ) from further than L²/λ, a·R/2 from nearer', () => {
    const length = 0.1;
    const change = (length * length) / WAVE;
    const at = (r: number): number => targetArea(0.2, visibleLength(length / 2, length, WAVE * r), r, WAVE);
    expect(at(2 * change)).toBeCloseTo((0.2 * length * length) / (2 * WAVE), 12);
    expect(at(3 * change)).toBeCloseTo(at(2 * change), 12);
    expect(at(0.8 * change)).toBeCloseTo((0.2 * 0.8 * change) / 2, 12);
  });

  test('at the end of a cylinder half a wave front is left: −6.02 dB, as behind a straight edge (ITU-R P.526, ν = 0)', () => {
    const r = 1;
    const whole = targetArea(0.2, visibleLength(1, 2, WAVE * r), r, WAVE);
    const end = targetArea(0.2, visibleLength(0, 2, WAVE * r), r, WAVE);
    expect(levelOf(end / whole)).toBeCloseTo(-6.0206, 3);
  });

  test('from cylinder to cap without a step, and further on the cap alone', () => {
    const r = 0.8;
    const at = (t: number): number => levelOf(targetArea(0.05, visibleLength(t, 0.4, WAVE * r), r, WAVE));
    for (let t = -0.1; t < 0.5; t += 0.0005) expect(Math.abs(at(t + 0.0005) - at(t))).toBeLessThan(0.4);
    expect(at(-0.1)).toBeCloseTo(levelOf((0.05 * 0.05) / 4), 9);
    expect(at(0.2)).toBeCloseTo(levelOf((0.05 * r) / 2), 9);
  });

  test('nothing convex is louder than a flat wall (R²/4), however near', () => {
    for (const r of [0.02, 0.1, 0.3, 1, 4]) {
      for (const radius of [0.02, 0.15, 0.5]) expect(long(radius, r)).toBeLessThanOrEqual(levelOf((r * r) / 4) + 1e-9);
    }
  });
});

describe('times of flight', () => {
  const speed = speedOfSound(20);
  test.each([
    [0.02, 0.11655],
    [0.8, 4.662005],
    [1.55, 9.032634],
    [4, 23.310023],
  ])('echo of %d m: %d ms', (d, ms) => {
    expect((2000 * d) / speed).toBeCloseTo(ms, 6);
  });

  // What one period of a clock is in sound: far finer than a wave, so clocks don't limit a ranger.
  test.each([
    [8, 42.9],
    [16, 21.45],
    [20, 17.16],
    [48, 7.15],
  ])('in one period of %d MHz sound goes %d µm', (megahertz, sound_um) => {
    expect(speed / megahertz).toBeCloseTo(sound_um, 6);
  });
});
