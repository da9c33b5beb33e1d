import { describe, expect, test } from 'vitest';
import type { Estimate, Metrics } from '../../src/score/metrics-schema.js';
import { findEstimate, judgeTarget, parseTargetPath } from '../../src/score/targets.js';

const estimate = (
  value: number | null,
  low: number | null,
  high: number | null,
  rest: Partial<Estimate> = {},
): Estimate => ({
  value,
  low,
  high,
  method: 'jackknife-t',
  n: 100,
  ...rest,
});
const rates = (e: Estimate) => ({
  visits: 0,
  person_crossings: 0,
  tallies: 0,
  wrong_per_100: e,
  missed_per_100: e,
  extra_per_100: e,
  reversed_per_100: e,
  invented_per_100: e,
  invented_per_hour: e,
  drift_per_100: { bias: estimate(-1, -2, 0), spread: estimate(1.5, 1, 2) },
});
const door = (name: string, logic: string, e: Estimate) => ({
  door: name,
  logic,
  ...rates(e),
  by_kind: [],
  by_stature: [],
  by_assumed_share: [],
  breaks_per_crossing: [],
  unmet_parties: 0,
  confusion: { rows: [], columns: [], counts: [] },
});
const room = (logic: string, ledger: string, value: number, name = 'hall') => ({
  room: name,
  logic,
  ledger,
  exact_share: estimate(value, value, value),
  empty_while_occupied_share: estimate(0, 0, 0),
  occupied_while_empty_share: estimate(0, 0, 0),
  mean_absolute_error: estimate(0, 0, 0),
  empty_while_occupied_per_day: estimate(10 * value, 10 * value, 10 * value + 1),
  occupied_while_empty_per_day: estimate(0, 0, 0),
  longest_empty_while_occupied_min: estimate(0, 0, 0),
  longest_occupied_while_empty_min: estimate(0, 0, 0),
  max_empty_while_occupied_min: 0,
  max_occupied_while_empty_min: 0,
  first_wrong_h: estimate(24, 12, null, { method: 'kaplan-meier' }),
});
const house = (logic: string, ledger: string, value: number) => ({
  logic,
  ledger,
  exact_share: estimate(value, value, value),
  persons_bias: estimate(-value, -value, -value),
  persons_absolute_error: estimate(value, value, value),
  empty_while_occupied_per_day: estimate(0, 0, 0),
  occupied_while_empty_per_day: estimate(0, 0, 0),
  first_wrong_h: estimate(null, 6, null, { method: 'kaplan-meier' }),
});
const metrics: Omit<Metrics, 'targets' | 'why'> = {
  format: 1,
  jambeam: '0',
  scenario: 's',
  seed: '1',
  replicates: 20,
  hours: 8,
  house: { logic: 'four-level', ...rates(estimate(4, 3, 5)) },
  doors: [
    door('front', 'four-level', estimate(2, 1, 3)),
    door('front', 'first-broken', estimate(7, 6, 8)),
    door('back', 'four-level', estimate(null, null, null)),
  ],
  rooms: [room('four-level', 'raw', 0.8), room('four-level', 'floor', 0.9), room('first-broken', 'floor', 0.4)],
  ranking: [],
  houses: [house('four-level', 'raw', 0.5), house('four-level', 'floor', 0.6), house('first-broken', 'raw', 0.1)],
};

describe('a path', () => {
  test('names an estimate of the house, a door or a room; the first logic and ledger unless it says another', () => {
    const value = (path: string) => findEstimate(metrics, path)?.value;
    expect(value('house.wrong_per_100')).toBe(4);
    expect(value('house.drift_per_100.bias')).toBe(-1);
    expect(value('doors.front.wrong_per_100')).toBe(2);
    expect(value('doors.front.first-broken.wrong_per_100')).toBe(7);
    expect(value('doors.front.first-broken.drift_per_100.spread')).toBe(1.5);
    expect(value('rooms.hall.exact_share')).toBe(0.8);
    expect(value('rooms.hall.four-level.floor.exact_share')).toBe(0.9);
    expect(value('rooms.hall.first-broken.exact_share')).toBe(0.4);
  });

  test('of the house names what is known of its doors, or of all its rooms at once', () => {
    const value = (path: string) => findEstimate(metrics, path)?.value;
    expect(value('house.exact_share')).toBe(0.5);
    expect(value('house.four-level.floor.exact_share')).toBe(0.6);
    expect(value('house.first-broken.persons_bias')).toBe(-0.1);
    expect(value('house.four-level.wrong_per_100')).toBeUndefined();
    expect(value('house.four-level.floor.more.exact_share')).toBeUndefined();
  });

  test('that names nothing finds nothing', () => {
    for (const path of [
      '',
      'house',
      'house.visits',
      'house.front.wrong_per_100',
      'doors.wrong_per_100',
      'doors.side.wrong_per_100',
      'doors.front.none.wrong_per_100',
      'doors.front.four-level.raw.wrong_per_100',
      'doors.front.exact_share',
      'doors.__proto__.wrong_per_100',
      'rooms.hall.wrong_per_100',
      'rooms.hall.a.b.c.exact_share',
      'wrong_per_100',
    ]) {
      expect(findEstimate(metrics, path), path).toBeNull();
    }
    expect(parseTargetPath('house.constructor')).toBeNull();
  });
});

describe('a target', () => {
  const judged = (e: Estimate, limits: { at_most?: number; at_least?: number }) =>
    judgeTarget({ ...metrics, house: { logic: 'x', ...rates(e) } }, { metric: 'house.wrong_per_100', ...limits });

  test('is met, missed or undecided by the whole interval', () => {
    expect(judged(estimate(4, 3, 5), { at_most: 5 }).outcome).toBe('met');
    expect(judged(estimate(4, 3, 5), { at_most: 4.9 }).outcome).toBe('undecided');
    expect(judged(estimate(4, 3, 5), { at_most: 2.9 }).outcome).toBe('missed');
    expect(judged(estimate(0.9, 0.8, 1), { at_least: 0.8 }).outcome).toBe('met');
    expect(judged(estimate(0.9, 0.8, 1), { at_least: 0.85 }).outcome).toBe('undecided');
    expect(judged(estimate(0.6, 0.5, 0.7), { at_least: 0.8 }).outcome).toBe('missed');
    expect(judged(estimate(4, 3, 5), { at_least: 1, at_most: 2 }).outcome).toBe('missed');
  });

  test('of every room is that of the worst room', () => {
    const rooms = [room('four-level', 'raw', 0.8), room('four-level', 'raw', 0.3, 'attic')];
    const of = (limits: { at_most?: number; at_least?: number }, metric = 'exact_share') =>
      judgeTarget({ ...metrics, rooms }, { metric: `rooms.*.${metric}`, ...limits });
    expect(of({ at_least: 0.3 }).outcome).toBe('met');
    expect(of({ at_least: 0.31 }).outcome).toBe('missed');
    expect(of({ at_most: 9 }, 'empty_while_occupied_per_day').outcome).toBe('met');
    expect(of({ at_most: 8.5 }, 'empty_while_occupied_per_day')).toMatchObject({ outcome: 'undecided' });
    expect(of({ at_most: 7 }, 'empty_while_occupied_per_day').outcome).toBe('missed');
    const found = (lowest: boolean) => findEstimate({ ...metrics, rooms }, 'rooms.*.exact_share', lowest)?.value;
    expect([found(false), found(true)]).toEqual([0.8, 0.3]);
    expect(judgeTarget({ ...metrics, rooms: [] }, { metric: 'rooms.*.exact_share', at_least: 0 }).outcome).toBe(
      'unknown',
    );
  });

  test('on a median wait needs only the end of the interval that answers it', () => {
    const of = (metric: string, limits: { at_most?: number; at_least?: number }) =>
      judgeTarget(metrics, { metric, ...limits });
    // From 12 hours to no end.
    expect(of('rooms.hall.first_wrong_h', { at_least: 12 }).outcome).toBe('met');
    expect(of('rooms.hall.first_wrong_h', { at_least: 13 })).toMatchObject({
      outcome: 'undecided',
      more_replicates: null,
    });
    expect(of('rooms.hall.first_wrong_h', { at_most: 11 }).outcome).toBe('missed');
    // The median itself was never reached, but it is later than 6 hours.
    expect(of('house.first_wrong_h', { at_least: 6 }).outcome).toBe('met');
    expect(of('house.first_wrong_h', { at_most: 48 })).toMatchObject({ outcome: 'undecided', more_replicates: null });
  });

  test('without a value or an interval is unknown', () => {
    expect(judged(estimate(null, null, null), { at_most: 5 }).outcome).toBe('unknown');
    expect(judged(estimate(4, null, null), { at_most: 5 }).outcome).toBe('unknown');
    expect(judgeTarget(metrics, { metric: 'house.nonsense', at_most: 1 }).outcome).toBe('unknown');
  });

  test('undecided says how many more replicates would: half-width goes as one over the root of their number', () => {
    // 20 replicates gave 4 ± 2; to be off 5 takes ± 1, so 80.
    expect(judged(estimate(4, 2, 6), { at_most: 5 }).more_replicates).toBe(60);
    // The low end was cut at 0: the high side tells the width, 1 ± 3; to be off 0.5 takes ± 0.5, so 36 times as many.
    expect(judged(estimate(1, 0, 4), { at_most: 0.5 }).more_replicates).toBe(20 * 36 - 20);
    // The bound of zero events goes as one over the number.
    expect(judged(estimate(0, 0, 3, { method: 'poisson-zero' }), { at_most: 1 }).more_replicates).toBe(40);
    expect(judged(estimate(5, 4, 6), { at_most: 5 }).more_replicates).toBeNull();
  });
});
