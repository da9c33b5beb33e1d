import { describe, expect, test } from 'vitest';
import { countedAlike } from '../../src/score/why-per-week.js';

const WEEKS = [1, 1, 1, 1];

describe('how many a week are of one cause', () => {
  test('a share of what was looked at, of what went wrong in all replicates', () => {
    // Half of 20 in two replicates; 10, 10, 30 and 30 in the four weeks are 20 a week.
    const { value, n } = countedAlike([5, 5], [10, 10], [10, 10, 30, 30], WEEKS);
    expect([value, n]).toEqual([10, 4]);
  });

  test('with all looked at it is a plain rate', () => {
    const { value } = countedAlike([1, 2, 3, 4], [5, 5, 5, 5], [5, 5, 5, 5], WEEKS);
    expect(value).toBe(2.5);
  });

  test('where the share is the same everywhere, the interval is that of the rate alone', () => {
    // By hand: the jackknife of a mean is its standard error, s = 11.547 of four, over √4 = 5.7735; half of that is 2.88675.
    // t(0.975; 3) = 3.1824, from Student's table (e.g. Fisher & Yates, Statistical Tables, table III).
    const { value, low, high } = countedAlike([5, 5], [10, 10], [10, 10, 30, 30], WEEKS);
    expect(high! - value!).toBeCloseTo(3.1824 * 2.88675, 3);
    expect(low).toBeCloseTo(10 - 3.1824 * 2.88675, 3);
  });

  test('where the rate is the same everywhere, it is that of the share', () => {
    // Shares left out: 0.2 and 0.6; their jackknife error is 0.2, times 10 a week; t(0.975; 1) = 12.706.
    const { value, low, high } = countedAlike([6, 2], [10, 10], [10, 10, 10, 10], WEEKS);
    expect(value).toBe(4);
    expect(high! - value!).toBeCloseTo(12.706 * 2, 2);
    expect(low).toBe(0);
  });

  test('one replicate looked at gives no interval', () => {
    const { value, low, reason } = countedAlike([5], [10], [10, 20], [1, 1]);
    expect(value).toBe(7.5);
    expect(low).toBeNull();
    expect(reason).toMatch(/two replicates/);
  });
});
