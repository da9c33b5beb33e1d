import { describe, expect, test } from 'vitest';
import { perWeek, timesEstimate } from '../../src/score/kinds-per-week.js';
import type { Estimate } from '../../src/score/metrics-schema.js';
import { judge, visit } from './builders.js';

const SECOND = 1_000_000;

/** One person after another; those at `missed` are not counted, all others are. */
function day(missed: readonly number[], persons = 1) {
  const visits = Array.from({ length: 10 }, (_, i) =>
    visit({ number: i + 1, body: i + 1, enter_us: i * 3600 * SECOND, persons }),
  );
  const counts = judge(
    visits,
    visits.flatMap((v, i) =>
      missed.includes(i) ? [] : Array.from({ length: persons }, () => [v.cross_us!, 'forward'] as const),
    ),
  );
  return counts.kinds[0]!;
}

describe('a kind in three replicates of 24 hours', () => {
  const numbers = perWeek([day([3, 7]), day([5]), day([4, 6, 8])], 24);

  test('comes and goes wrong so often in a week', () => {
    expect(numbers.visits_per_week.value).toBeCloseTo(70, 12);
    expect(numbers.wrong_per_week.value).toBeCloseTo(14, 12);
    // Everybody went forward and was missed: the room ahead has two too few a day.
    expect(numbers.net_error_per_week.value).toBeCloseTo(-14, 12);
    expect(numbers.net_error_per_week.low).toBeLessThan(-14);
    expect(numbers).not.toHaveProperty('oversampled');
  });

  test('and is first wrong at the fourth hour in the median: third, fourth and fifth', () => {
    expect(numbers.first_wrong_median_days).toMatchObject({ value: 4 / 24, method: 'kaplan-meier', n: 3 });
  });
});

test('where most replicates saw nothing wrong the wait is that of a steady rate', () => {
  // One in four days: 1.75 a week, ln 2 · 4 days.
  const { wrong_per_week, first_wrong_median_days } = perWeek([day([]), day([2]), day([]), day([])], 24);
  expect(wrong_per_week.value).toBeCloseTo(1.75, 12);
  expect(first_wrong_median_days).toMatchObject({ method: 'exponential', high: null });
  expect(first_wrong_median_days.value).toBeCloseTo(0.693147180559945 * 4, 9);
  expect(first_wrong_median_days.low).toBeCloseTo((0.693147180559945 * 7) / wrong_per_week.high!, 9);
});

test('where nothing was wrong at all the wait has only a low end, from the bound of no event', () => {
  const { wrong_per_week, net_error_per_week, first_wrong_median_days } = perWeek([day([]), day([])], 24 * 7);
  // 3.69 events (Garwood 1936) in two weeks.
  expect(wrong_per_week.high).toBeCloseTo(3.68887945 / 2, 8);
  expect(net_error_per_week).toMatchObject({ value: 0, low: -wrong_per_week.high! });
  expect(first_wrong_median_days).toMatchObject({ value: null, high: null, method: 'exponential' });
  expect(first_wrong_median_days.low).toBeCloseTo((0.693147180559945 * 7 * 2) / 3.68887945, 8);
});

test('the first wrong one of a kind is remembered, and what it does to the rooms: two persons each', () => {
  expect(day([4, 2], 2)).toMatchObject({ first_wrong_us: 2 * 3600 * SECOND, net_error: -4, missed: 4 });
  expect(day([])).toMatchObject({ first_wrong_us: -1, net_error: 0 });
});

describe('how often they come, times what happens in each', () => {
  const estimate = (value: number, half: number): Estimate => ({
    value,
    low: value - half,
    high: value + half,
    method: 'jackknife-t',
    n: 50,
  });
  const times = (a: Estimate, b: Estimate) => timesEstimate(a, b, 400);

  test('the interval is that of either factor where the other is certain', () => {
    expect(times(estimate(10, 0), estimate(0.5, 0.1))).toMatchObject({ value: 5, low: 4, high: 6, n: 400 });
    expect(times(estimate(10, 2), estimate(0.5, 0))).toMatchObject({
      value: 5,
      low: 4,
      high: 6,
      method: 'oversampled',
    });
    expect(times(estimate(10, 2), estimate(-0.5, 0))).toMatchObject({ value: -5, low: -6, high: -4 });
  });

  test('and their squares add: 1.5² + 2² is 2.5²', () => {
    const { low, high } = times(estimate(10, 3), estimate(0.5, 0.2));
    expect(low).toBeCloseTo(2.5, 12);
    expect(high).toBeCloseTo(7.5, 12);
  });

  test('none seen among the extra ones has the bound of none seen', () => {
    const none: Estimate = { value: 0, low: 0, high: 0.01, method: 'poisson-zero', n: 369, reason: 'none seen' };
    expect(times(estimate(10, 3), none)).toMatchObject({ value: 0, low: 0, high: 0.1, reason: 'none seen' });
  });

  test('a rare kind has its numbers from there, and says so', () => {
    const rare = {
      who: 'adult',
      kind: 'through',
      visits: 400,
      wrong: estimate(0.5, 0.1),
      net_error: estimate(-0.25, 0.1),
    } as const;
    const numbers = perWeek([day([]), day([])], 24, rare);
    expect(numbers).toMatchObject({ oversampled: 400, wrong_per_week: { method: 'oversampled' } });
    expect(numbers.wrong_per_week.value).toBeCloseTo(35, 12);
    expect(numbers.net_error_per_week.value).toBeCloseTo(-17.5, 12);
    expect(numbers.first_wrong_median_days.value).toBeCloseTo((7 * 0.693147180559945) / 35, 12);
  });
});
