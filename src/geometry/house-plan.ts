/**
 * A house from above: rooms are rectangles on storeys, doors stand in their walls. Metres; x to the right, y upwards on
 * the paper. What stands outside the rooms is `outside`: it has no walls here.
 */
import { DEG, cos, sin } from '../engine/arithmetic.js';

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export interface PlanRoom {
  readonly name: string;
  readonly storey: number;
  /** Lower left corner. */
  readonly low: Spot;
  /** Upper right corner. */
  readonly high: Spot;
}

export type Way = 'door' | 'opening' | 'stairs';

export interface PlanDoor {
  readonly name: string;
  /** The rooms it joins; null is outside. */
  readonly from: string | null;
  readonly to: string | null;
  /** The middle of the opening. */
  readonly at: Spot;
  /** Clockwise from up: where forward points. */
  readonly facing_deg: number;
  readonly width_m: number;
  readonly height_m: number;
  readonly way: Way;
}

export interface HousePlan {
  readonly rooms: readonly PlanRoom[];
  readonly doors: readonly PlanDoor[];
  /** From floor to floor. */
  readonly storey_height_m: number;
}

export function straight_m(a: Spot, b: Spot): number {
  const [dx, dy] = [a.x - b.x, a.y - b.y];
  return Math.sqrt(dx * dx + dy * dy);
}

/** The four corners, round the room against the clock from the lower left. */
export function corners({ low, high }: PlanRoom): readonly [Spot, Spot, Spot, Spot] {
  return [low, { x: high.x, y: low.y }, high, { x: low.x, y: high.y }];
}

/** The place on a room's walls that is nearest to a spot, inside the room or outside it. */
export function nearestOnWall({ low, high }: PlanRoom, { x, y }: Spot): Spot {
  const [cx, cy] = [clamp(x, low.x, high.x), clamp(y, low.y, high.y)];
  if (cx !== x || cy !== y) return { x: cx, y: cy };
  const [left, right, down, up] = [x - low.x, high.x - x, y - low.y, high.y - y];
  const least = Math.min(left, right, down, up);
  if (left === least) return { x: low.x, y };
  if (right === least) return { x: high.x, y };
  return down === least ? { x, y: low.y } : { x, y: high.y };
}

/** From a spot to the nearest wall of a room: 0 on a wall, never below. */
export function fromWall_m(room: PlanRoom, spot: Spot): number {
  return straight_m(spot, nearestOnWall(room, spot));
}

/** Whether a spot is in a room or on its walls. */
export function isIn({ low, high }: PlanRoom, { x, y }: Spot): boolean {
  return x >= low.x && x <= high.x && y >= low.y && y <= high.y;
}

/** How far along x and y two rooms share floor: both above 0 where they overlap. */
export function shared(a: PlanRoom, b: PlanRoom): Spot {
  return {
    x: Math.min(a.high.x, b.high.x) - Math.max(a.low.x, b.low.x),
    y: Math.min(a.high.y, b.high.y) - Math.max(a.low.y, b.low.y),
  };
}

/** Unit vectors of a door on the plan: forward, and to the left of who walks forward. Quarter turns are exact. */
export function doorAxes(facing_deg: number): { readonly forward: Spot; readonly left: Spot } {
  const quarters = (((facing_deg / 90) % 4) + 4) % 4;
  const exact = [
    [0, 1],
    [1, 0],
    [0, -1],
    [-1, 0],
  ] as const;
  const [x, y] = exact[quarters] ?? [sin(facing_deg * DEG), cos(facing_deg * DEG)];
  return { forward: { x, y }, left: { x: 0 - y, y: x } };
}

/** A place in a door's frame, `across_m` from the left jamb towards the right one. */
export function inFrame({ at, facing_deg, width_m }: PlanDoor, across_m: number): Spot {
  const { left } = doorAxes(facing_deg);
  const leftward_m = width_m / 2 - across_m;
  return { x: at.x + leftward_m * left.x, y: at.y + leftward_m * left.y };
}

/** The storey a door stands on: that of the room whose wall is nearest; for stairs, where their foot or head is. */
export function storeyOf(plan: HousePlan, door: PlanDoor): number {
  const rooms = roomsOf(plan, door);
  const away = (room: PlanRoom): number => fromWall_m(room, door.at);
  return rooms.reduce((best, room) => (away(room) < away(best) ? room : best), rooms[0] as PlanRoom).storey;
}

/** The rooms a door joins, `from` first; outside is none. */
export function roomsOf(plan: HousePlan, { from, to }: PlanDoor): PlanRoom[] {
  return [from, to].flatMap((name) => plan.rooms.find((room) => room.name === name) ?? []);
}

function clamp(x: number, low: number, high: number): number {
  return Math.min(Math.max(x, low), high);
}
