/** Names: each given once, and each one that is used is there. */
import { BUILT_IN_WALKERS } from '../../agents/schema.js';
import { SENSOR_KINDS } from '../../sensors/schema.js';
import type { Finding } from '../issue.js';
import { OUTSIDE, type Outline, beamsOf, duplicateNames, finding, unknownName } from './outline.js';

const BUILT_IN_SENSORS: readonly string[] = SENSOR_KINDS;

export function checkNames(outline: Outline): Finding[] {
  const rooms = outline.rooms ?? [undefined];
  const controllers = outline.controllers ?? [undefined];
  const roomNames = [OUTSIDE, ...rooms.map((room) => room?.name)];
  const controllerNames = controllers.map((controller) => controller?.name);
  const sensorNames = [...BUILT_IN_SENSORS, ...keysOf(outline.sensors)];
  const walkerNames = [...Object.keys(BUILT_IN_WALKERS), ...keysOf(outline.walkers)];
  const doors = outline.doors ?? [];
  return [
    ...duplicateNames('room', rooms, ['rooms']),
    ...rooms.flatMap((room, i) =>
      room?.name === OUTSIDE
        ? [finding(['rooms', i, 'name'], { code: 'reserved_name', what: 'room', name: OUTSIDE })]
        : [],
    ),
    ...duplicateNames('controller', controllers, ['controllers']),
    ...duplicateNames('logic', outline.logics ?? [], ['logics']),
    ...duplicateNames('ledger', outline.ledgers ?? [], ['ledgers']),
    ...duplicateNames('door', doors, ['doors']),
    ...doors.flatMap((door, i) => {
      if (!door) return [];
      const path = ['doors', i];
      const same = door.from !== undefined && door.from === door.to;
      return [
        ...unknownName('room', door.from, roomNames, [...path, 'from']),
        ...unknownName('room', door.to, roomNames, [...path, 'to']),
        ...(same ? [finding([...path, 'to'], { code: 'same_sides', room: door.to ?? '' })] : []),
        ...unknownName('controller', door.controller, controllerNames, [...path, 'controller']),
        ...duplicateNames('beam', door.beams ?? [], [...path, 'beams']),
        ...uniqueSensors(door, path).flatMap(([sensor, at]) => unknownName('sensor', sensor, sensorNames, at)),
        ...(door.traffic?.mix ?? []).flatMap((entry, k) =>
          unknownName('walker', entry?.who, walkerNames, [...path, 'traffic', 'mix', k, 'who']),
        ),
      ];
    }),
  ];
}

/** A built-in name given to something of the user's own is allowed, but may be a slip. */
export function cautionNames(outline: Outline): Finding[] {
  const clash = (what: string, key: 'walkers' | 'sensors', builtIn: readonly string[]) =>
    keysOf(outline[key])
      .filter((name): name is string => name !== undefined && builtIn.includes(name))
      .map((name) => finding([key, name], { code: 'replaces_built_in', what, name }, 'key'));
  return [
    ...clash('walker', 'walkers', Object.keys(BUILT_IN_WALKERS)),
    ...clash('sensor', 'sensors', BUILT_IN_SENSORS),
  ];
}

/** Names in a map; an unreadable map has names nobody knows. */
function keysOf(map: object | undefined): readonly (string | undefined)[] {
  return map ? Object.keys(map) : [undefined];
}

/** Sensors by the key they were written under: both beams of a pair share one. */
function uniqueSensors(door: Parameters<typeof beamsOf>[0], path: Parameters<typeof beamsOf>[1]) {
  const beams = beamsOf(door, path) ?? [];
  return [
    ...new Map(beams.map((beam) => [beam.sensorPath.join('.'), [beam.sensor, beam.sensorPath] as const])).values(),
  ];
}
