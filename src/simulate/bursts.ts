/** How one ranger's burst reaches another: in one frame, or across a room that two doors on the plan share. */
import { DEG } from '../engine/arithmetic.js';
import type { Frame, Point } from '../geometry/beam-line.js';
import { frameAt } from '../geometry/beam-line.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { MountedBeam, MountedRanger } from '../sensors/mounted.js';
import type { BurstSource } from '../sensors/ranger.js';
import type { Reaches } from '../sensors/scan/air.js';

type UltrasonicBeam = MountedRanger & { readonly sensor: BurstSource['ranger'] };

/**
 * @param mounted the beams of each door
 * @returns what a listener hears a source as; null between doors that share no room or have no place on the plan
 */
export function burstSources(design: Design, mounted: readonly (readonly MountedBeam[])[]): Reaches {
  const known = new Map<string, BurstSource | null>();
  return (listener, source) => {
    const key = `${listener.door} ${source.door} ${source.beam}`;
    let way = known.get(key);
    if (way === undefined) {
      const beam = mounted[source.door]?.find(({ index }) => index === source.beam);
      way = beam && isUltrasonic(beam) ? sourceFor(design, listener.door, source.door, beam) : null;
      known.set(key, way);
    }
    return way;
  };
}

function isUltrasonic(beam: MountedBeam): beam is UltrasonicBeam {
  return beam.sensor.kind === 'ultrasonic-ranger';
}

function sourceFor(design: Design, to: number, from: number, { line, sensor }: UltrasonicBeam): BurstSource | null {
  if (to === from) return { ranger: sensor, axis: line, sameFrame: true };
  const here = design.doors[to] as DesignDoor;
  const there = design.doors[from] as DesignDoor;
  const shared = [here.from, here.to].some((room) => room === there.from || room === there.to);
  if (!shared || !here.at_m || !there.at_m) return null;
  const seen = (point: Point): Point => toDoor(here, toPlan(there, point));
  return { ranger: sensor, axis: { from: seen(line.from), to: seen(line.to) }, sameFrame: false };
}

/** A door's axes on the plan: its forward is turned clockwise from up by `facing_deg`. */
function frameOf({ at_m, facing_deg }: DesignDoor): Frame {
  return frameAt(at_m?.x ?? 0, at_m?.y ?? 0, facing_deg * DEG);
}

function toPlan(door: DesignDoor, { x, y, z }: Point): Point {
  const frame = frameOf(door);
  const l = x - door.width_m / 2;
  return { x: frame.x + l * frame.cos + y * frame.sin, y: frame.y + y * frame.cos - l * frame.sin, z };
}

function toDoor(door: DesignDoor, { x, y, z }: Point): Point {
  const frame = frameOf(door);
  const dx = x - frame.x;
  const dy = y - frame.y;
  return { x: dx * frame.cos - dy * frame.sin + door.width_m / 2, y: dy * frame.cos + dx * frame.sin, z };
}
