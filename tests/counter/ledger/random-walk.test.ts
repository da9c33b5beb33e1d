/**
 * What theory says of sums of independent errors, held against the ledgers. A door that counts one too many with chance
 * p₊ and one too few with chance p₋ makes the raw ledger a random walk with pauses; with the true room empty, floor is
 * that walk reflected at zero. Outside values: computed from the random-walk formulas (variance; spectrum of the walk on
 * an interval; Spitzer's identity for the expected maximum) with numpy and again with exact fractions.
 */
import { describe, expect, test } from 'vitest';
import { makeLedger } from '../../../src/counter/ledger/make-ledger.js';
import { Stream } from '../../../src/engine/stream.js';
import { OUT, houseOf } from './helpers.js';
import { howMany } from '../../how-many.js';

const front = houseOf([0], [[OUT, 0]]);
const WALKS = howMany(10_000, 100_000, 1_000);

/** Counts of a ledger along one walk of `n` errors. */
function walk(use: 'raw' | 'floor', n: number, more: number, fewer: number, stream: Stream): number[] {
  const ledger = makeLedger({ use }, front);
  return Array.from({ length: n }, (_, i) => {
    const u = stream.at(i);
    if (u < more) ledger.tally(i, 0, 'forward');
    else if (u < more + fewer) ledger.tally(i, 0, 'backward');
    return ledger.counts[0]!;
  });
}

const walks = (use: 'raw' | 'floor', n: number, more: number, fewer: number): number[][] =>
  Array.from({ length: WALKS }, (_, i) => walk(use, n, more, fewer, Stream.root(`${use} ${n} ${more}`).nth(i)));

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
/** Within four and a half standard errors: once in 150,000 by chance, and seeds are fixed. */
const near = (found: number, expected: number, standardError: number) =>
  expect(Math.abs(found - expected)).toBeLessThan(4.5 * standardError);

/** Distribution after n steps of the walk reflected at zero, by its transition matrix; state `n` is never passed. */
function reflected(n: number, more: number, fewer: number): number[] {
  let chances = Array.from({ length: n + 2 }, (_, state): number => (state === 0 ? 1 : 0));
  for (let step = 0; step < n; step++) {
    const next = chances.map(() => 0);
    chances.forEach((chance, state) => {
      if (chance === 0) return;
      next[state + 1]! += chance * more;
      next[Math.max(0, state - 1)]! += chance * fewer;
      next[state]! += chance * (1 - more - fewer);
    });
    chances = next;
  }
  return chances;
}

describe('the raw ledger', () => {
  test.each([
    [0.02, 0.02],
    [0.03, 0.01],
  ])('errs by n(p₊ − p₋) on average, with variance n(p₊ + p₋ − (p₊ − p₋)²): %f, %f', (more, fewer) => {
    const n = 200;
    const ends = walks('raw', n, more, fewer).map((counts) => counts.at(-1)!);
    const variance = n * (more + fewer - (more - fewer) * (more - fewer));
    near(mean(ends), n * (more - fewer), Math.sqrt(variance / WALKS));
    const centre = mean(ends);
    // Nearly normal: the variance of a sample variance is 2σ⁴/N.
    near(mean(ends.map((x) => (x - centre) ** 2)), variance, variance * Math.sqrt(2 / WALKS));
  });

  // Chance that the error has been beyond ±k by step n.
  const table: [p: number, k: number, atSteps: Record<number, number>][] = [
    [0.01, 0, { 10: 0.1829271931, 50: 0.6358303199, 100: 0.8673804441 }],
    [0.01, 1, { 10: 0.0080964484, 50: 0.1366140076, 100: 0.3356185439 }],
    [0.01, 2, { 10: 0.0002161156, 50: 0.0202172838, 100: 0.0909509518 }],
    [0.02, 1, { 10: 0.0291876262, 50: 0.3363930175, 100: 0.6286967975 }],
    [0.02, 2, { 10: 0.0015575169, 50: 0.090527209, 100: 0.278705239 }],
  ];
  test.each(table)('with even errors of %f leaves ±%i as the table says', (p, k, atSteps) => {
    const left = walks('raw', 100, p, p).map((counts) => counts.findIndex((x) => Math.abs(x) > k) + 1 || Infinity);
    for (const [n, chance] of Object.entries(atSteps))
      near(mean(left.map((step) => (step <= Number(n) ? 1 : 0))), chance, Math.sqrt((chance * (1 - chance)) / WALKS));
  });
});

describe('the floor ledger of a room that stays empty', () => {
  test('is the reflected walk: over every way six errors can fall, to the last digits', () => {
    const [more, fewer] = [0.25, 0.125];
    const chanceOf = [more, fewer, 1 - more - fewer];
    const found = Array.from({ length: 8 }, () => 0);
    for (let code = 0; code < 3 ** 6; code++) {
      const ledger = makeLedger({ use: 'floor' }, front);
      let chance = 1;
      for (let step = 0, rest = code; step < 6; step++, rest = Math.floor(rest / 3)) {
        chance *= chanceOf[rest % 3]!;
        if (rest % 3 < 2) ledger.tally(step, 0, rest % 3 === 0 ? 'forward' : 'backward');
      }
      found[ledger.counts[0]!]! += chance;
    }
    // All chances are eighths: sums are exact.
    expect(found).toEqual(reflected(6, more, fewer));
  });

  // Expected maximum of the walk, which by duality is what the reflected one expects at its end.
  test.each([
    [0.01, 100, 0.7028887],
    [0.02, 100, 1.1483022],
    [0.01, 500, 2.0554833],
  ])('drifts upwards though errors are even: p = %f, n = %i', (p, n, expected) => {
    const chances = reflected(n, p, p);
    const first = chances.reduce((sum, chance, count) => sum + chance * count, 0);
    const second = chances.reduce((sum, chance, count) => sum + chance * count * count, 0);
    expect(first).toBeCloseTo(expected, 6);
    if (n > 100) return;
    const ends = walks('floor', n, p, p).map((counts) => counts.at(-1)!);
    near(mean(ends), expected, Math.sqrt((second - first * first) / WALKS));
  });
});
