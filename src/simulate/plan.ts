/** From a design to what each stage needs of it. */
import { HOUR_US, clockHours } from '../engine/time.js';
import type { CrowdPlan } from '../agents/crowd-plan.js';
import { OUTSIDE } from '../agents/outside.js';
import type { Hangs } from '../agents/leaf/hanging.js';
import { useOf } from '../agents/household/places.js';
import { ROOM_USES } from '../agents/schema.js';
import { barrierLine, rangerLine } from '../geometry/mounting.js';
import { OUTSIDE as OUTSIDE_NAME } from '../scenario/checks/outline.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { Controller } from '../sensors/controllers/schema.js';
import { isBarrier } from '../sensors/mounted.js';
import type { MountedBeam } from '../sensors/mounted.js';
import { sensorNamed } from '../scenario/sensor-named.js';

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
      at_m: door.at_m,
      hangs: hangsOf(door),
    })),
    walkers: design.walkers,
    clock_us: clockOf(design),
    starts_at_h: clockHours(design.starts_at),
    household: design.household && {
      household: design.household,
      habits: design.habits,
      rooms: design.rooms.map((room) => ({ name: room.name, use: useOf(room, ROOM_USES) })),
      starts_on: design.starts_on,
    },
  };
}

/** Designs with the same text here meet the same people at the same moments, replicate by replicate, whatever else they are. */
export function crowdKey(design: Design): string {
  return JSON.stringify([design.seed, crowdPlan(design)]);
}

function hangsOf({ width_m, height_m, jamb_depth_m, leaf, curtain }: DesignDoor): Hangs | undefined {
  return leaf || curtain ? { place: { width_m, height_m, jamb_depth_m }, leaf, curtain } : undefined;
}

export function mountedBeams(design: Design, door: DesignDoor): MountedBeam[] {
  return door.beams.map((beam, index) => {
    const sensor = sensorNamed(design, beam.sensor);
    const line = (sensor.kind === 'light-barrier' ? barrierLine : rangerLine)(beam, door);
    return { name: beam.name, index, mount: beam.mount, line, sensor };
  });
}

/** Whether any of its beams is a ranger's. */
export function hasRangers(design: Design): boolean {
  return design.doors.some(({ beams }) =>
    beams.some(({ sensor }) => sensorNamed(design, sensor).kind !== 'light-barrier'),
  );
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
  const slowest_ms = Math.max(
    0,
    ...mountedBeams(design, door)
      .filter(isBarrier)
      .map((beam) => beam.sensor.response_ms),
  );
  return Math.ceil((slowest_ms + (controllerOf(design, door).poll_ms ?? 0)) * 1000);
}

/** The same with the rangers of the house, whose turns take longer. @param rangers null where there are none */
export function longestDelay(
  design: Design,
  door: DesignDoor,
  rangers: { delay_us(door: number): number } | null,
): number {
  return Math.max(readingDelay(design, door), rangers?.delay_us(design.doors.indexOf(door)) ?? 0);
}
