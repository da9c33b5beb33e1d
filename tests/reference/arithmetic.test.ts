/** Expected: correctly rounded values from mpmath 1.3.0 at 60 digits, by tests/reference/arithmetic-values.py. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import * as arithmetic from '../../src/engine/arithmetic.js';
import { normalCdf, normalQuantile } from '../../src/engine/distribution-functions.js';

type Row = readonly number[];
const values = JSON.parse(readFileSync(new URL('arithmetic-values.json', import.meta.url), 'utf8')) as Record<
  'sin' | 'cos' | 'exp' | 'ln' | 'pow' | 'atan2' | 'normalCdf' | 'normalQuantile',
  readonly Row[]
>;
const argument = (row: Row, at = 0): number => row[at] as number;
const expected = (row: Row): number => row[row.length - 1] as number;

/** How many doubles lie between two doubles: 1 for neighbours. */
function ulpsApart(a: number, b: number): number {
  return Number(ordinal(a) - ordinal(b));
}
function ordinal(x: number): bigint {
  const bits = new BigInt64Array(new Float64Array([x]).buffer)[0] as bigint;
  return bits < 0n ? -(bits & 0x7fff_ffff_ffff_ffffn) : bits;
}

describe('within one unit in the last place of the correctly rounded value', () => {
  for (const name of ['sin', 'cos', 'exp', 'ln'] as const) {
    test.each(values[name])(`${name}(%d)`, (...row) => {
      expect(Math.abs(ulpsApart(arithmetic[name](argument(row)), expected(row)))).toBeLessThanOrEqual(1);
    });
  }
  for (const name of ['pow', 'atan2'] as const) {
    test.each(values[name])(`${name}(%d, %d)`, (...row) => {
      const got = arithmetic[name](argument(row), argument(row, 1));
      expect(Math.abs(ulpsApart(got, expected(row)))).toBeLessThanOrEqual(1);
    });
  }
});

test('the normal distribution function is right to 32 units in the last place from -8 to 8', () => {
  for (const row of values.normalCdf) {
    expect(Math.abs(ulpsApart(normalCdf(argument(row), 0, 1), expected(row)))).toBeLessThanOrEqual(32);
  }
});

test('the normal quantile is off by no more than half a last place of 1 in the probability', () => {
  // It works on 2p − 1, so far tails lose relative, never absolute, precision of p.
  for (const row of values.normalQuantile) {
    const z = expected(row);
    const density = arithmetic.exp((-z * z) / 2) / Math.sqrt(2 * arithmetic.PI);
    const off = Math.abs(normalQuantile(argument(row), 0, 1) - z);
    expect(off * density).toBeLessThan(2 ** -53 + 4 * 2 ** -53 * Math.abs(z) * density);
  }
});
