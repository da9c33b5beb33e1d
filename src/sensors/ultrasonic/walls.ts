/** What a ranger hears of the door frame and the floor when nobody is there. */
import type { BeamLine, Point } from '../../geometry/beam-line.js';
import { vectorOf } from '../../geometry/beam-line.js';
import { isBlocked } from './blocking.js';
import { levelOf } from './decibel.js';
import type { Hearing } from './hearing.js';
import { directivity } from './piston.js';
import type { Scene } from '../ranger.js';
import type { UltrasonicRanger } from './schema.js';

/** The jambs and the lintel are taken to reach so far either side of a ranger along the walk, metres. The floor goes on. */
export const FRAME_REACH_M = 0.2;
/** Nearer to a plane than this a transducer is part of it, metres. */
export const FLUSH_M = 1e-6;

/** The planes of an opening: which coordinate is constant, and its value. */
export interface Plane {
  readonly axis: 'x' | 'z';
  readonly at_m: number;
}

export function planesOf({ width_m, height_m }: { readonly width_m: number; readonly height_m: number }): Plane[] {
  return [
    { axis: 'x', at_m: 0 },
    { axis: 'x', at_m: width_m },
    { axis: 'z', at_m: 0 },
    { axis: 'z', at_m: height_m },
  ];
}

/** One place of the frame or floor that echoes loud enough. */
export interface WallEcho {
  readonly distance_m: number;
  readonly to: Point;
}

/**
 * Echoes of jambs, lintel and floor that are heard, nearest first. Each plane is a mirror: its echo comes from the foot
 * of the perpendicular, at source level − 20·lg 2R − 2αR − bounce loss + directivity both ways towards that foot. And
 * where the axis meets the frame, a diffuse echo from there.
 */
export function wallEchoes(
  hearing: Hearing,
  line: BeamLine,
  sensor: UltrasonicRanger,
  opening: { readonly width_m: number; readonly height_m: number },
): WallEcho[] {
  const { from, to } = line;
  const echoes: WallEcho[] = [];
  const level_db = (distance_m: number): number =>
    levelOf(hearing.gain / (4 * distance_m * distance_m)) -
    2 * hearing.absorption_db_per_m * distance_m -
    sensor.bounce_loss_db;
  const add = (distance_m: number, place: Point, extra_db: number): void => {
    if (distance_m < hearing.blind_m || distance_m > hearing.reach_m) return;
    if (level_db(distance_m) + extra_db >= 0) echoes.push({ distance_m, to: place });
  };
  for (const { axis, at_m } of planesOf(opening)) {
    const towards = at_m - from[axis];
    const distance = Math.abs(towards);
    const cosine = ((axis === 'x' ? hearing.dx : hearing.dz) * towards) / distance;
    if (distance < FLUSH_M || !(cosine >= 0)) continue;
    const beam_db = levelOf(directivity(hearing.ka, sensor.shading_db, Math.max(0, 1 - cosine * cosine)));
    add(distance, { ...from, [axis]: at_m }, 2 * beam_db);
  }
  const isFloor = Math.abs(to.z) < FLUSH_M;
  if (isFloor || Math.abs(to.y - from.y) <= FRAME_REACH_M) {
    add(vectorOf(line).length_m, to, sensor.diffuse_db);
  }
  return echoes.sort((a, b) => a.distance_m - b.distance_m);
}

/** Distance of the nearest wall echo that no capsule stands in the way of, metres; Infinity for none. */
export function openWall(echoes: readonly WallEcho[], hearing: Hearing, scene: Scene): number {
  for (const { distance_m, to } of echoes) {
    if (!isBlocked(scene, hearing.x, hearing.y, hearing.z, to.x, to.y, to.z, -1)) return distance_m;
  }
  return Infinity;
}
