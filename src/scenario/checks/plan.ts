/** The plan of the house: rooms side by side, doors in their walls, and a way from everywhere to everywhere. */
import {
  type PlanDoor,
  type PlanRoom,
  doorAxes,
  fromWall_m,
  isIn,
  shared,
  straight_m,
} from '../../geometry/house-plan.js';
import type { Finding } from '../issue.js';
import { placedDoor, placedRoom } from '../plan-of.js';
import { MOST_ROOMS } from '../schema.js';
import { OUTSIDE, type Outline, finding, unknownName } from './outline.js';

/** How far a door may be drawn from the wall it is in: walls have a thickness, and rooms are measured within them. */
const OFF_WALL_M = 0.3;
/** Rooms that share less than this touch: sums of decimal fractions differ in the last bit, and walls are drawn roughly. */
const TOUCH_M = 0.02;
/** Two doors are one where their middles are nearer to each other than this: no frame is as narrow. */
const SAME_DOOR_M = 0.4;

export function checkPlan(outline: Outline): Finding[] {
  const rooms = (outline.rooms ?? []).map(placedRoom);
  return [
    ...overlaps(rooms),
    ...(outline.doors ?? []).flatMap((door, d) => [
      ...storeys(outline, door, d),
      ...offWall(rooms, placedDoor(door), d),
    ]),
    ...controllersOffPlan(outline, rooms),
  ];
}

/** What a house can be without, but hardly is. Only where a plan is begun: a scenario may well be of a doorway or two. */
export function cautionPlan(outline: Outline): Finding[] {
  const rooms = outline.rooms ?? [];
  const sizes = rooms.flatMap((room, r) => {
    const [has, lacks] = room && 'at_m' in room ? ['at_m', 'size_m'] : ['size_m', 'at_m'];
    return room && has in room && !(lacks in room)
      ? [finding(['rooms', r, has], { code: 'needs_key', what: has, key: lacks }, 'key')]
      : [];
  });
  const placeless = (outline.controllers ?? []).flatMap((controller, c) =>
    controller && 'room' in controller && !('at_m' in controller)
      ? [finding(['controllers', c, 'room'], { code: 'needs_key', what: 'room', key: 'at_m' }, 'key')]
      : [],
  );
  if (!rooms.some((room) => placedRoom(room) !== null)) return [...sizes, ...placeless];
  return [...sizes, ...placeless, ...facesWrong(outline), ...sameDoors(outline), ...waysThrough(outline)];
}

/** Among more rooms than a house may have nothing is looked for: their pairs are too many, and the schema complains. */
function overlaps(rooms: readonly (PlanRoom | null)[]): Finding[] {
  if (rooms.length > MOST_ROOMS) return [];
  return rooms.flatMap((room, r) =>
    rooms.slice(0, r).flatMap((other) => {
      if (!room || !other || room.storey !== other.storey) return [];
      const { x, y } = shared(room, other);
      if (x <= TOUCH_M || y <= TOUCH_M) return [];
      return [finding(['rooms', r, 'at_m'], { code: 'overlap', other: other.name, x_m: x, y_m: y }, 'key')];
    }),
  );
}

type Door = NonNullable<Outline['doors']>[number];

function storeys(outline: Outline, door: Door, d: number): Finding[] {
  const storeyNamed = (name: string | undefined) => outline.rooms?.find((room) => room?.name === name)?.storey;
  const [from, to] = [storeyNamed(door?.from), storeyNamed(door?.to)];
  if (!door || from === undefined || to === undefined || door.from === door.to || door.way === undefined) return [];
  if (door.way === 'stairs')
    return from === to ? [finding(['doors', d, 'way'], { code: 'same_storey', storey: from })] : [];
  if (from === to) return [];
  return [finding(['doors', d, 'to'], { code: 'other_storey', way: door.way, storeys: [from, to] })];
}

function offWall(rooms: readonly (PlanRoom | null)[], door: PlanDoor | null, d: number): Finding[] {
  if (!door) return [];
  const joined = [door.from, door.to].flatMap((name) => rooms.find((room) => room?.name === name) ?? []);
  const away = joined.map((room) => ({ room: room.name, away_m: fromWall_m(room, door.at) }));
  const at = ['doors', d, 'at_m'];
  if (door.way !== 'stairs') {
    if (away.every(({ away_m }) => away_m <= OFF_WALL_M)) return [];
    return [finding(at, { code: 'off_wall', rooms: away, most_m: OFF_WALL_M }, 'key')];
  }
  // Stairs begin in the middle of a hall as well as in its wall, and their other end is some metres on.
  const near = joined.some((room) => isIn(room, door.at) || fromWall_m(room, door.at) <= OFF_WALL_M);
  if (joined.length === 0 || near) return [];
  return [finding(at, { code: 'off_stairs', rooms: away, most_m: OFF_WALL_M }, 'key')];
}

function controllersOffPlan(outline: Outline, rooms: readonly (PlanRoom | null)[]): Finding[] {
  const names = [undefined, ...(outline.rooms ?? []).map((room) => room?.name)].slice(outline.rooms ? 1 : 0);
  return (outline.controllers ?? []).flatMap((controller, c) => {
    const path = ['controllers', c];
    const unknown = unknownName('room', controller?.room, names, [...path, 'room']);
    if (unknown.length > 0) return unknown;
    const { x, y } = controller?.at_m ?? {};
    if (!controller || x === undefined || y === undefined) return [];
    const own = controller.room;
    const among = rooms.filter((room) => room !== null).filter((room) => (own ? room.name === own : room.storey === 0));
    const away = among.map((room) => (isIn(room, { x, y }) ? 0 : fromWall_m(room, { x, y })));
    const away_m = Math.min(...away);
    if (among.length === 0 || away_m <= OFF_WALL_M) return [];
    return [finding([...path, 'at_m'], { code: 'off_plan', room: own ?? null, away_m, most_m: OFF_WALL_M }, 'key')];
  });
}

/** Forward leads out of the first room and into the second; told by the quarter turn that would be right. */
function facesWrong(outline: Outline): Finding[] {
  const rooms = (outline.rooms ?? []).map(placedRoom);
  return (outline.doors ?? []).flatMap((written, d) => {
    const door = placedDoor(written);
    if (!door || door.way === 'stairs') return [];
    const from = rooms.find((room) => room?.name === door.from);
    const room = from ?? rooms.find((one) => one?.name === door.to);
    if (!room || fromWall_m(room, door.at) > OFF_WALL_M) return [];
    const outwards = outOf(room, door);
    const should_deg = from ? outwards : (outwards + 180) % 360;
    const [is, should] = [doorAxes(door.facing_deg).forward, doorAxes(should_deg).forward];
    // Within 60° of square to the wall: rooms are not always drawn as they stand.
    if (is.x * should.x + is.y * should.y > 0.5) return [];
    const path = 'facing_deg' in (written ?? {}) && door.facing_deg !== 0 ? 'facing_deg' : 'at_m';
    return [finding(['doors', d, path], { code: 'faces_wrong', facing_deg: door.facing_deg, should_deg }, 'key')];
  });
}

/** Degrees from up, clockwise: the way out of a room through the wall that a door is in. */
function outOf({ low, high }: PlanRoom, { at }: PlanDoor): number {
  const sides = [
    [Math.abs(at.y - high.y), 0],
    [Math.abs(at.x - high.x), 90],
    [Math.abs(at.y - low.y), 180],
    [Math.abs(at.x - low.x), 270],
  ] as const;
  return sides.reduce((best, side) => (side[0] < best[0] ? side : best))[1];
}

function sameDoors(outline: Outline): Finding[] {
  const doors = (outline.doors ?? []).map(placedDoor);
  return doors.flatMap((door, d) => {
    const joins = (one: PlanDoor, a: string | null, b: string | null) => one.from === a && one.to === b;
    const other = doors.slice(0, d).find((one) => {
      if (!door || !one || straight_m(door.at, one.at) >= SAME_DOOR_M) return false;
      return joins(one, door.from, door.to) || joins(one, door.to, door.from);
    });
    return other ? [finding(['doors', d, 'at_m'], { code: 'same_door', other: other.name }, 'key')] : [];
  });
}

/** Rooms without a door, rooms nobody can come to, and a house nobody can leave. */
function waysThrough(outline: Outline): Finding[] {
  const { rooms, doors } = outline;
  if (!rooms || !doors || rooms.includes(undefined) || doors.includes(undefined)) return [];
  const ends = doors.map((door) => [door?.from, door?.to] as const);
  if (ends.flat().includes(undefined)) return [];
  const held = rooms.filter((room) => (room?.people_at_start ?? 1) > 0).map((room) => room?.name);
  const reached = new Set<string | undefined>([OUTSIDE, ...held]);
  for (let before = 0; before < reached.size; ) {
    before = reached.size;
    for (const [from, to] of ends) {
      if (reached.has(from)) reached.add(to);
      if (reached.has(to)) reached.add(from);
    }
  }
  const used = new Set(ends.flat());
  const found = rooms.flatMap((room, r) => {
    const { name } = room ?? {};
    if (name === undefined) return [];
    const path = ['rooms', r, 'name'];
    if (!used.has(name)) return [finding(path, { code: 'no_door', room: name })];
    return reached.has(name) ? [] : [finding(path, { code: 'unreachable', room: name })];
  });
  return used.has(OUTSIDE) ? found : [...found, finding(['doors'], { code: 'no_way_out' }, 'key')];
}
