/**
 * An invented run to draw reports from: two doors, three logics, one room. No number here was simulated or measured;
 * they only have the shape and the order of magnitude of a real run's.
 */
import { starterTable } from '../../src/counter/table/starter.js';
import type { Figure } from '../../src/engine/figure.js';
import { designSchema, type Design } from '../../src/scenario/schema.js';
import type { DriftBands } from '../../src/score/drift-bands.js';
import type { Figures, RoomTrace, Silhouette } from '../../src/score/figures.js';
import {
  metricsSchema,
  type DoorMetrics,
  type Estimate,
  type Metrics,
  type RankedLogic,
  type WhyMetrics,
} from '../../src/score/metrics-schema.js';
import type { ReportInput } from '../../src/report/report-input.js';

const LOGICS = ['four-level', 'first-broken', 'my-table'] as const;

const MIX = [
  { who: 'adult', kind: 'through', share: 0.62 },
  { who: 'child', kind: 'through', share: 0.24 },
  { who: 'adult', kind: 'abreast', share: 0.06 },
  { who: 'adult', kind: 'turn-back', share: 0.04 },
  { who: 'adult', kind: 'linger', share: 0.03 },
  { who: 'adult-with-infant', kind: 'through', share: 0.01 },
];

export function est(value: number, half: number, n = 4120, reason?: string): Estimate {
  const e = { value, low: value >= 0 ? Math.max(0, value - half) : value - half, high: value + half, n };
  return { ...e, method: 'jackknife-t', ...(reason === undefined ? {} : { reason }) };
}
/** A signed estimate: the low end is not cut at 0. */
const signed = (value: number, half: number, n: number): Estimate => ({
  ...est(value, half, n),
  low: value - half,
});
export const unknown = (reason: string): Estimate => ({
  value: null,
  low: null,
  high: null,
  method: 'none',
  n: 0,
  reason,
});
const none = (high: number, n: number): Estimate => ({
  value: 0,
  low: 0,
  high,
  method: 'poisson-zero',
  n,
  reason: 'no event; the bound is optimistic under clustering',
});

export function inventedDesign(): Design {
  const beam = (name: string, at_m: number, height_m: number): object => ({
    name,
    sensor: 'light-barrier',
    at_m,
    far_at_m: at_m,
    height_m,
    far_height_m: height_m,
  });
  return designSchema.parse({
    format: 1,
    name: 'Invented: a kitchen between hall and garden',
    seed: 7,
    rooms: [{ name: 'kitchen' }],
    controllers: [{ name: 'main' }, { name: 'back', poll_ms: 20 }],
    doors: [
      {
        name: 'hall-door',
        from: 'outside',
        to: 'kitchen',
        width_m: 0.8,
        controller: 'main',
        traffic: { arrivals_per_hour: 12, mix: MIX },
        beams: [beam('A', -0.04, 0.9), beam('B', 0.04, 0.9)],
      },
      {
        name: 'garden-door',
        from: 'kitchen',
        to: 'outside',
        width_m: 1.4,
        height_m: 2.1,
        controller: 'back',
        traffic: { arrivals_per_hour: 6, mix: MIX },
        beams: [
          beam('A', -0.05, 0.25),
          { ...beam('B', 0.05, 0.25), far_height_m: 0.35 },
          { ...beam('chest', 0, 1.3), mount: 'right-jamb' },
        ],
      },
    ],
    logics: [
      { use: 'four-level', name: 'four-level' },
      { use: 'first-broken', name: 'first-broken' },
      { use: 'table', name: 'my-table', file: 'logic.yaml' },
    ],
    tables: { 'logic.yaml': starterTable() },
    targets: [
      { metric: 'house.wrong_per_100', at_most: 5 },
      { metric: 'doors.hall-door.missed_per_100', at_most: 9 },
      { metric: 'rooms.kitchen.exact_share', at_least: 0.2 },
      { metric: 'house.no_such', at_most: 1 },
    ],
  });
}

function doorMetrics(door: string, logic: string, scale: number): DoorMetrics {
  const n = door === 'hall-door' ? 4120 : 1985;
  const kind = (
    who: string,
    what: string,
    visits: number,
    rate: number,
    half: number,
  ): DoorMetrics['by_kind'][number] => ({
    who,
    kind: what,
    visits,
    person_crossings: what === 'turn-back' || what === 'linger' ? 0 : visits,
    missed: Math.round((visits * rate) / 150),
    reversed: 0,
    extra: Math.round((visits * rate) / 400),
    invented: what === 'turn-back' || what === 'linger' ? Math.round((visits * rate) / 100) : 0,
    wrong_per_100_visits: rate === 0 ? none(half, visits) : est(rate * scale, half, visits),
    visits_per_week: est(1.05 * visits, 0.1 * visits, visits),
    wrong_per_week: rate === 0 ? none(half, visits) : est((1.05 * visits * rate * scale) / 100, half, visits),
    net_error_per_week: signed(-0.002 * visits * rate * scale, half, visits),
    first_wrong_median_days: rate === 0 ? unknown('none seen') : est(70 / rate, 30 / rate, visits),
  });
  const bands = Array.from({ length: 9 }, (_, i) => 1.0 + 0.1 * i);
  return {
    door,
    logic,
    visits: Math.round(n * 1.07),
    person_crossings: n,
    tallies: n - 230,
    wrong_per_100: est(9.31 * scale, 1.42, n),
    missed_per_100: est(6.12 * scale, 1.13, n),
    extra_per_100: est(0.412 * scale, 0.21, n),
    reversed_per_100: none(0.09, n),
    invented_per_100: est(2.78 * scale, 0.66, n),
    invented_per_hour: est(0.71 * scale, 0.17, 160),
    drift_per_100: { bias: signed(-2.13 * scale, 1.9, n), spread: est(3.42, 0.8, 40) },
    by_kind: [
      kind('adult', 'through', 2554, 0.8, 0.41),
      kind('child', 'through', 988, 11.2, 2.3),
      kind('adult', 'abreast', 494, 49.2, 4.4),
      kind('adult', 'turn-back', 165, 38.1, 7.9),
      kind('adult', 'linger', 124, 61.4, 10.8),
      kind('adult-with-infant', 'through', 41, 50, 7.2),
    ],
    by_stature: [
      ...bands.map((from_m) => ({
        from_m: Math.round(from_m * 10) / 10,
        to_m: Math.round((from_m + 0.1) * 10) / 10,
        visits: Math.round(40 + 3000 * (from_m - 1) * (2.05 - from_m)),
        wrong_per_100_visits: est(Math.max(2, 30 - 32 * (from_m - 1)) * scale, 3 + 4 * Math.abs(from_m - 1.5), 300),
      })),
      { from_m: 1.9, to_m: 2.0, visits: 0, wrong_per_100_visits: unknown('no visit') },
    ],
    by_assumed_share: MIX.slice(1).map((m) => ({
      who: m.who,
      kind: m.kind,
      share: m.share,
      half: est(8.2 * scale, 1.3, n),
      double: est(11.6 * scale, 1.7, n),
    })),
    breaks_per_crossing: [
      { beam: 'A', estimate: est(1.31, 0.04, n) },
      { beam: 'B', estimate: est(1.29, 0.04, n) },
      { beam: 'chest', estimate: unknown('no crossing') },
    ],
    unmet_parties: door === 'hall-door' ? 0 : 3,
    confusion: {
      rows: ['forward', 'backward', 'turned back', 'lingered', 'reached', 'pet', 'thing', 'nobody'],
      columns: ['forward', 'backward', 'nothing', 'extra'],
      counts: [
        [1930, 0, 130, 8],
        [0, 1938, 122, 9],
        [42, 21, 102, 3],
        [40, 8, 76, 11],
        [0, 0, 0, 0],
        [0, 0, 0, 0],
        [0, 0, 0, 0],
        [2, 1, null, 0],
      ],
    },
  };
}

/** The house and each door, the logics in their order, each 2 behind the first. */
function ranked(doors: readonly DoorMetrics[]): RankedLogic[] {
  return [null, 'hall-door', 'garden-door'].flatMap((door) =>
    LOGICS.map((logic, j) => ({
      door,
      logic,
      wrong_per_100: doors.find((d) => d.logic === logic && d.door === (door ?? d.door))!.wrong_per_100,
      more_than_best_per_100: j === 0 ? null : est(2, 0.5, 4000),
    })),
  );
}

/** The house and each door by the first logic. */
function explained(): WhyMetrics[] {
  return [null, 'hall-door', 'garden-door'].map((door) => ({
    door,
    logic: LOGICS[0]!,
    wrong: 300,
    explained: 240,
    causes: [
      {
        how: 'only' as const,
        things: ['arms' as const],
        explained: 150,
        errors: { missed: 20, reversed: 0, extra: 0, invented: 130 },
        share: est(0.62, 0.08, 300),
        per_week: est(31, 6, 8),
      },
      {
        how: 'structure' as const,
        things: ['rule' as const],
        explained: 70,
        errors: { missed: 60, reversed: 10, extra: 0, invented: 0 },
        share: est(0.3, 0.07, 300),
        per_week: est(15, 4, 8),
      },
      {
        how: 'either' as const,
        things: ['other bodies' as const, 'noise' as const],
        explained: 20,
        errors: { missed: 4, reversed: 0, extra: 16, invented: 0 },
        share: est(0.08, 0.03, 300),
        per_week: est(4, 1.5, 8),
      },
    ],
  }));
}

export function inventedMetrics(): Metrics {
  const doors = ['hall-door', 'garden-door'].flatMap((door, i) =>
    LOGICS.map((logic, j) => doorMetrics(door, logic, (1 + 0.35 * j) * (1 + 0.4 * i))),
  );
  const first = doors[0];
  if (first === undefined) throw new Error('a fixture without doors');
  const { visits, person_crossings, tallies, wrong_per_100, missed_per_100, extra_per_100 } = first;
  return metricsSchema.parse({
    format: 1,
    jambeam: '0.0.0',
    scenario: inventedDesign().name,
    seed: '7',
    replicates: 20,
    hours: 8,
    house: {
      logic: LOGICS[0],
      visits,
      person_crossings,
      tallies,
      wrong_per_100,
      missed_per_100,
      extra_per_100,
      reversed_per_100: first.reversed_per_100,
      invented_per_100: first.invented_per_100,
      invented_per_hour: first.invented_per_hour,
      drift_per_100: first.drift_per_100,
    },
    doors,
    rooms: LOGICS.flatMap((logic, j) =>
      ['raw', 'floor'].map((ledger, k) => ({
        room: 'kitchen',
        logic,
        ledger,
        exact_share: est(0.213 + 0.11 * k - 0.05 * j, 0.06, 20),
        empty_while_occupied_share: est(0.081 + 0.03 * j, 0.021, 20),
        occupied_while_empty_share: est(0.142 - 0.02 * k, 0.044, 20),
        mean_absolute_error: est(2.4 - 0.5 * k, 0.7, 20),
        empty_while_occupied_per_day: est(5.2 + j, 1.1, 20),
        occupied_while_empty_per_day: est(7.9 - k, 1.6, 20),
        longest_empty_while_occupied_min: est(14.5, 4.2, 20),
        longest_occupied_while_empty_min: est(38.1, 9.7, 20),
        max_empty_while_occupied_min: 61.5,
        max_occupied_while_empty_min: 143.2,
        first_wrong_h: est(2.3 + 0.4 * k, 0.8, 20),
      })),
    ),
    ranking: ranked(doors),
    why: explained(),
    houses: LOGICS.flatMap((logic, j) =>
      ['raw', 'floor'].map((ledger, k) => ({
        logic,
        ledger,
        exact_share: est(0.204 + 0.1 * k - 0.05 * j, 0.06, 20),
        persons_bias: signed(-0.8 + 0.3 * k, 0.9, 20),
        persons_absolute_error: est(2.4 - 0.5 * k, 0.7, 20),
        empty_while_occupied_per_day: est(5.2 + j, 1.1, 20),
        occupied_while_empty_per_day: est(7.9 - k, 1.6, 20),
        first_wrong_h: est(2.3 + 0.4 * k, 0.8, 20),
      })),
    ),
    targets: [
      { metric: 'house.wrong_per_100', at_most: 5, outcome: 'missed', more_replicates: null },
      { metric: 'doors.hall-door.missed_per_100', at_most: 7, outcome: 'undecided', more_replicates: 31 },
      { metric: 'rooms.kitchen.exact_share', at_least: 0.1, outcome: 'met', more_replicates: null },
      { metric: 'house.no_such', at_most: 1, outcome: 'unknown', more_replicates: null },
    ],
  });
}

function band(door: string, logic: string, tilt: number): DriftBands {
  const clock_h = Array.from({ length: 97 }, (_, i) => i / 12);
  const at = (q: number): number[] => clock_h.map((h) => Math.round(-tilt * h + q * 4 * Math.sqrt(h / 8)));
  return { door, logic, clock_h, q05: at(-1.65), q25: at(-0.67), q50: at(0), q75: at(0.67), q95: at(1.65) };
}

/** Steps of a made-up evening: a fixed pattern, not a draw. */
function trace(logic: string, ledger: string): RoomTrace {
  const time_h = [0];
  const truth = [0];
  const counted = [0];
  for (let i = 1; i < 180; i++) {
    const step = (i * 7) % 5 < 2 ? 1 : (i * 3) % 7 < 3 ? -1 : 0;
    const now = Math.max(0, (truth[i - 1] ?? 0) + step);
    time_h.push((i * 8) / 180);
    truth.push(now);
    const lost = Math.floor(i / 60);
    counted.push(ledger === 'floor' ? Math.max(0, now - lost) : now - lost);
  }
  return { room: 'kitchen', logic, ledger, time_h, truth, counted };
}

/** A stick person in capsules: proportions only good enough to look like one. */
function stick(who: string, h: number): Silhouette {
  const c = (x0: number, z0: number, x1: number, z1: number, radius: number): Silhouette['capsules'][number] => ({
    x0: x0 * h,
    z0: z0 * h,
    x1: x1 * h,
    z1: z1 * h,
    radius: radius * h,
  });
  const sides = [-1, 1].flatMap((s) => [
    c(s * 0.055, 0.6, s * 0.075, 0.78, 0.055),
    c(s * 0.05, 0.5, s * 0.05, 0.29, 0.045),
    c(s * 0.05, 0.27, s * 0.05, 0.07, 0.03),
    c(s * 0.05, 0.02, s * 0.055, 0.02, 0.02),
    c(s * 0.125, 0.79, s * 0.14, 0.63, 0.026),
    c(s * 0.14, 0.61, s * 0.145, 0.43, 0.02),
  ]);
  return { who, stature_m: h, capsules: [...sides, c(0, 0.57, 0, 0.77, 0.065), c(0, 0.92, 0, 0.94, 0.058)] };
}

function inventedFigures(): Figures {
  return {
    format: 1,
    drift: ['hall-door', 'garden-door'].flatMap((door, i) =>
      LOGICS.map((logic, j) => band(door, logic, 0.6 * j + 0.9 * i)),
    ),
    room_drift: [],
    survival: [],
    hourly: [],
    rooms: LOGICS.flatMap((logic) => ['raw', 'floor'].map((ledger) => trace(logic, ledger))),
    silhouettes: [stick('adult', 1.71), stick('child', 1.18)],
  };
}

const SOURCES: readonly Figure[] = [
  {
    id: 'invented.pace',
    value: 0.7,
    unit: '1',
    used_in: 'how fast people walk at home',
    citation: 'nobody: invented for this test',
    status: 'assumption',
    note: 'a home is slower than a street',
  },
  {
    id: 'invented.stature',
    value: [
      { age: 3, mean: 0.95 },
      { age: 4, mean: 1.02 },
    ],
    unit: 'm',
    used_in: 'statures',
    citation: 'Nobody (1900), invented for this test',
    status: 'published',
  },
];

export function inventedInput(): ReportInput {
  return {
    design: inventedDesign(),
    metrics: inventedMetrics(),
    figures: inventedFigures(),
    sources: SOURCES,
    version: '0.0.0',
    design_sha256: 'de5168'.padEnd(64, '0'),
  };
}
