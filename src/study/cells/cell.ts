/**
 * What one cell of a study found: one replicate of one design, in counts. It is the part of a replicate's record that
 * results and rankings are made of; all of it is numbers, so a cell is a flat list of them and the visits by who came.
 */
import type { CaseCounts, WindowSums } from '../../score/door-counts.js';
import { wrongOf } from '../../score/door-counts.js';
import type { HouseTimes } from '../../score/house.js';
import type { ReplicateRecord } from '../../score/replicate-record.js';
import type { RateCounts } from '../../score/rates.js';
import type { RoomTimes } from '../../score/rooms.js';

export interface WhoCounts {
  readonly who: string;
  readonly visits: number;
  readonly wrong: number;
}

export interface Cell {
  /** `doors[door][logic]`. */
  readonly doors: readonly (readonly RateCounts[])[];
  /** All doors together, under the first logic, in order of names. */
  readonly who: readonly WhoCounts[];
  /** `rooms[room][logic][ledger]`. */
  readonly rooms: ReplicateRecord['rooms'];
  /** `houses[logic][ledger]`. */
  readonly houses: ReplicateRecord['houses'];
}

/** How many of each a design has: the shape of its cells. */
export interface CellShape {
  readonly doors: number;
  readonly rooms: number;
  readonly logics: number;
  readonly ledgers: number;
}

/** A cell as it is kept and sent. */
export interface FlatCell {
  /** Doors, then rooms, then houses; null stands for "never". */
  readonly v: readonly (number | null)[];
  /** By name: visits, wrong. */
  readonly who: Readonly<Record<string, readonly [visits: number, wrong: number]>>;
}

export function cellOf({ doors, rooms, houses }: ReplicateRecord): Cell {
  const who = new Map<string, { visits: number; wrong: number }>();
  for (const door of doors)
    for (const counts of door.logics[0]!.kinds) {
      const sum = who.get(counts.who) ?? { visits: 0, wrong: 0 };
      who.set(counts.who, { visits: sum.visits + counts.visits, wrong: sum.wrong + wrongOf(counts) });
    }
  return {
    doors: doors.map(({ logics }) =>
      logics.map(({ total, tallies, net_error, windows }) => ({ total, tallies, net_error, windows })),
    ),
    who: [...who].map(([name, counts]) => ({ who: name, ...counts })).sort((a, b) => (a.who < b.who ? -1 : 1)),
    rooms,
    houses,
  };
}

const CASE = ['visits', 'crossings', 'missed', 'reversed', 'extra', 'invented'] as const satisfies (keyof CaseCounts)[];
const WINDOWS = ['n', 'sum', 'sum_sq'] as const satisfies (keyof WindowSums)[];
const ROOM = [
  'span_us',
  'exact_us',
  'empty_while_occupied_us',
  'occupied_while_empty_us',
  'absolute_error_us',
  'empty_while_occupied_episodes',
  'longest_empty_while_occupied_us',
  'occupied_while_empty_episodes',
  'longest_occupied_while_empty_us',
  'first_wrong_us',
] as const satisfies (keyof RoomTimes)[];
const HOUSE = [
  'span_us',
  'exact_us',
  'error_us',
  'absolute_error_us',
  'first_wrong_us',
] as const satisfies (keyof HouseTimes)[];
const DOOR_NUMBERS = CASE.length + 2 + WINDOWS.length;

/** Numbers of a flat cell. */
export function lengthOf({ doors, rooms, logics, ledgers }: CellShape): number {
  return logics * (doors * DOOR_NUMBERS + ledgers * (rooms * ROOM.length + (rooms > 0 ? HOUSE.length : 0)));
}

export function flat({ doors, who, rooms, houses }: Cell): FlatCell {
  const v: (number | null)[] = [];
  for (const { total, tallies, net_error, windows } of doors.flat())
    v.push(...CASE.map((key) => total[key]), tallies, net_error, ...WINDOWS.map((key) => windows[key]));
  for (const times of rooms.flat(2)) v.push(...ROOM.map((key) => times[key]));
  if (rooms.length > 0) for (const times of houses.flat()) v.push(...HOUSE.map((key) => times[key]));
  return { v, who: Object.fromEntries(who.map((one) => [one.who, [one.visits, one.wrong]])) };
}

/** The way back from {@link flat}, given the shape it was made with. */
export function unflat({ v, who }: FlatCell, { doors, rooms, logics, ledgers }: CellShape): Cell {
  let at = 0;
  const take = <K extends string>(keys: readonly K[]): Record<K, number> =>
    Object.fromEntries(keys.map((key) => [key, v[at++]])) as Record<K, number>;
  const times = <T>(count: number, one: () => T): T[] => Array.from({ length: count }, one);
  return {
    doors: times(doors, () =>
      times(logics, () => ({
        total: take(CASE),
        tallies: v[at++]!,
        net_error: v[at++]!,
        windows: take(WINDOWS),
      })),
    ),
    rooms: times(rooms, () => times(logics, () => times(ledgers, () => take(ROOM)))),
    houses: rooms > 0 ? times(logics, () => times(ledgers, () => take(HOUSE))) : [],
    who: Object.entries(who).map(([name, [visits, wrong]]) => ({ who: name, visits, wrong })),
  };
}

/** A flat cell that came from elsewhere, spelt out; or in words what is wrong with it. */
export function cellFrom(cell: unknown, shape: CellShape): Cell | string {
  if (typeof cell !== 'object' || cell === null) return 'no cell';
  const { v, who } = cell as Partial<FlatCell>;
  if (!Array.isArray(v) || v.length !== lengthOf(shape)) return 'another number of counts than the design has';
  const isNumber = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value);
  if (!v.every((value) => value === null || isNumber(value))) return 'counts that are no numbers';
  if (typeof who !== 'object' || who === null || Array.isArray(who)) return 'no visits by who came';
  const whole = (value: unknown): boolean => Number.isSafeInteger(value) && (value as number) >= 0;
  if (!Object.values(who).every((pair) => Array.isArray(pair) && pair.length === 2 && pair.every(whole)))
    return 'visits that are no numbers';
  const read = unflat(cell as FlatCell, shape);
  return impossible(read) ?? read;
}

/** Counts that can't be: what no simulation finds must not get into results. */
function impossible({ doors, rooms, houses }: Cell): string | null {
  for (const { total, tallies, windows } of doors.flat()) {
    const counts = [...CASE.map((key) => total[key]), tallies, windows.n, windows.sum_sq];
    if (!counts.every((count) => Number.isSafeInteger(count) && count >= 0)) return 'counts below zero';
    if (total.missed + total.reversed > total.crossings) return 'more missed and reversed than went through';
  }
  for (const times of [...rooms.flat(2), ...houses.flat()]) {
    if (times.span_us === null || times.exact_us > times.span_us) return 'a room right for longer than the clock';
  }
  return null;
}
