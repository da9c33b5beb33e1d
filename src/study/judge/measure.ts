/**
 * A metric of metrics.json by its path, as a ratio of each replicate: events over exposure. So it can be estimated over
 * any replicates, and compared between designs pair by pair.
 */
import { DAY_US, MINUTE_US } from '../../engine/time.js';
import { wrongOf } from '../../score/door-counts.js';
import { type RatioOptions, ratioEstimate } from '../../score/estimates.js';
import type { HouseTimes } from '../../score/house.js';
import type { Estimate } from '../../score/metrics-schema.js';
import { type RateCounts, pool } from '../../score/rates.js';
import type { RoomTimes } from '../../score/rooms.js';
import { EVERY_ROOM, parseTargetPath } from '../../score/targets.js';
import type { Cell } from '../cells/cell.js';

/** One replicate's part in an estimate. */
export interface Ratio {
  readonly events: number;
  readonly exposure: number;
}

export interface Measure {
  readonly path: string;
  readonly unit: string;
  readonly options: RatioOptions;
  /** Whether it is a mean over replicates, not over crossings: what the `n` of an estimate counts. */
  readonly byReplicate: boolean;
  of(cell: Cell): Ratio;
}

/** What of a study's designs a path may name. */
export interface MeasureNames {
  readonly doors: readonly string[];
  readonly rooms: readonly string[];
  readonly logics: readonly string[];
  readonly ledgers: readonly string[];
  readonly hours: number;
}

const PER_100 = { scale: 100, nothing: 'no crossings' } as const;
const TIME = { nothing: 'no time', counted: false } as const;

type RateOf = (counts: RateCounts) => number;
const RATES: Readonly<Record<string, RateOf>> = {
  wrong_per_100: ({ total }) => wrongOf(total),
  missed_per_100: ({ total }) => total.missed,
  extra_per_100: ({ total }) => total.extra,
  reversed_per_100: ({ total }) => total.reversed,
  invented_per_100: ({ total }) => total.invented,
};

interface TimeMetric<Times> {
  readonly unit: string;
  readonly options: RatioOptions;
  of(times: Times): Ratio;
}
const share = (of_us: (times: RoomTimes) => number): TimeMetric<RoomTimes> => ({
  unit: 'share of time',
  options: { ...TIME, max: 1 },
  of: (times) => ({ events: of_us(times), exposure: times.span_us }),
});
const perDay = (of: (times: RoomTimes) => number): TimeMetric<RoomTimes> => ({
  unit: 'per day',
  options: { nothing: 'no time' },
  of: (times) => ({ events: of(times), exposure: times.span_us / DAY_US }),
});
const minutes = (of_us: (times: RoomTimes) => number): TimeMetric<RoomTimes> => ({
  unit: 'min',
  options: TIME,
  of: (times) => ({ events: of_us(times) / MINUTE_US, exposure: 1 }),
});
const EMPTY = (times: RoomTimes) => times.empty_while_occupied_episodes;
const OCCUPIED = (times: RoomTimes) => times.occupied_while_empty_episodes;

const ROOM: Readonly<Record<string, TimeMetric<RoomTimes>>> = {
  exact_share: share((times) => times.exact_us),
  empty_while_occupied_share: share((times) => times.empty_while_occupied_us),
  occupied_while_empty_share: share((times) => times.occupied_while_empty_us),
  mean_absolute_error: {
    unit: 'persons',
    options: TIME,
    of: (times) => ({ events: times.absolute_error_us, exposure: times.span_us }),
  },
  empty_while_occupied_per_day: perDay(EMPTY),
  occupied_while_empty_per_day: perDay(OCCUPIED),
  longest_empty_while_occupied_min: minutes((times) => times.longest_empty_while_occupied_us),
  longest_occupied_while_empty_min: minutes((times) => times.longest_occupied_while_empty_us),
};

const HOUSE: Readonly<Record<string, TimeMetric<HouseTimes>>> = {
  exact_share: {
    unit: 'share of time',
    options: { ...TIME, max: 1 },
    of: (t) => ({ events: t.exact_us, exposure: t.span_us }),
  },
  persons_bias: {
    unit: 'persons',
    options: { ...TIME, signed: true },
    of: (t) => ({ events: t.error_us, exposure: t.span_us }),
  },
  persons_absolute_error: {
    unit: 'persons',
    options: TIME,
    of: (t) => ({ events: t.absolute_error_us, exposure: t.span_us }),
  },
};

const OF_DOORS = [...Object.keys(RATES), 'invented_per_hour', 'drift_per_100.bias'];
const OF_ROOMS = [...Object.keys(HOUSE), 'empty_while_occupied_per_day', 'occupied_while_empty_per_day'];

/** Paths of the metrics that every design is told by: those of all doors, and of all rooms where there are any. */
export function usualPaths(hasRooms: boolean): string[] {
  return [...OF_DOORS, ...(hasRooms ? OF_ROOMS : [])].map((metric) => `house.${metric}`);
}

/** The measure a path names; in words why there is none. */
export function measureOf(path: string, names: MeasureNames): Measure | string {
  const parsed = parseTargetPath(path);
  if (parsed === null)
    return 'no estimate of metrics.json has this path; `jambeam keys` lists what can be named, for example house.wrong_per_100';
  const index = (of: readonly string[], name: string | undefined, what: string): number | string => {
    const at = name === undefined ? 0 : of.indexOf(name);
    return at >= 0 && at < of.length ? at : `there is no ${what} ${name ?? ''}: ${of.join(', ') || 'none'}`;
  };
  const logic = index(names.logics, parsed.logic, 'logic');
  if (typeof logic === 'string') return logic;
  const { metric } = parsed;
  if (metric === 'first_wrong_h' || metric === 'drift_per_100.spread')
    return 'a median wait or a spread is no mean over replicates and can not be compared pair by pair';
  if (
    parsed.of === 'doors' ||
    (parsed.of === 'house' && (metric in RATES || metric.startsWith('invented') || metric.startsWith('drift')))
  ) {
    const door = parsed.of === 'doors' ? index(names.doors, parsed.name, 'door') : -1;
    if (typeof door === 'string') return door;
    return doorMeasure(path, metric, names.hours, (cell) =>
      door < 0 ? pool(cell.doors.map((ofDoor) => ofDoor[logic]!)) : cell.doors[door]![logic]!,
    );
  }
  const ledger = index(names.ledgers, parsed.ledger, 'ledger');
  if (typeof ledger === 'string') return ledger;
  if (names.rooms.length === 0) return 'the scenario has no rooms';
  if (parsed.of === 'rooms') {
    if (parsed.name === EVERY_ROOM) return 'name one room: a study compares one number';
    const room = index(names.rooms, parsed.name, 'room');
    if (typeof room === 'string') return room;
    const found = ROOM[metric]!;
    const { unit, options } = found;
    return { path, unit, options, byReplicate: true, of: (cell) => found.of(cell.rooms[room]![logic]![ledger]!) };
  }
  if (metric in HOUSE) {
    const found = HOUSE[metric]!;
    const { unit, options } = found;
    return { path, unit, options, byReplicate: true, of: (cell) => found.of(cell.houses[logic]![ledger]!) };
  }
  // Episodes of the house are those of all its rooms.
  const episodes = metric === 'empty_while_occupied_per_day' ? EMPTY : OCCUPIED;
  return {
    path,
    unit: 'per day',
    options: { nothing: 'no time' },
    byReplicate: true,
    of: (cell) => ({
      events: cell.rooms.reduce((sum, room) => sum + episodes(room[logic]![ledger]!), 0),
      exposure: cell.houses[logic]![ledger]!.span_us / DAY_US,
    }),
  };
}

function doorMeasure(path: string, metric: string, hours: number, counts: (cell: Cell) => RateCounts): Measure {
  if (metric === 'invented_per_hour')
    return {
      path,
      unit: 'per hour',
      options: { nothing: 'no time' },
      byReplicate: true,
      of: (cell) => ({ events: counts(cell).total.invented, exposure: hours }),
    };
  const unit = 'per 100 crossings';
  if (metric === 'drift_per_100.bias')
    return {
      path,
      unit,
      options: { ...PER_100, signed: true },
      byReplicate: false,
      of: (cell) => ({ events: counts(cell).net_error, exposure: counts(cell).total.crossings }),
    };
  const events = RATES[metric]!;
  return {
    path,
    unit,
    options: PER_100,
    byReplicate: false,
    of: (cell) => {
      const found = counts(cell);
      return { events: events(found), exposure: found.total.crossings };
    },
  };
}

/** The estimate over replicates, with its 95 % interval: the number metrics.json has of a run with these replicates. */
export function estimateOf({ options, byReplicate }: Measure, ratios: readonly Ratio[]): Estimate {
  return ratioEstimate(
    ratios.map(({ events }) => events),
    ratios.map(({ exposure }) => exposure),
    byReplicate ? { ...options, n: ratios.length } : options,
  );
}
