// How far runs are apart, against formulas written out here and against what theory knows of test rods.
import { describe, expect, test } from 'vitest';
import { difference, enoughReplicates, toldOf } from '../../../src/report/compare/differences.js';
import { HOUSE, WRONG, errorMeasures, measureGroups } from '../../../src/report/compare/measures.js';
import { type CompareRun, apart } from '../../../src/report/compare/runs.js';
import { HIGH, LOW, runOf, withCounts } from './runs.js';

const plain = runOf('plain');
const high = runOf('high', [HIGH]);
const reseeded = runOf('reseeded', ['seed=6']);

/** Student's t at 0.975, by degrees of freedom; from a handbook's table (from memory). */
const T: Readonly<Record<number, number>> = { 3: 3.1824, 5: 2.5706 };

describe('which runs are paired', () => {
  test('designs that change nothing about who comes are, whatever sensors and logics they have', () => {
    expect(apart(high, plain)).toBeNull();
    expect(apart(runOf('first', ['logics=[first-broken]']), plain)).toBeNull();
    expect(apart(runOf('more', ['replicates=8']), plain)).toBeNull();
  });

  test.each([
    ['seed', reseeded],
    ['hours', runOf('longer', ['hours=4'])],
    ['crowd', runOf('busier', ['doors.front.traffic.arrivals_per_hour=31'])],
    ['crowd', runOf('wider', ['doors.front.width_m=1.0'])],
    ['version', { ...plain, metrics: { ...plain.metrics, jambeam: '0.0.1' } }],
    ['old', old(plain)],
  ] as const)('another %s is told', (why, run) => {
    expect(apart(run, plain)).toBe(why);
    expect(apart(plain, run)).toBe(why);
  });

  test('what claims to be the same crowd but has other crossings is not paired', () => {
    const forged = withCounts(plain, [
      [100, 5],
      [100, 5],
    ]);
    expect(apart(forged, plain)).toBe('crowd');
  });
});

function old({ figures, ...run }: CompareRun): CompareRun {
  const { replicates: _, ...rest } = figures;
  return { ...run, figures: rest };
}

describe('a paired difference', () => {
  // Made up: crossings are the same in both, as under one crowd.
  const a = withCounts(plain, [
    [100, 5],
    [80, 3],
    [120, 10],
    [90, 4],
  ]);
  const b = withCounts(high, [
    [100, 8],
    [80, 7],
    [120, 12],
    [90, 9],
  ]);

  test('has the value and the interval of the textbook: the delete-one jackknife of a difference of ratios', () => {
    // Tukey 1958; Miller 1974: θ̂ = 100 (Σb/Σn − Σa/Σn); θ̂₍ᵢ₎ the same without replicate i; s² = (n − 1)/n · Σ(θ̂₍ᵢ₎ − θ̄)².
    const n = [100, 80, 120, 90];
    const d = [3, 4, 2, 5];
    const total = (list: readonly number[]): number => list.reduce((x, y) => x + y, 0);
    const value = (100 * total(d)) / total(n);
    const without = d.map((one, i) => (100 * (total(d) - one)) / (total(n) - n[i]!));
    const mean = total(without) / 4;
    const error = Math.sqrt((3 / 4) * total(without.map((one) => (one - mean) ** 2)));
    const { own, apart: why, replicates } = difference(WRONG, b, a, 1);
    expect(why).toBeNull();
    expect(replicates).toEqual([4, 4]);
    expect(own.value).toBeCloseTo(value, 12);
    expect(own.low).toBeCloseTo(value - T[3]! * error, 3);
    expect(own.high).toBeCloseTo(value + T[3]! * error, 3);
    expect(toldOf(own)).toBe('more');
  });

  test('the other way round it has the other sign', () => {
    const [there, back] = [difference(WRONG, b, a, 1).own, difference(WRONG, a, b, 1).own];
    expect(back.value).toBeCloseTo(-there.value!, 12);
    expect(back.low).toBeCloseTo(-there.high!, 10);
  });

  test('a family of two has wider intervals, by t at 1 − 0.025/2 instead of 0.975', () => {
    const { own, atOnce } = difference(WRONG, b, a, 2);
    // t(3) at 0.9875, from a handbook's table (from memory).
    expect((atOnce.high! - atOnce.value!) / (own.high! - own.value!)).toBeCloseTo(4.1765 / 3.1824, 3);
  });

  test('rests on the first replicates that both have', () => {
    const longer = withCounts({ ...high, figures: { ...high.figures, replicates: [...high.figures.replicates!] } }, [
      [100, 8],
      [80, 7],
      [120, 12],
      [90, 9],
      [70, 50],
    ]);
    expect(difference(WRONG, longer, a, 1)).toEqual(difference(WRONG, b, a, 1));
  });
});

describe('a difference without pairs', () => {
  test('has the errors of both and Welch’s degrees of freedom, with as many replicates as each has', () => {
    // Equal exposures, so that each ratio is a plain mean and the textbook's two-sample formula holds (Welch 1947).
    const x = [4, 6, 5, 9];
    const y = [10, 12, 17, 11, 10, 12];
    const counts = (list: readonly number[]) => list.map((missed) => [100, missed] as const);
    const [a, b] = [withCounts(plain, counts(x)), withCounts(reseeded, counts(y))];
    const mean = (list: readonly number[]): number => list.reduce((p, q) => p + q, 0) / list.length;
    const square = (list: readonly number[]): number =>
      list.reduce((p, q) => p + (q - mean(list)) ** 2, 0) / (list.length - 1) / list.length;
    const [va, vb] = [square(x), square(y)];
    const freedom = (va + vb) ** 2 / (va ** 2 / 3 + vb ** 2 / 5);
    const { own, apart: why, replicates } = difference(WRONG, b, a, 1);
    expect(why).toBe('seed');
    expect(replicates).toEqual([6, 4]);
    expect(own.value).toBeCloseTo(mean(y) - mean(x), 10);
    // t lies between its values at the whole degrees of freedom around, and Welch's are at least the smaller sample's.
    expect(freedom).toBeGreaterThan(6);
    expect(freedom).toBeLessThan(8);
    const half = own.high! - own.value!;
    // t(6) and t(8) at 0.975, from a handbook's table (from memory).
    expect(half).toBeLessThan(2.4469 * Math.sqrt(va + vb));
    expect(half).toBeGreaterThan(2.306 * Math.sqrt(va + vb));
  });

  test('where neither scatters there is no interval, for nothing says how far chance reaches', () => {
    const flat = [
      [100, 5],
      [100, 5],
    ] as const;
    const { own } = difference(WRONG, withCounts(plain, flat), withCounts(reseeded, flat), 1);
    expect(own).toMatchObject({ value: 0, low: null, high: null, method: 'none' });
    expect(toldOf(own)).toBe('unsure');
  });
});

describe('runs truly simulated', () => {
  test('the same run twice differs by exactly nothing, in every number', () => {
    for (const measure of measureGroups([plain, plain]).flatMap(({ measures }) => measures)) {
      const { own } = difference(measure, plain, { ...plain, label: 'again' }, 1);
      expect({ what: measure.words, value: own.value, low: own.low, high: own.high }).toEqual({
        what: measure.words,
        value: 0,
        low: 0,
        high: 0,
      });
    }
  });

  test('a difference of values is that of the metrics, for every number of every place', () => {
    for (const measure of measureGroups([plain, high]).flatMap(({ measures }) => measures)) {
      const [a, b] = [measure.estimate(high)!.value!, measure.estimate(plain)!.value!];
      expect(difference(measure, high, plain, 1).own.value).toBeCloseTo(a - b, 9);
    }
  });

  test('beams over the heads of children miss them, and beams at shins count legs: both are told from chance', () => {
    const missed = errorMeasures(HOUSE)[1]!;
    const { own } = difference(missed, high, plain, 1);
    expect(toldOf(own)).toBe('more');
    expect(enoughReplicates(difference(missed, high, plain, 1))).toBeNull();
    const low = runOf('low', [LOW]);
    expect(toldOf(difference(WRONG, low, plain, 1).own)).toBe('more');
  });

  test('an old run gives values without intervals, and says why', () => {
    const { own, apart: why } = difference(WRONG, high, old(plain), 1);
    expect(why).toBe('old');
    expect(own.value).toBeCloseTo(
      high.metrics.house.wrong_per_100.value! - plain.metrics.house.wrong_per_100.value!,
      9,
    );
    expect(own.low).toBeNull();
    expect(own.reason).toMatch(/run it again/);
  });

  test('one replicate gives no interval', () => {
    const one = runOf('one', ['replicates=1']);
    expect(difference(WRONG, one, plain, 1).own).toMatchObject({ low: null, high: null });
  });
});

describe('test rods, of which theory knows how often they are missed', () => {
  /**
   * Rods one way as a Poisson stream of rate n, each filling the pair for τ = (rod + spacing)/v: a rod that comes while the one
   * before is still in either beam is not counted by itself, so missed = 1 − exp(−nτ), a paralyzable counter. Source: G. F.
   * Knoll, Radiation Detection and Measurement, ch. 4 (chapter from memory).
   */
  const rods = (per_hour: number, spacing_m: number): string => `format: 1
name: rods
seed: rods
replicates: 20
hours: ${800 / per_hour}
rooms: [{ name: hall }]
controllers: [{ name: main }]
walkers: { rod: { kind: test-rod, diameter_m: 0.3, speed_mps: 1 } }
sensors: { barrier: { kind: light-barrier, response_ms: 0, covered_share: 0.5 } }
logics: [{ use: four-level, timeout_ms: 2000000 }]
doors:
  - name: door
    from: outside
    to: hall
    width_m: 0.9
    zone_m: 1.2
    pair: { sensor: barrier, height_m: 0.9, spacing_m: ${spacing_m} }
    traffic: { arrivals_per_hour: ${per_hour}, one_way: true, mix: [{ who: rod, kind: through, share: 1 }] }
`;
  const missed = (per_hour: number, spacing_m: number): number =>
    100 * (1 - Math.exp((-per_hour / 3600) * (0.3 + spacing_m)));
  const measure = errorMeasures(HOUSE)[1]!;

  test('a wider pair under the same rods: the interval holds the difference, and is narrower for being paired', () => {
    const narrow = runOf('narrow', [], rods(400, 0.06));
    const wide = runOf('wide', [], rods(400, 0.2));
    const { own, apart: why } = difference(measure, wide, narrow, 1);
    expect(why).toBeNull();
    const theory = missed(400, 0.2) - missed(400, 0.06);
    expect(own.low!).toBeLessThan(theory);
    expect(own.high!).toBeGreaterThan(theory);
    expect(own.low!).toBeGreaterThan(0);
    const other = runOf('other', ['seed=others'], rods(400, 0.2));
    const unpaired = difference(measure, other, narrow, 1);
    expect(unpaired.apart).toBe('seed');
    expect(unpaired.own.low!).toBeLessThan(theory);
    expect(unpaired.own.high!).toBeGreaterThan(theory);
    expect(own.high! - own.low!).toBeLessThan(unpaired.own.high! - unpaired.own.low!);
  });

  test('busier rods are another crowd, and the interval without pairs holds the difference', () => {
    const [calm, busy] = [runOf('calm', [], rods(200, 0.1)), runOf('busy', ['hours=4'], rods(400, 0.1))];
    const { own, apart: why } = difference(measure, busy, calm, 1);
    expect(why).toBe('crowd');
    const theory = missed(400, 0.1) - missed(200, 0.1);
    expect(own.low!).toBeLessThan(theory);
    expect(own.high!).toBeGreaterThan(theory);
  });
});
