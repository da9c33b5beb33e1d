/**
 * Streams whose names differ by a digit or a letter, named as a run names them, know nothing of each other. Put side by side,
 * what such streams draw must look like one stream's draws.
 *
 * Chi-square with equal cells: Knuth, The Art of Computer Programming, vol. 2, section 3.3.1. Correlations of a series without
 * any are normal with variance 1/n: Bartlett (1946), Journal of the Royal Statistical Society, Supplement 8, 27–41. Both from
 * memory. A family of true hypotheses is refuted by chance once in ten thousand seeds: Bonferroni over all that is tested here.
 */
import { describe, expect, test } from 'vitest';
import { chiSquareQuantile, normalQuantile } from '../../src/engine/distribution-functions.js';
import { Stream } from '../../src/engine/stream.js';
import { howMany } from '../how-many.js';

const STREAMS = howMany(8_192, 131_072);
const LAGS = 8;

const run = Stream.root('1').child('replicate', '1');
/** How streams are named: the one next to it differs in the number, or in a letter. */
const FAMILIES: Readonly<Record<string, (i: number) => Stream>> = {
  'seeds of runs': (i) => Stream.root(String(i)),
  'replicates of a run': (i) => Stream.root('1').child('replicate', String(i)).child('crowd'),
  'doors that are numbered': (i) => run.child('door', `door ${i}`, 'beam', 'a'),
  'doors named by letters': (i) => run.child('door', letters(i), 'beam', 'a'),
  'two beams of each door': (i) => run.child('door', `door ${i >> 1}`, 'beam', 'ab'[i & 1]!),
  'tallies of logics': (i) => run.child('door', `door ${i >> 2}`, 'tallies', `logic ${i & 3}`),
  'bodies of a crowd': (i) => run.child('crowd').nth(i),
  'purposes of a body': (i) =>
    run
      .child('crowd')
      .nth(i >> 2)
      .nth(i & 3),
};
/** Even fillings and correlations. */
const TESTS_OF_EACH = 4 + LAGS;
const LEVEL = 1e-4 / (Object.keys(FAMILIES).length * TESTS_OF_EACH);

/** a, b, …, z, ba, bb, … */
function letters(i: number): string {
  return Array.from(i.toString(26), (digit) => String.fromCharCode(97 + Number.parseInt(digit, 26))).join('');
}

/** Fails where so uneven a filling of the cells is rarer than the level. */
function expectEven(cells: readonly number[], of: number): void {
  const counts = Array.from({ length: of }, () => 0);
  for (const cell of cells) counts[cell]!++;
  const mean = cells.length / of;
  const chi = counts.reduce((sum, n) => sum + (n - mean) ** 2 / mean, 0);
  expect(chi).toBeLessThan(chiSquareQuantile(1 - LEVEL, of - 1));
}

describe.each(Object.entries(FAMILIES))('%s', (_, named) => {
  const firsts = Array.from({ length: STREAMS }, (_one, i) => named(i).at(0));

  test('first draws fill the unit interval evenly', () =>
    expectEven(
      firsts.map((u) => Math.floor(u * 128)),
      128,
    ));

  test('so do their lowest bits', () =>
    expectEven(
      firsts.map((u) => Math.floor(u * 2 ** 52) % 128),
      128,
    ));

  test('no two begin alike', () => expect(new Set(firsts).size).toBe(STREAMS));

  test('neighbours’ first draws fill the unit square evenly', () =>
    expectEven(
      // Pairs that share no draw, as the chi-square asks for.
      Array.from(
        { length: STREAMS / 2 },
        (_one, i) => Math.floor(firsts[2 * i]! * 16) * 16 + Math.floor(firsts[2 * i + 1]! * 16),
      ),
      256,
    ));

  test('draws of two neighbours do, number by number', () => {
    const [one, next] = [named(6), named(7)];
    const pairs = Array.from({ length: STREAMS }, (_one, n) => [one.at(n), next.at(n)] as const);
    expectEven(
      pairs.map(([u, v]) => Math.floor(u * 16) * 16 + Math.floor(v * 16)),
      256,
    );
  });

  test.each(Array.from({ length: LAGS }, (_one, k) => k + 1))('no correlation at a distance of %i', (lag) => {
    // Of uniforms: mean 1/2, variance 1/12.
    const products = firsts.slice(lag).map((u, i) => 12 * (u - 0.5) * (firsts[i]! - 0.5));
    const r = products.reduce((sum, x) => sum + x, 0) / products.length;
    expect(Math.abs(r)).toBeLessThan(normalQuantile(1 - LEVEL / 2, 0, 1) / Math.sqrt(products.length));
  });
});

test('a bad namer would be caught: streams that share the key of the one before', () => {
  const shared = Array.from({ length: STREAMS }, (_, i) => Stream.root(String(i >> 1)).at(0));
  const pairs = Array.from(
    { length: STREAMS / 2 },
    (_, i) => Math.floor(shared[2 * i]! * 16) * 16 + Math.floor(shared[2 * i + 1]! * 16),
  );
  expect(() => expectEven(pairs, 256)).toThrow();
});
