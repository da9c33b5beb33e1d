/**
 * Ways for cables along the walls of a house, at one height on each storey: round the rooms, from room to room at the
 * jambs of doors, from storey to storey at stairs, or through the ceiling where two rooms' walls stand above each other.
 */
import {
  type HousePlan,
  type PlanDoor,
  type PlanRoom,
  type Spot,
  corners,
  fromWall_m,
  inFrame,
  nearestOnWall,
  roomsOf,
  shared,
  straight_m,
} from './house-plan.js';
import type { Link } from './shortest-way.js';

/** Nearer than this is the same: sums of decimal fractions differ in the last bit. */
const SAME_M = 1e-6;

/** A place on a room's wall. */
export interface WallPlace extends Spot {
  readonly room: string;
  readonly storey: number;
}

export type LinkKind = 'wall' | 'doorway' | 'stairs' | 'ceiling';

export interface WallLink extends Link {
  readonly kind: LinkKind;
  /** The door passed, for doorways and stairs. */
  readonly door?: string;
}

export interface WallWays {
  readonly places: readonly WallPlace[];
  readonly links: readonly WallLink[];
}

export interface WallOptions {
  /** Height of the runs above each storey's floor, metres. */
  readonly run_m: (storey: number) => number;
  /** What passing a doorway adds to the distance from wall to wall, metres, at least 0. */
  readonly passing_m: (door: PlanDoor) => number;
  /** Whether cables may go through ceilings. */
  readonly ceilings: boolean;
  /** Places on rooms' walls that are needed besides: each becomes one, in order, before all others. */
  readonly stops: readonly { readonly room: string; readonly spot: Spot }[];
}

/** @throws {RangeError} for a stop in a room that is not there */
export function wallWays(plan: HousePlan, options: WallOptions): WallWays {
  const places: WallPlace[] = [];
  const links: WallLink[] = [];
  const add = (room: PlanRoom, spot: Spot): number => {
    const { x, y } = nearestOnWall(room, spot);
    return places.push({ x, y, room: room.name, storey: room.storey }) - 1;
  };
  const height_m = (storey: number): number => storey * plan.storey_height_m + options.run_m(storey);
  const join = (a: number, b: number, kind: LinkKind, more_m = 0, door?: string): void => {
    const [p, q] = [places[a] as WallPlace, places[b] as WallPlace];
    const up_m = Math.abs(height_m(p.storey) - height_m(q.storey));
    links.push({ a, b, length_m: straight_m(p, q) + up_m + more_m, kind, ...(door !== undefined && { door }) });
  };

  for (const { room: name, spot } of options.stops) {
    const room = plan.rooms.find((one) => one.name === name);
    if (!room) throw new RangeError(`no room is named ${name}`);
    add(room, spot);
  }
  for (const room of plan.rooms) for (const corner of corners(room)) add(room, corner);
  for (const door of plan.doors) {
    const [from, to] = roomsOf(plan, door);
    if (!from || !to) continue;
    const stairs = door.way === 'stairs';
    for (const across_m of stairs ? [door.width_m / 2] : [0, door.width_m]) {
      const jamb = inFrame(door, across_m);
      if (stairs) join(add(from, jamb), add(to, jamb), 'stairs', 0, door.name);
      else join(add(from, jamb), add(to, jamb), 'doorway', options.passing_m(door), door.name);
    }
  }
  if (options.ceilings)
    for (const [lower, upper] of stacked(plan.rooms))
      for (const spot of commonCorners(lower, upper)) join(add(lower, spot), add(upper, spot), 'ceiling');
  for (const room of plan.rooms) goRound(room, places, join);
  return { places, links };
}

/** Links each place on a room's walls with the next, all the way round. */
function goRound(
  room: PlanRoom,
  places: readonly WallPlace[],
  join: (a: number, b: number, kind: LinkKind) => void,
): void {
  const round = places
    .map((place, i) => ({ i, along_m: place.room === room.name ? along(room, place) : -1 }))
    .filter(({ along_m }) => along_m >= 0)
    .sort((a, b) => a.along_m - b.along_m);
  // Corners are among the places, so that no stretch from one to the next turns.
  for (const [k, { i }] of round.entries()) join(i, round[(k + 1) % round.length]!.i, 'wall');
}

/** How far along its room's walls a place is, against the clock from the lower left corner. */
function along({ low, high }: PlanRoom, { x, y }: Spot): number {
  const [wide, deep] = [high.x - low.x, high.y - low.y];
  if (y === low.y) return x - low.x;
  if (x === high.x) return wide + y - low.y;
  if (y === high.y) return wide + deep + high.x - x;
  return 2 * wide + deep + high.y - y;
}

/** Rooms right above one another that share floor, the lower one first. */
function stacked(rooms: readonly PlanRoom[]): (readonly [PlanRoom, PlanRoom])[] {
  return rooms.flatMap((lower) =>
    rooms
      .filter((upper) => upper.storey === lower.storey + 1 && shared(lower, upper).x > 0 && shared(lower, upper).y > 0)
      .map((upper) => [lower, upper] as const),
  );
}

/** Corners of the floor two rooms share that are on walls of both. */
function commonCorners(a: PlanRoom, b: PlanRoom): Spot[] {
  const xs = [Math.max(a.low.x, b.low.x), Math.min(a.high.x, b.high.x)];
  const ys = [Math.max(a.low.y, b.low.y), Math.min(a.high.y, b.high.y)];
  const on = (room: PlanRoom, spot: Spot): boolean => fromWall_m(room, spot) < SAME_M;
  return xs.flatMap((x) => ys.map((y) => ({ x, y }))).filter((spot) => on(a, spot) && on(b, spot));
}
