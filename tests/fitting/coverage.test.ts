/**
 * Whether 95 % intervals hold 95 times of 100: benches drawn by a seeded stream, made by formulas (bench-data.ts), fitted,
 * and each interval compared with what the bench was made from.
 *
 * Of 200 intervals that each hold with probability 0.95, the number that hold is binomial with mean 190 and standard
 * deviation 3.1. Fewer than 181 have probability 0.0027 (exact sum, in the first test): that is no chance. Truths here
 * stay where the methods are meant for: at least 20 readings at each of 6 or more distances, noise of at least 0.8 of
 * the step of readings.
 */
import { expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { type BenchOptions } from '../../src/fitting/bench.js';
import { fitBench } from '../../src/fitting/fit.js';
import { readBench } from '../../src/fitting/readings.js';
import { type Truth, benchCsv, between } from './bench-data.js';
import { howMany, LONG } from '../how-many.js';

const CASES = howMany(200, 2000);
const LEVEL = 0.95;

/** Probability of at most `k` of `n`, each with probability `p`, summed term by term. */
function atMost(k: number, n: number, p: number): number {
  let term = (1 - p) ** n;
  let sum = term;
  for (let i = 1; i <= k; i++) {
    term *= ((n - i + 1) / i) * (p / (1 - p));
    sum += term;
  }
  return sum;
}

/** The least number that is no surprise: fewer have a probability below 0.5 %. */
function leastOf(n: number): number {
  let k = Math.floor(n * LEVEL);
  while (atMost(k - 1, n, LEVEL) > 0.005) k--;
  return k;
}

test('181 of 200 is the least that is no surprise', () => {
  // scipy.stats.binom.cdf(180, 200, 0.95), scipy 1.17.1
  expect(atMost(180, 200, LEVEL)).toBeCloseTo(0.0026645795498294743, 12);
  expect(leastOf(200)).toBe(181);
});

interface Case {
  readonly csv: string;
  readonly options: BenchOptions;
  readonly truth: Readonly<Record<string, number>>;
}
const pick = (u: number, from: number, to: number) => Math.floor(between(u, from, to + 1));
const spaced = (n: number, from: number, to: number) =>
  Array.from({ length: n }, (_, i) => Number((from + ((to - from) * i) / (n - 1)).toFixed(3)));

function chances(chance: Stream) {
  const u = chance.child('truth');
  return {
    u: (i: number, low: number, high: number) => between(u.at(i), low, high),
    rows: pick(u.at(100), 20, 60),
    distances: pick(u.at(101), 6, 12),
    stray_share: between(u.at(102), 0.005, 0.08),
    dropout_share: between(u.at(103), 0.005, 0.1),
  };
}

function triangulation(chance: Stream): Case {
  const { u, rows, distances, stray_share, dropout_share } = chances(chance);
  const [gain, offset, base, noise] = [u(0, 0.1, 0.4), u(1, 0, 0.04), u(2, -0.05, 0.2), u(3, 0.004, 0.015)];
  const volts = (d: number) => base + gain / (d + offset);
  const truth: Truth = {
    distances_m: spaced(distances, 0.1, 0.8),
    rows,
    stray_share,
    dropout_share,
    range_m: [0.1, 0.8],
    reads: volts,
    sd: () => noise,
    write: (v) => String(Math.min(1023, Math.max(0, Math.floor((v / 5) * 1024)))),
  };
  return {
    csv: benchCsv('true_m,adc_counts', truth, chance.child('rows')),
    options: { kind: 'triangulation-ranger', adc_bits: 10, adc_reference_v: 5 },
    truth: { gain_v_m: gain, offset_m: offset, base_v: base, noise_v: noise, stray_share, dropout_share },
  };
}

function straight(kind: 'ultrasonic-ranger' | 'time-of-flight-ranger', chance: Stream): Case {
  const { u, rows, distances, stray_share, dropout_share } = chances(chance);
  const [bias, scale, a, b] = [u(0, -0.03, 0.03), u(1, 0.96, 1.04), u(2, 0.001, 0.006), u(3, 0.001, 0.01)];
  // Noise of sound is on the echo, before the controller's speed of sound makes it longer or shorter.
  const stretch = kind === 'ultrasonic-ranger' ? scale : 1;
  // The bench's air is 22 °C; what the controller takes for granted reads true distances too long by `scale`.
  // c = 343.2 √(T/293.15 K) (ISO 9613-1:1993, second-hand).
  const speed = scale * 343.2 * Math.sqrt((22 + 273.15) / 293.15);
  const assumed_temperature_c = 293.15 * (speed / 343.2) ** 2 - 273.15;
  const truth: Truth = {
    distances_m: spaced(distances, 0.1, u(4, 1, 3)),
    rows,
    stray_share,
    dropout_share,
    range_m: [0.05, 4],
    reads: (d) => bias + scale * d,
    sd: (d) => stretch * (a + b * d),
    write: (m) => String(Math.max(1, Math.round(m * 1000))),
  };
  return {
    csv: benchCsv('true_m,reading_mm', truth, chance.child('rows')),
    options: { kind, adc_bits: 10, adc_reference_v: 5, temperature_c: 22 },
    truth: {
      bias_m: bias,
      scale,
      ...(kind === 'ultrasonic-ranger' ? { assumed_temperature_c } : {}),
      noise_m: a,
      noise_per_m: b,
      stray_share,
      dropout_share,
    },
  };
}

function echoes(chance: Stream): Case {
  const { u, rows, distances, stray_share, dropout_share } = chances(chance);
  const [late_us, speed, a, b] = [u(0, -60, 60), u(1, 332, 352), u(2, 0.001, 0.004), u(3, 0.001, 0.006)];
  const truth: Truth = {
    distances_m: spaced(distances, 0.15, u(4, 1, 3)),
    rows,
    stray_share,
    dropout_share,
    range_m: [0.05, 4],
    reads: (d) => late_us + (2e6 * d) / speed,
    sd: (d) => (2e6 * (a + b * d)) / speed,
    write: (t) => String(Math.max(1, Math.round(t))),
  };
  return {
    csv: benchCsv('true_m,echo_us', truth, chance.child('rows')),
    options: { kind: 'ultrasonic-ranger', adc_bits: 10, adc_reference_v: 5 },
    truth: {
      bias_m: (late_us * speed) / 2e6,
      speed_of_sound_mps: speed,
      assumed_temperature_c: 293.15 * (speed / 343.2) ** 2 - 273.15,
      noise_m: a,
      noise_per_m: b,
      stray_share,
      dropout_share,
    },
  };
}

/** Readings that don't scatter at all, rounded to centimetres: what is unsure then is where in a step each distance lies. */
function still(chance: Stream): Case {
  const { u, rows, distances, stray_share, dropout_share } = chances(chance);
  const [bias, scale] = [u(0, -0.03, 0.03), u(1, 0.96, 1.04)];
  const truth: Truth = {
    distances_m: spaced(distances, u(5, 0.1, 0.2), u(4, 1, 3)),
    rows,
    stray_share,
    dropout_share,
    range_m: [0.05, 4],
    reads: (d) => bias + scale * d,
    sd: () => 0,
    write: (m) => Math.max(0.01, m).toFixed(2),
  };
  return {
    csv: benchCsv('true_m,reading_m', truth, chance.child('rows')),
    options: { kind: 'time-of-flight-ranger', adc_bits: 10, adc_reference_v: 5 },
    truth: { bias_m: bias, scale, noise_m: 0, noise_per_m: 0, stray_share, dropout_share },
  };
}

test.each([
  ['triangulation', triangulation],
  ['ultrasonic, distances', (chance: Stream) => straight('ultrasonic-ranger', chance)],
  ['ultrasonic, echo times', echoes],
  ['time-of-flight', (chance: Stream) => straight('time-of-flight-ranger', chance)],
  ['readings that stand still', still],
] as const)('%s: every parameter is covered', (name, make) => {
  const covered: Record<string, number> = {};
  for (let i = 0; i < CASES; i++) {
    const { csv, options, truth } = make(Stream.root('coverage').child(name).nth(i));
    const { bench, issues } = readBench(csv, 'bench.csv');
    expect(issues).toEqual([]);
    const { parameters } = fitBench(bench!, options)!;
    for (const [key, value] of Object.entries(truth)) {
      const { low, high } = parameters.find((one) => one.name === key)!;
      covered[key] = (covered[key] ?? 0) + (low <= value && value <= high ? 1 : 0);
    }
    // Nothing is told without being judged here.
    expect(parameters.map((one) => one.name).sort()).toEqual(Object.keys(truth).sort());
  }
  // Methods are good for large samples, and with 2000 cases what small ones cost would show: a point or two is granted.
  const least = LONG ? 0.925 * CASES : leastOf(CASES);
  for (const [key, times] of Object.entries(covered)) expect(times, key).toBeGreaterThanOrEqual(least);
});
