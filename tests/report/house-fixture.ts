/** An invented week of a household: every number made up, none simulated or measured. */
import { designSchema, type Design } from '../../src/scenario/schema.js';
import type { Figures, HourlyCounts, RoomDriftBands, SurvivalCurve } from '../../src/score/figures.js';
import { metricsSchema, type DoorMetrics, type Estimate, type Metrics } from '../../src/score/metrics-schema.js';
import type { ReportInput } from '../../src/report/report-input.js';
import { est, inventedDesign, inventedInput, inventedMetrics } from './fixture.js';

const LOGIC = 'four-level';
const LEDGERS = ['raw', 'floor', 'conserve'] as const;
const ROOMS = ['hall', 'kitchen'] as const;

export function houseDesign(need: 'number' | 'anyone' = 'number', more: object = {}): Design {
  const { doors: _doors, logics, tables: _tables, ...rest } = inventedDesign();
  const [first] = inventedDesign().doors;
  const door = (name: string, from: string, to: string): object => ({ ...first, name, from, to });
  return designSchema.parse({
    ...rest,
    name: 'Invented: a house of two rooms',
    need,
    hours: 168,
    replicates: 10,
    starts_at: '00:00',
    rooms: ROOMS.map((name) => ({ name })),
    doors: [door('front', 'outside', 'hall'), door('kitchen-door', 'hall', 'kitchen')],
    household: {
      people: [
        { name: 'ida', age_y: 41, sex: 'woman', habits: 'commuter' },
        { name: 'baby', age_y: 1, sex: 'man', habits: 'infant' },
      ],
      pets: [{ name: 'rex', animal: 'dog-medium', sleeps_in: 'hall' }],
      parties: [
        {
          name: 'party',
          day: 'saturday',
          from: '15:00',
          to: '18:00',
          guests: 10,
          who: [
            { who: 'child', share: 0.8 },
            { who: 'adult', share: 0.2 },
          ],
          rooms: [{ room: 'kitchen', share: 1 }],
        },
      ],
    },
    logics: logics.slice(0, 1),
    ledgers: LEDGERS.map((name) => ({ use: name, name })),
    targets: [{ metric: 'house.exact_share', at_least: 0.5 }],
    ...more,
  });
}

type Kind = DoorMetrics['by_kind'][number];
export function kind(who: string, what: string, visits: number, wrong: number, more: Partial<Kind> = {}): Kind {
  return {
    who,
    kind: what,
    visits,
    person_crossings: visits,
    missed: wrong,
    reversed: 0,
    extra: 0,
    invented: 0,
    wrong_per_100_visits: est((100 * wrong) / visits, 2, visits),
    visits_per_week: est(visits / 10, 1, visits),
    wrong_per_week: est(wrong / 10, 1, visits),
    net_error_per_week: { ...est(1.5, 0.5, visits) },
    first_wrong_median_days: est(3, 1, visits),
    ...more,
  };
}

export function houseMetrics(): Metrics {
  const metrics = inventedMetrics();
  const [first] = metrics.doors;
  if (first === undefined) throw new Error('the fixture has doors');
  const door = (name: string, crossings: number, wrong: Estimate, by_kind: Kind[]): DoorMetrics => ({
    ...first,
    door: name,
    logic: LOGIC,
    person_crossings: crossings,
    wrong_per_100: wrong,
    by_kind,
    by_assumed_share: [],
  });
  return metricsSchema.parse({
    ...metrics,
    scenario: 'Invented: a house of two rooms',
    replicates: 10,
    hours: 168,
    doors: [
      door('front', 500, est(4, 1), [kind('ida', 'through', 300, 10), kind('party-child', 'through', 200, 10)]),
      door('kitchen-door', 1500, est(20, 3), [
        kind('ida', 'through', 1000, 50),
        kind('ida-infant', 'through', 200, 200, { person_crossings: 400, oversampled: 400 }),
        kind('rex', 'linger', 100, 50, { person_crossings: 0, missed: 0, invented: 50 }),
      ]),
    ],
    rooms: ROOMS.flatMap((room, r) =>
      LEDGERS.map((ledger, g) => ({
        room,
        logic: LOGIC,
        ledger,
        exact_share: est(0.31 + 0.2 * g, 0.05, 10),
        empty_while_occupied_share: est(0.05, 0.01, 10),
        occupied_while_empty_share: est(0.1, 0.02, 10),
        mean_absolute_error: est(1.2, 0.2, 10),
        empty_while_occupied_per_day: est(0.4 + 3 * r, 0.1, 10),
        occupied_while_empty_per_day: est(6, 1, 10),
        longest_empty_while_occupied_min: est(47, 12, 10),
        longest_occupied_while_empty_min: est(300, 60, 10),
        max_empty_while_occupied_min: 93,
        max_occupied_while_empty_min: 480,
        first_wrong_h: { ...est(7.4, 2, 10), method: 'kaplan-meier' as const },
      })),
    ),
    ranking: [],
    why: [],
    houses: LEDGERS.map((ledger, g) => ({
      logic: LOGIC,
      ledger,
      exact_share: est(0.1 + 0.25 * g, 0.04, 10),
      persons_bias: { ...est(0.5, 0.2, 10) },
      persons_absolute_error: est(1.4, 0.3, 10),
      empty_while_occupied_per_day: est(3.8, 0.5, 10),
      occupied_while_empty_per_day: est(12 - 4 * g, 1, 10),
      first_wrong_h: { ...est(6.1, 1, 10), method: 'kaplan-meier' as const },
    })),
    targets: [{ metric: 'house.exact_share', at_least: 0.5, outcome: 'missed', more_replicates: null }],
  });
}

/** One person an hour by day, and a party on Saturday from 15:00. */
export function hourly(door: string): HourlyCounts {
  const cells = Array.from({ length: 168 }, (_, i) => ({ day: Math.floor(i / 24), hour: i % 24 }));
  const persons = cells.map(({ day, hour }) => (day === 5 && hour === 15 ? 300 : hour >= 7 && hour < 22 ? 5 : 0));
  return {
    door,
    day: cells.map(({ day }) => day),
    hour: cells.map(({ hour }) => hour),
    forward: persons,
    backward: persons,
    covered_h: cells.map(() => 10),
  };
}

const each = <T>(make: (room: string, ledger: string, g: number) => T): T[] =>
  ROOMS.flatMap((room) => LEDGERS.map((ledger, g) => make(room, ledger, g)));

function survival(room: string, ledger: string, g: number): SurvivalCurve {
  const share = [1, 0.8, 0.5, 0.2, g === 2 ? 0.2 : 0];
  return {
    room,
    logic: LOGIC,
    ledger,
    time_h: [0, 2, 7 + g, 20, 168],
    share,
    low: share.map((s) => Math.max(0, s - 0.2)),
    high: share.map((s) => Math.min(1, s + 0.2)),
  };
}

function roomDrift(room: string, ledger: string, g: number): RoomDriftBands {
  const clock_h = Array.from({ length: 48 }, (_, i) => (168 * (i + 1)) / 48);
  const at = (q: number): number[] => clock_h.map((h) => Math.round((-h / 20) * (2 - g) + q));
  return { room, logic: LOGIC, ledger, clock_h, q05: at(-2), q25: at(-1), q50: at(0), q75: at(1), q95: at(2) };
}

export function activity(half: number, double: number): NonNullable<Figures['activity']> {
  const run = (what: 'half' | 'as assumed' | 'double', exact: number) => ({
    what,
    replicates: 4,
    wrong_per_100: est(15, 3, 4),
    exact_share: est(exact, 0.05, 4),
    first_wrong_h: est(6, 2, 4),
  });
  return [run('half', half), run('as assumed', 0.1), run('double', double)];
}

export function houseInput(need: 'number' | 'anyone' = 'number'): ReportInput {
  const { figures, ...rest } = inventedInput();
  return {
    ...rest,
    design: houseDesign(need),
    metrics: houseMetrics(),
    figures: {
      ...figures,
      drift: [],
      rooms: [],
      hourly: ['front', 'kitchen-door'].map(hourly),
      survival: each(survival),
      room_drift: each(roomDrift),
      activity: activity(0.6, 0.1),
    },
  };
}
