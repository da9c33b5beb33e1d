import fc from 'fast-check';
import jstat from 'jstat';
import { describe, expect, test } from 'vitest';
import { Stream, unitInterval } from '../../src/engine/stream.js';
import { THREEFRY, threefry2x32 } from '../../src/engine/threefry.js';

fc.configureGlobal({ seed: 20, numRuns: 200 });

const root = Stream.root('stream test');

describe('Threefry-2x32 with 20 rounds', () => {
  // Known answers of the authors' library (Random123, kat_vectors; J. K. Salmon et al., SC11, 2011,
  // doi:10.1145/2063384.2063405). The three lines are from memory, not copied from the file.
  test.each([
    { counter: [0x00000000, 0x00000000], key: [0x00000000, 0x00000000], answer: [0x6b200159, 0x99ba4efe] },
    { counter: [0xffffffff, 0xffffffff], key: [0xffffffff, 0xffffffff], answer: [0x1cb996fc, 0xbb002be7] },
    { counter: [0x243f6a88, 0x85a308d3], key: [0x13198a2e, 0x03707344], answer: [0xc4923a9c, 0x483df7a0] },
  ])('answers $answer', ({ counter, key, answer }) => {
    threefry2x32(Number(key[0]) | 0, Number(key[1]) | 0, Number(counter[0]) | 0, Number(counter[1]) | 0);
    expect([THREEFRY.x0 >>> 0, THREEFRY.x1 >>> 0]).toEqual(answer);
  });
});

describe('draws', () => {
  test('are strictly between 0 and 1, at the extremes of the words too', () => {
    expect(unitInterval(0, 0)).toBe(2 ** -53);
    expect(unitInterval(-1, -1)).toBe(1 - 2 ** -53);
    fc.assert(
      fc.property(fc.integer(), fc.integer(), (x0, x1) => {
        const u = unitInterval(x0, x1);
        expect(u > 0 && u < 1).toBe(true);
      }),
    );
  });

  test('are reached by number, whatever was drawn before', () => {
    const forward = Array.from({ length: 100 }, (_, n) => root.at(n));
    const backward = Array.from({ length: 100 }, (_, n) => Stream.root('stream test').at(99 - n)).reverse();
    expect(backward).toEqual(forward);
    expect(root.nth(90_001).at(3)).toBe(Stream.root('stream test').nth(90_001).at(3));
    expect(root.at(2 ** 32 - 1)).not.toBe(root.at(0));
  });

  test('are uniform: chi-square over 1024 cells, for draws, numbered children and named children', () => {
    const n = 200_000;
    const families: [string, (i: number) => number][] = [
      ['draws', (i) => root.at(i)],
      ['first draw of numbered children', (i) => root.nth(i).at(0)],
      ['first draw of neighbouring names', (i) => root.child(`beam ${i}`).at(0)],
    ];
    for (const [name, draw] of families) {
      const counts = new Float64Array(1024);
      for (let i = 0; i < n; i++) counts[Math.floor(draw(i) * 1024)]! += 1;
      expectChiSquare(counts, n, name);
    }
  });

  test('do not depend on their neighbours: chi-square over 32 × 32 cells of pairs, and correlation', () => {
    const n = 200_000;
    const pairs: [string, (i: number) => [number, number]][] = [
      ['neighbouring draws', (i) => [root.at(i), root.at(i + 1)]],
      ['same draw of neighbouring numbered children', (i) => [root.nth(i).at(7), root.nth(i + 1).at(7)]],
      ['same draw of neighbouring names', (i) => [root.child(`body ${i}`).at(7), root.child(`body ${i + 1}`).at(7)]],
      ['draw and numbered child of one number', (i) => [root.at(i), root.nth(i).at(0)]],
      ['neighbouring seeds', (i) => [Stream.root(String(i)).at(0), Stream.root(String(i + 1)).at(0)]],
    ];
    for (const [name, pair] of pairs) {
      const counts = new Float64Array(1024);
      let product = 0;
      for (let i = 0; i < n; i++) {
        const [u, v] = pair(i);
        counts[Math.floor(u * 32) * 32 + Math.floor(v * 32)]! += 1;
        product += (u - 0.5) * (v - 0.5);
      }
      expectChiSquare(counts, n, name);
      // Under independence r √n is standard normal.
      expect(Math.abs((12 * product) / Math.sqrt(n)), name).toBeLessThan(3.29);
    }
  });

  test('have fair bits, all 52 of them', () => {
    const n = 20_000;
    const ones = new Float64Array(52);
    for (let i = 0; i < n; i++) {
      let rest = Math.floor(root.at(i) * 2 ** 52);
      for (let bit = 0; bit < 52; bit++) {
        ones[bit]! += rest % 2;
        rest = Math.floor(rest / 2);
      }
    }
    // 4.3 standard deviations: one in a thousand for the worst of 52 bits.
    for (const count of ones) expect(Math.abs(count - n / 2)).toBeLessThan(4.3 * Math.sqrt(n / 4));
  });
});

describe('paths', () => {
  test('a slash within a name is not a step: a/b and a, b never meet', () => {
    expect(root.child('a/b').path).toBe('stream test/a%2Fb');
    expect(root.child('a/b').at(0)).not.toBe(root.child('a', 'b').at(0));
    expect(root.child('a').child('b').at(0)).toBe(root.child('a', 'b').at(0));
  });

  test('a name below a numbered stream keeps the number', () => {
    expect(root.nth(3).child('gaps').path).toBe('stream test/#3/gaps');
    expect(root.nth(3).child('gaps').at(0)).not.toBe(root.nth(4).child('gaps').at(0));
    expect(root.child('#3', 'gaps').at(0)).not.toBe(root.nth(3).child('gaps').at(0));
  });

  test('different lists of names give different paths', () => {
    const name = fc.string({ unit: fc.constantFrom('a', '/', '%', '2', 'F', '#'), minLength: 1, maxLength: 4 });
    const names = fc.array(name, { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(names, names, (one, other) => {
        const same = one.length === other.length && one.every((segment, i) => segment === other[i]);
        expect(root.child(...one).path === root.child(...other).path).toBe(same);
      }),
    );
  });
});

/** Fails one time in a thousand for a fair source; the seed is fixed, so it either holds or doesn't. */
function expectChiSquare(counts: Float64Array, n: number, name: string): void {
  const mean = n / counts.length;
  const statistic = counts.reduce((sum, count) => sum + (count - mean) ** 2 / mean, 0);
  expect(statistic, name).toBeLessThan(jstat.chisquare.inv(0.999, counts.length - 1));
  expect(statistic, `${name}: too even to be chance`).toBeGreaterThan(jstat.chisquare.inv(0.001, counts.length - 1));
}
