/**
 * Cables from every end of a sensor to its controller, along the walls: up from the sensor to the run over the lintels,
 * round the rooms, and down to the controller. The far end of a light barrier goes over the lintel by itself.
 */
import {
  type HousePlan,
  type PlanDoor,
  type Spot,
  inFrame,
  isIn,
  nearestOnWall,
  roomsOf,
  storeyOf,
  straight_m,
} from '../geometry/house-plan.js';
import { type Ways, shortestWays, wayTo } from '../geometry/shortest-way.js';
import { type WallLink, type WallPlace, type WallWays, wallWays } from '../geometry/wall-ways.js';
import type { Design } from '../scenario/schema.js';
import type { Controller } from '../sensors/controllers/schema.js';
import { type CabledEnd, cabledEnds } from './ends.js';
import { CONTROLLER_HEIGHT, RUN_ABOVE_LINTEL } from './figures.js';
import { thousandths } from './thousandths.js';

/** `drilled`: through walls and ceilings. `surface`: in raceway on the walls, through open doorways, not a hole anywhere. */
export type Variant = 'drilled' | 'surface';

export interface Cable extends CabledEnd {
  readonly controller: string;
  /** Null where the controller has no place, or no way leads there. */
  readonly length_m: number | null;
  /** Places on the walls it passes, from the controller to the door; empty without a way. */
  readonly way: readonly WallPlace[];
}

export interface Cabling {
  readonly cables: readonly Cable[];
  /** Doors through or over which cables get from room to room. */
  readonly doorways: readonly string[];
  readonly ceilings: number;
  /** What is covered with raceway if cables that go the same way share it. */
  readonly trunk_m: number;
}

/** Height of the runs over a storey's floor: over its highest lintel, or that of the house where it has none. */
export function runHeight_m(plan: HousePlan, storey: number): number {
  const own = plan.doors.filter((door) => storeyOf(plan, door) === storey);
  const lintel_m = Math.max(...(own.length > 0 ? own : plan.doors).map((door) => door.height_m));
  return Math.min(plan.storey_height_m, lintel_m + RUN_ABOVE_LINTEL.value);
}

export function cabling(design: Design, plan: HousePlan, variant: Variant): Cabling {
  const run_m = (storey: number): number => runHeight_m(plan, storey);
  const stops: { room: string; spot: Spot }[] = [];
  const stop = (room: string, spot: Spot): number => stops.push({ room, spot }) - 1;

  const homes = new Map<string, { readonly at: number; readonly drop_m: number }>();
  const read = new Set(design.doors.map((door) => door.controller));
  for (const controller of design.controllers.filter(({ name }) => read.has(name))) {
    const home = homeOf(plan, controller);
    if (!home) continue;
    const drop_m = Math.abs(run_m(home.storey) - CONTROLLER_HEIGHT.value);
    homes.set(controller.name, { at: stop(home.room, home.spot), drop_m });
  }
  const ends = design.doors.flatMap((door, d) => {
    const placed = plan.doors[d] as PlanDoor;
    const storey = storeyOf(plan, placed);
    return cabledEnds(design, door).map((end) => {
      const spot = inFrame(placed, end.across_m);
      const sides = roomsOf(plan, placed)
        .filter((room) => room.storey === storey)
        .map((room) => ({ at: stop(room.name, spot), off_m: straight_m(spot, nearestOnWall(room, spot)) }));
      const drop_m = Math.abs(run_m(storey) - end.height_m);
      return { end, controller: door.controller, sides, drop_m };
    });
  });

  const passing_m = (door: PlanDoor): number =>
    variant === 'drilled' ? 0 : 2 * Math.max(0, run_m(storeyOf(plan, door)) - door.height_m);
  const walls = wallWays(plan, { run_m, passing_m, ceilings: variant === 'drilled', stops });
  const from = new Map<string, Ways>();
  for (const [name, { at }] of homes) from.set(name, shortestWays(walls.places.length, walls.links, at));

  const used = new Set<number>();
  const drops = new Map<string, number>();
  const cables = ends.map(({ end, controller, sides, drop_m }): Cable => {
    const [home, ways] = [homes.get(controller), from.get(controller)];
    const none: Cable = { ...end, controller, length_m: null, way: [] };
    if (!home || !ways) return none;
    const whole_m = ({ at, off_m }: (typeof sides)[number]): number => ways.length_m[at]! + off_m;
    const [first, second] = sides;
    const side = first && second && whole_m(second) < whole_m(first) ? second : first;
    const links = side && wayTo(ways, walls.links, side.at);
    if (!side || !links) return none;
    for (const link of links) used.add(link);
    // Sensors one above the other share what covers their cables.
    raise(drops, `${end.door} ${end.mount}`, drop_m + side.off_m);
    raise(drops, `${controller} at its wall`, home.drop_m);
    const way = placesOf(walls, links, home.at);
    return { ...end, controller, length_m: thousandths(whole_m(side) + drop_m + home.drop_m), way };
  });
  const passed = [...used].map((i) => walls.links[i] as WallLink);
  const trunk_m = passed.reduce((sum, link) => sum + link.length_m, 0) + [...drops.values()].reduce((a, b) => a + b, 0);
  return {
    cables,
    doorways: [
      ...new Set(passed.flatMap(({ kind, door }) => (kind === 'doorway' && door !== undefined ? [door] : []))),
    ],
    ceilings: passed.filter(({ kind }) => kind === 'ceiling').length,
    trunk_m: thousandths(trunk_m),
  };
}

/** Where a controller is; null without a place, or in a room that has none. */
export function homeOf(
  plan: HousePlan,
  controller: Controller,
): { readonly room: string; readonly storey: number; readonly spot: Spot } | null {
  const { at_m, room: named } = controller;
  if (at_m === undefined) return null;
  const among = plan.rooms.filter((room) => (named === undefined ? room.storey === 0 : room.name === named));
  const off = (room: (typeof among)[number]): number =>
    isIn(room, at_m) ? 0 : straight_m(at_m, nearestOnWall(room, at_m));
  const [first, ...others] = among;
  if (!first) return null;
  const room = others.reduce((best, one) => (off(one) < off(best) ? one : best), first);
  return { room: room.name, storey: room.storey, spot: nearestOnWall(room, at_m) };
}

function placesOf({ places, links }: WallWays, way: readonly number[], start: number): WallPlace[] {
  let here = start;
  const on = way.map((i) => {
    const { a, b } = links[i] as WallLink;
    here = a === here ? b : a;
    return places[here] as WallPlace;
  });
  return [places[start] as WallPlace, ...on];
}

function raise(drops: Map<string, number>, key: string, to_m: number): void {
  drops.set(key, Math.max(drops.get(key) ?? 0, to_m));
}
