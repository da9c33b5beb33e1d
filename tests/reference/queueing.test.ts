/**
 * Queues from the agenda, the streams and exponential draws, against theory. Seeded; each bound is 3.29 standard
 * errors (99.9 %) worked out from theory's own variances, not from the simulation.
 *
 * M/M/1, λ = 0.8, μ = 1 (any queueing text): ρ = 0.8, L = ρ/(1 − ρ) = 4, W = 1/(μ − λ) = 5, Wq = 4,
 * P(N = k) = (1 − ρ)ρᵏ, busy period of mean 1/(μ − λ) = 5 and variance (1 + ρ)/(μ²(1 − ρ)³) = 225, idle mean 1.25.
 * Asymptotic variance of the time average of N: 2ρ(1 + ρ)/(μ(1 − ρ)⁴) = 1800 (W. Whitt, Management Science 35, 1989,
 * from memory; solved numerically on 600 states as well).
 * From empty: scipy.sparse.linalg.expm_multiply of the generator on 400 states.
 * M/M/∞ from empty: N(t) ~ Poisson((λ/μ)(1 − e^(−μt))) (https://en.wikipedia.org/wiki/M/M/∞_queue).
 */
import { describe, expect, test } from 'vitest';
import { Clock } from '../../src/engine/clock.js';
import { exponential, poissonGap } from '../../src/engine/distributions.js';
import { Stream } from '../../src/engine/stream.js';

const Z = 3.29;
const root = Stream.root('queueing');

interface QueueRecord {
  /** Area under N(t), customers × time. */
  area: number;
  idle: number;
  busyPeriods: number[];
  /** Customers at each of the asked moments. */
  atMoments: number[];
  departed: number;
  sojourns: number;
}

/** One server, first come first served, or (`servers` infinite) everyone served at once. From empty at 0. */
function runQueue(rate: number, mean: number, servers: number, end: number, moments: number[], at: Stream) {
  const clock = new Clock<'arrival' | 'departure' | 'look'>();
  const [gaps, services] = [at.child('gaps'), at.child('services')];
  const record: QueueRecord = { area: 0, idle: 0, busyPeriods: [], atMoments: [], departed: 0, sojourns: 0 };
  const waiting: number[] = [];
  let [n, last, arrivals, served, busySince, first] = [0, 0, 0, 0, 0, 0];
  const serve = () => clock.at(clock.now + exponential(services.at(served++), mean), 'departure');
  for (const moment of moments) clock.at(moment, 'look');
  clock.at(clock.now + poissonGap(gaps.at(arrivals++), rate), 'arrival');
  clock.run(end, (what, now) => {
    record.area += n * (now - last);
    if (n === 0) record.idle += now - last;
    last = now;
    if (what === 'look') record.atMoments.push(n);
    else if (what === 'arrival') {
      if (n === 0) busySince = now;
      n++;
      if (servers === 1) waiting.push(now);
      if (n <= servers) serve();
      clock.at(clock.now + poissonGap(gaps.at(arrivals++), rate), 'arrival');
    } else {
      n--;
      record.departed++;
      if (servers === 1) record.sojourns += now - (waiting[first++] as number);
      if (n === 0) record.busyPeriods.push(now - busySince);
      else if (servers === 1) serve();
    }
  });
  return record;
}

describe('M/M/1 in the long run', () => {
  const end = 500_000;
  const record = runQueue(0.8, 1, 1, end, [], root.child('long run'));

  test('4 customers on average', () => {
    // Starting empty costs about 4 × the relaxation time, some 100 customer-times: 0.0002, nothing beside the error.
    expect(Math.abs(record.area / end - 4)).toBeLessThan(Z * Math.sqrt(1800 / end));
  });

  test('each stays 5 on average: Little’s law with the same error', () => {
    expect(Math.abs(record.sojourns / record.departed - 5)).toBeLessThan((Z * Math.sqrt(1800 / end)) / 0.8);
  });

  test('the server idles a fifth of the time', () => {
    // Renewal reward over cycles of mean 6.25: Var(0.8 I − 0.2 B)/6.25 = (0.64 × 1.5625 + 0.04 × 225)/6.25 = 1.6.
    expect(Math.abs(record.idle / end - 0.2)).toBeLessThan(Z * Math.sqrt(1.6 / end));
  });

  test('busy periods of 5 on average', () => {
    const count = record.busyPeriods.length;
    const mean = record.busyPeriods.reduce((sum, busy) => sum + busy, 0) / count;
    expect(Math.abs(mean - 5)).toBeLessThan(Z * Math.sqrt(225 / count));
  });
});

describe('M/M/1 filling up from empty, 20,000 times', () => {
  const times = 20_000;
  const moments = [1, 5, 10];
  const runs = Array.from({ length: times }, (_, i) => runQueue(0.8, 1, 1, 10, moments, root.child('filling').nth(i)));

  test.each([
    { at: 0, t: 1, mean: 0.5515519, variance: 0.6211088, empty: 0.5973988 },
    { at: 1, t: 5, mean: 1.4694608, variance: 2.5145986, empty: 0.3489679 },
    { at: 2, t: 10, mean: 2.0302816, variance: 4.4407506, empty: 0.2864226 },
  ])('after $t: $mean customers, empty with probability $empty', ({ at, mean, variance, empty }) => {
    const counts = runs.map((run) => run.atMoments[at] as number);
    expect(Math.abs(average(counts) - mean)).toBeLessThan(Z * Math.sqrt(variance / times));
    expect(Math.abs(shareOf(counts, (n) => n === 0) - empty)).toBeLessThan(binomialBound(empty, times));
  });
});

describe('M/M/∞ filling up from empty, λ = 2, μ = 0.5, 20,000 times', () => {
  const times = 20_000;
  const moments = [0.5, 1, 2, 4];
  const runs = Array.from({ length: times }, (_, i) =>
    runQueue(2, 2, Infinity, 4, moments, root.child('unlimited').nth(i)),
  );

  test.each([
    { at: 0, t: 0.5, mean: 0.8847969, p0: 0.412798, p1: 0.3652424, p2: 0.1615827, upTo5: 0.9996859 },
    { at: 1, t: 1, mean: 1.5738774, p0: 0.2072401, p1: 0.3261705, p2: 0.2566762, upTo5: 0.9944079 },
    { at: 2, t: 2, mean: 2.5284822, p0: 0.07978, p1: 0.2017224, p2: 0.2550257, upTo5: 0.9560492 },
    { at: 3, t: 4, mean: 3.4586589, p0: 0.0314719, p1: 0.1088507, p2: 0.1882387, upTo5: 0.8630288 },
  ])('after $t: Poisson of mean $mean', ({ at, mean, p0, p1, p2, upTo5 }) => {
    const counts = runs.map((run) => run.atMoments[at] as number);
    expect(Math.abs(average(counts) - mean)).toBeLessThan(Z * Math.sqrt(mean / times));
    for (const [p, isSo] of [
      [p0, (n: number) => n === 0],
      [p1, (n: number) => n === 1],
      [p2, (n: number) => n === 2],
      [upTo5, (n: number) => n <= 5],
    ] as const) {
      expect(Math.abs(shareOf(counts, isSo) - p)).toBeLessThan(binomialBound(p, times));
    }
  });
});

function average(numbers: readonly number[]): number {
  return numbers.reduce((sum, n) => sum + n, 0) / numbers.length;
}
function shareOf(numbers: readonly number[], isSo: (n: number) => boolean): number {
  return numbers.filter(isSo).length / numbers.length;
}
/** The last half count matters only where p is close to 1. */
function binomialBound(p: number, n: number): number {
  return Z * Math.sqrt((p * (1 - p)) / n) + 0.5 / n;
}
