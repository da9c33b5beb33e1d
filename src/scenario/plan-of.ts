/** From what a scenario says of places to the plan of the house. */
import type { HousePlan, PlanDoor, PlanRoom } from '../geometry/house-plan.js';
import { OUTSIDE, type Outline, type OutlineDoor } from './checks/outline.js';
import type { Design } from './schema.js';

type OutlineRoom = NonNullable<NonNullable<Outline['rooms']>[number]>;

/** A room with its place; null as long as something of that is left out or can't be read. */
export function placedRoom(room: OutlineRoom | undefined): PlanRoom | null {
  const { name, storey, at_m, size_m } = room ?? {};
  if (name === undefined || storey === undefined) return null;
  if (at_m?.x === undefined || at_m.y === undefined || size_m?.x === undefined || size_m.y === undefined) return null;
  return { name, storey, low: { x: at_m.x, y: at_m.y }, high: { x: at_m.x + size_m.x, y: at_m.y + size_m.y } };
}

/** A door with its place; null as long as something of that is left out or can't be read. */
export function placedDoor(door: OutlineDoor | undefined): PlanDoor | null {
  const { name, from, to, at_m, facing_deg, width_m, height_m, way } = door ?? {};
  if (name === undefined || from === undefined || to === undefined || way === undefined) return null;
  if (facing_deg === undefined || width_m === undefined || height_m === undefined) return null;
  if (at_m?.x === undefined || at_m.y === undefined) return null;
  const side = (room: string): string | null => (room === OUTSIDE ? null : room);
  const at = { x: at_m.x, y: at_m.y };
  return { name, from: side(from), to: side(to), at, facing_deg, width_m, height_m, way };
}

/** What a plan lacks, by name: rooms without at_m and size_m, doors without at_m. */
export interface Missing {
  readonly rooms: readonly string[];
  readonly doors: readonly string[];
}

/** The plan of a design; without one, what is missing: places of doors, and of rooms that doors lead to. */
export function planOf(design: Design): { readonly plan: HousePlan | null; readonly missing: Missing } {
  const used = new Set(design.doors.flatMap(({ from, to }) => [from, to]));
  const rooms = design.rooms.map((room) => ({ name: room.name, placed: placedRoom(room) }));
  const doors = design.doors.map((door) => ({ name: door.name, placed: placedDoor(door) }));
  const missing: Missing = {
    rooms: rooms.filter(({ name, placed }) => placed === null && used.has(name)).map(({ name }) => name),
    doors: doors.filter(({ placed }) => placed === null).map(({ name }) => name),
  };
  if (missing.rooms.length + missing.doors.length > 0) return { plan: null, missing };
  return {
    plan: {
      rooms: rooms.flatMap(({ placed }) => placed ?? []),
      doors: doors.flatMap(({ placed }) => placed ?? []),
      storey_height_m: design.storey_height_m,
    },
    missing,
  };
}
