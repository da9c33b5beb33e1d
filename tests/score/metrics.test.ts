import { describe, expect, test } from 'vitest';
import { DEFAULT_MIX } from '../../src/agents/schema.js';
import { metricsJsonSchema } from '../../src/score/json-schema.js';
import { buildMetrics, type MetricsInput } from '../../src/score/metrics.js';
import type { ReplicateRecord } from '../../src/score/replicate-record.js';
import { metricsSchema } from '../../src/score/metrics-schema.js';
import { judge, type Tally, visit } from './builders.js';

/** Ten people through a door, the first `missed` of them unseen. */
function door(missed: number) {
  const visits = Array.from({ length: 10 }, (_, i) =>
    visit({ number: i + 1, body: i + 1, enter_us: i * 9_000_000, who: i < 5 ? 'adult' : 'child' }),
  );
  return judge(
    visits,
    visits.slice(missed).map((v): Tally => [v.enter_us + 1_000_000, 'forward']),
  );
}

const times = (exact_us: number) => ({
  span_us: 100,
  exact_us,
  empty_while_occupied_us: 100 - exact_us,
  occupied_while_empty_us: 0,
  absolute_error_us: 2 * (100 - exact_us),
  empty_while_occupied_episodes: exact_us < 100 ? 1 : 0,
  longest_empty_while_occupied_us: 100 - exact_us,
  occupied_while_empty_episodes: 0,
  longest_occupied_while_empty_us: 0,
  first_wrong_us: exact_us < 100 ? exact_us : null,
});
const house = (exact_us: number) => ({
  span_us: 100,
  exact_us,
  error_us: exact_us - 100,
  absolute_error_us: 100 - exact_us,
  first_wrong_us: exact_us < 100 ? exact_us : null,
});
const replicate = (missed: number): ReplicateRecord => ({
  doors: [
    { logics: [door(missed), door(missed + 1)], breaks: [20, 15], unmet_parties: 1 },
    { logics: [door(0), door(0)], breaks: [10, 10], unmet_parties: 0 },
  ],
  rooms: [
    [
      [times(100 - missed), times(100)],
      [times(50), times(60)],
    ],
  ],
  houses: [
    [house(100 - missed), house(100)],
    [house(50), house(60)],
  ],
});
const input: MetricsInput = {
  jambeam: '0.0.0',
  scenario: 'Test house',
  seed: '1',
  hours: 2,
  logics: ['four-level', 'first-broken'],
  ledgers: ['raw', 'floor'],
  doors: [
    { name: 'front', mix: DEFAULT_MIX, beams: ['A', 'B'] },
    { name: 'back', mix: DEFAULT_MIX, beams: ['A', 'B'] },
  ],
  rooms: ['hall'],
  replicates: [replicate(2), replicate(4), replicate(3)],
  targets: [{ metric: 'doors.back.wrong_per_100', at_most: 20 }],
};
const metrics = buildMetrics(input);

describe('metrics of two doors, two logics, one room, three replicates', () => {
  test('have the published shape', () => {
    expect(metricsSchema.parse(metrics)).toEqual(metrics);
    expect(metricsSchema.parse(JSON.parse(JSON.stringify(metrics)))).toEqual(metrics);
  });

  test('the house is all doors together, under the first logic', () => {
    expect(metrics.house).toMatchObject({ logic: 'four-level', visits: 60, person_crossings: 60, tallies: 51 });
    expect(metrics.house.missed_per_100.value).toBeCloseTo(15, 12);
    expect(metrics.house.drift_per_100.bias.value).toBeCloseTo(-15, 12);
  });

  test('each door stands once per logic, with its own numbers', () => {
    expect(metrics.doors.map((d) => [d.door, d.logic, d.wrong_per_100.value])).toEqual([
      ['front', 'four-level', 30],
      ['front', 'first-broken', 40],
      ['back', 'four-level', 0],
      ['back', 'first-broken', 0],
    ]);
    const front = metrics.doors[0]!;
    expect(front.unmet_parties).toBe(3);
    expect(front.breaks_per_crossing.map(({ beam, estimate }) => [beam, estimate.value])).toEqual([
      ['A', 2],
      ['B', 1.5],
    ]);
    expect(front.by_kind.map(({ who, kind, visits, missed }) => [who, kind, visits, missed])).toEqual([
      ['adult', 'through', 15, 9],
      ['child', 'through', 15, 0],
    ]);
    expect(front.by_stature).toMatchObject([{ from_m: 1.7, to_m: 1.8, visits: 30 }]);
    expect(front.confusion.counts[0]).toEqual([21, 0, 9, 0]);
    expect(front.confusion.counts[7]).toEqual([0, 0, null, 0]);
    expect(front.drift_per_100.spread).toMatchObject({ value: null, n: 0 });
  });

  test('a door without any error has bounds either way on its bias', () => {
    const { bias } = metrics.doors[2]!.drift_per_100;
    expect(bias).toMatchObject({ value: 0, method: 'poisson-zero' });
    expect(bias.low).toBe(-bias.high!);
  });

  test('each room stands once per logic and ledger, shares of the clock from 0 to 1', () => {
    expect(metrics.rooms.map((r) => [r.logic, r.ledger, r.exact_share.value])).toEqual([
      ['four-level', 'raw', 0.97],
      ['four-level', 'floor', 1],
      ['first-broken', 'raw', 0.5],
      ['first-broken', 'floor', 0.6],
    ]);
    expect(metrics.rooms[0]).toMatchObject({
      empty_while_occupied_share: { value: 0.03, n: 3 },
      mean_absolute_error: { value: 0.06 },
    });
  });

  test('how often and since when a room is wrong: a clock of 100 µs is a part of a day', () => {
    const [raw, floor] = metrics.rooms;
    const clock_day = 100 / 86.4e9;
    expect(raw!.empty_while_occupied_per_day.value).toBeCloseTo(1 / clock_day, 0);
    // Stretches of 2, 4 and 3 µs; wrong from 98, 96 and 97 µs on, in the middle from 97 on.
    expect(raw!.longest_empty_while_occupied_min.value).toBeCloseTo(3 / 60e6, 15);
    expect(raw!.max_empty_while_occupied_min).toBeCloseTo(4 / 60e6, 15);
    expect(raw!.first_wrong_h).toMatchObject({ method: 'kaplan-meier', n: 3 });
    expect(raw!.first_wrong_h.value).toBeCloseTo(97 / 3.6e9, 15);
    expect(floor!.empty_while_occupied_per_day).toMatchObject({ value: 0, method: 'poisson-zero' });
    expect(floor!.first_wrong_h).toMatchObject({ value: null, method: 'none' });
  });

  test('all rooms at once stand once per logic and ledger', () => {
    expect(metrics.houses.map((h) => [h.logic, h.ledger, h.exact_share.value, h.persons_bias.value])).toEqual([
      ['four-level', 'raw', 0.97, -0.03],
      ['four-level', 'floor', 1, 0],
      ['first-broken', 'raw', 0.5, -0.5],
      ['first-broken', 'floor', 0.6, -0.4],
    ]);
    const perDay = metrics.houses[0]!.empty_while_occupied_per_day;
    expect(perDay).toEqual(metrics.rooms[0]!.empty_while_occupied_per_day);
    expect(buildMetrics({ ...input, rooms: [] }).houses).toEqual([]);
  });

  test('targets are judged on them', () => {
    expect(metrics.targets).toEqual([
      { metric: 'doors.back.wrong_per_100', at_most: 20, outcome: 'met', more_replicates: null },
    ]);
  });
});

test('a run in which nobody came has null rates with reasons, and the published shape', () => {
  const quiet = judge([], []);
  const empty = buildMetrics({
    ...input,
    replicates: [
      {
        ...replicate(0),
        doors: [0, 1].map(() => ({ logics: [quiet, quiet], breaks: [0, 0], unmet_parties: 0 })),
      },
    ],
  });
  expect(metricsSchema.parse(empty)).toEqual(empty);
  expect(empty.house.wrong_per_100).toMatchObject({ value: null, reason: 'no crossings' });
  expect(empty.house.invented_per_hour).toMatchObject({ value: 0, method: 'poisson-zero' });
  expect(empty.doors[0]!.by_kind).toEqual([]);
});

test('the JSON Schema names every key of a door and describes each', () => {
  const text = JSON.stringify(metricsJsonSchema());
  for (const key of Object.keys(metrics.doors[0]!)) expect(text).toContain(`"${key}"`);
});
