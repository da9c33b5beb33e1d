/** From a design to what each stage needs of it. */
import { HOUR_US } from '../engine/time.js';
import type { CrowdPlan } from '../agents/crowd-plan.js';
import { OUTSIDE } from '../agents/crowd-plan.js';
import { hours } from '../agents/arrivals.js';
import type { BeamLine } from '../geometry/beam-line.js';
import { OUTSIDE as OUTSIDE_NAME } from '../scenario/checks/outline.js';
import type { Design, DesignBeam, DesignDoor } from '../scenario/schema.js';
import type { MountedBeam } from '../sensors/light-barrier/paths.js';
import type { Controller, Sensor } from '../sensors/schema.js';
import { sensorSchema } from '../sensors/schema.js';

export function clockOf(design: Design): number {
  return Math.round(design.hours * HOUR_US);
}

/** Index of a room by name, or OUTSIDE. */
export function roomIndex(design: Design, name: string): number {
  return name === OUTSIDE_NAME ? OUTSIDE : design.rooms.findIndex((room) => room.name === name);
}

export function crowdPlan(design: Design): CrowdPlan {
  return {
    people_at_start: design.rooms.map((room) => room.people_at_start),
    doors: design.doors.map((door) => ({
      name: door.name,
      from: roomIndex(design, door.from),
      to: roomIndex(design, door.to),
      opening: { width_m: door.width_m, zone_m: door.zone_m },
      traffic: door.traffic,
    })),
    walkers: design.walkers,
    clock_us: clockOf(design),
    starts_at_h: hours(design.starts_at),
  };
}

export function mountedBeams(design: Design, door: DesignDoor): MountedBeam[] {
  return door.beams.map((beam) => ({
    name: beam.name,
    line: beamLine(beam, door.width_m),
    emitter_jamb: beam.emitter_jamb,
    sensor: sensorNamed(design, beam.sensor),
  }));
}

/** Line of a mounted beam, from emitter to receiver. */
export function beamLine(beam: DesignBeam, width_m: number): BeamLine {
  const left = beam.emitter_jamb === 'left';
  return {
    from: { x: left ? 0 : width_m, y: beam.at_m, z: beam.height_m },
    to: { x: left ? width_m : 0, y: beam.far_at_m, z: beam.far_height_m },
  };
}

/** A sensor of the scenario's own, or a kind's default by its bare name. */
export function sensorNamed(design: Design, name: string): Sensor {
  const own = Object.hasOwn(design.sensors, name) ? design.sensors[name] : undefined;
  return own ?? sensorSchema.parse({ kind: name });
}

export function controllerOf(design: Design, door: DesignDoor): Controller {
  const controller = design.controllers.find((one) => one.name === door.controller);
  if (!controller) throw new RangeError(`no controller is named ${door.controller}`);
  return controller;
}

/**
 * How long after it happened a logic may learn of an edge, microseconds: the slowest sensor's response and one poll.
 * A tally may come as much later than the logic's own latency says.
 */
export function readingDelay(design: Design, door: DesignDoor): number {
  const slowest_ms = Math.max(...mountedBeams(design, door).map((beam) => beam.sensor.response_ms));
  return Math.ceil((slowest_ms + (controllerOf(design, door).poll_ms ?? 0)) * 1000);
}
