/** Logics ranked pair by pair: what the crowds do to all of them alike falls out. */
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import type { CaseCounts } from '../../src/score/door-counts.js';
import { isBehind, ranking } from '../../src/score/ranking.js';

const counts = (crossings: number, missed: number) => ({
  total: { visits: crossings, crossings, missed, reversed: 0, extra: 0, invented: 0 } satisfies CaseCounts,
});
/** `missed[replicate][door][logic]`, 100 crossings a door. */
const replicates = (missed: readonly (readonly (readonly number[])[])[]) =>
  missed.map((doors) => doors.map((logics) => ({ logics: logics.map((one) => counts(100, one)) })));

describe('ranking', () => {
  test('puts the least wrong first and says how far the others are behind, by house and by door', () => {
    const rows = ranking(
      ['a', 'b'],
      ['front', 'back'],
      replicates([
        [
          [5, 2],
          [1, 4],
        ],
        [
          [7, 3],
          [1, 3],
        ],
        [
          [6, 4],
          [1, 5],
        ],
      ]),
    );
    expect(rows.map(({ door, logic }) => [door, logic])).toEqual([
      [null, 'a'],
      [null, 'b'],
      ['front', 'b'],
      ['front', 'a'],
      ['back', 'a'],
      ['back', 'b'],
    ]);
    expect(rows[0]).toMatchObject({ more_than_best_per_100: null });
    expect(rows[0]!.wrong_per_100.value).toBeCloseTo(3.5, 12);
    expect(rows[3]!.more_than_best_per_100!.value).toBeCloseTo(3, 12);
  });

  test('one logic is not ranked, and of equals the earlier named comes first', () => {
    expect(ranking(['a'], ['front'], replicates([[[5]], [[6]]]))).toEqual([]);
    const rows = ranking(['b', 'a'], ['front'], replicates([[[5, 5]], [[6, 6]]]));
    expect(rows.map(({ logic }) => logic)).toEqual(['b', 'a']);
    expect(rows[1]!.more_than_best_per_100).toMatchObject({ value: 0, low: 0, high: 0 });
    expect(isBehind(rows[1]!)).toBe(false);
  });

  // Worked example of common random numbers: losses 1{U < 0.02} and 1{U < 0.03} of the same U have covariance
  // 0.02 − 0.02 · 0.03 = 0.0194, so that their difference has variance 0.0099 against 0.0487 of independent ones: 4.919 times
  // less. Derived from Var(X − Y) = Var X + Var Y − 2 Cov(X, Y).
  test('a paired interval is as much narrower as covariance says: sqrt(4.919) = 2.218 times', () => {
    const stream = Stream.root('pairs');
    const draws = Array.from({ length: 400 }, (_, r) => Array.from({ length: 100 }, (_one, i) => stream.nth(r).at(i)));
    const lost = (u: readonly number[], share: number) => u.filter((one) => one < share).length;
    const paired = ranking(['x', 'y'], ['front'], replicates(draws.map((u) => [[lost(u, 0.02), lost(u, 0.03)]])));
    const other = draws.map((_, r) => draws[(r + 1) % draws.length]!);
    const apart = ranking(
      ['x', 'y'],
      ['front'],
      replicates(draws.map((u, r) => [[lost(u, 0.02), lost(other[r]!, 0.03)]])),
    );
    const width = ({ low, high }: { low: number | null; high: number | null }) => high! - low!;
    const ratio = width(apart[1]!.more_than_best_per_100!) / width(paired[1]!.more_than_best_per_100!);
    // The ratio of two standard deviations of 400 samples each scatters by some 5 %.
    expect(ratio).toBeGreaterThan(2.218 * 0.85);
    expect(ratio).toBeLessThan(2.218 * 1.15);
    expect(isBehind(paired[1]!)).toBe(true);
  });
});
