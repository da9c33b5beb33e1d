/** Hearing the bursts of others. */
import type { BurstSource, Ear, RangerPlace, Scene } from '../ranger.js';
import { CAPSULE } from '../ranger.js';
import { absorption } from './air.js';
import { isBlocked, standsIn } from './blocking.js';
import { levelOf, powerOf } from './decibel.js';
import { airTable, type Hearing, type Pointing, pointing } from './hearing.js';
import { directivityTable, sizeInWaves } from './piston.js';
import type { UltrasonicRanger } from './schema.js';
import { Table } from './table.js';
import { targetArea, visibleLength } from './target.js';
import { type Way, waysOf } from './ways.js';

/**
 * A transducer rings at one frequency and is deaf to others: bursts more than this share off its own are not heard, all
 * others fully. An all-or-nothing stand-in for the curve of a resonance.
 */
export const DEAF_SHARE = 0.05;

function distanceTo(p: Pointing, x: number, y: number, z: number): number {
  const [dx, dy, dz] = [x - p.x, y - p.y, z - p.z];
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}

/** All that depends on who sounds and who listens, not on who stands there. */
interface Pair {
  readonly source: Pointing;
  readonly gain: number;
  readonly wavelength_m: number;
  /** Longest way on which this burst is heard on the axis of both, metres. */
  readonly farthest_m: number;
  /** Longer than any way by a body in the doorway zone, metres. */
  readonly byBodies_m: number;
  readonly sourceBeam: Table;
  readonly listenerBeam: Table;
  readonly air: Table;
  readonly ways: readonly Way[];
}

/**
 * The ear of a ranger. What it works out about a source is kept with the source object: callers keep one object for
 * each pair.
 */
export function earOf(
  hearing: Hearing,
  sensor: UltrasonicRanger,
  near_m: readonly [number, number],
  place: RangerPlace,
): Ear {
  const pairs = new WeakMap<BurstSource, Pair | null>();
  const { speed_mps } = hearing;
  const time_us = (distance_m: number): number => Math.round((2e6 * distance_m) / speed_mps);
  const known = (source: BurstSource): Pair | null => {
    let pair = pairs.get(source);
    if (pair === undefined) pairs.set(source, (pair = pairOf(source, hearing, sensor, near_m, place)));
    return pair;
  };
  return {
    speed_mps,
    window_us: [time_us(hearing.blind_m), time_us(hearing.reach_m)],
    farthest_m: (source) => known(source)?.farthest_m ?? 0,
    arrivals(source, scene, least_m, most_m, out) {
      const pair = known(source);
      if (pair === null || least_m > pair.farthest_m) return;
      for (const way of pair.ways)
        if (way.length_m >= least_m && way.length_m < most_m && isOpen(way, scene)) out.push(way.length_m);
      if (least_m > pair.byBodies_m) return;
      for (let i = 0; i < scene.count; i++) offCapsule(pair, hearing, scene, i, least_m, most_m, out);
    },
    seenAfter: (delay_us) => (delay_us * speed_mps) / 2e6,
  };
}

/** How far a limb reaches out of where any of it matters, out of the opening to a side, and up; metres, generous. */
const LIMB_M = 0.6;
const ASIDE_M = 0.3;
const TALLEST_M = 2.6;

/** The way over the furthest corner of where limbs that matter are. */
function byBodiesOf(
  source: Pointing,
  listener: Pointing,
  near_m: readonly [number, number],
  { opening }: RangerPlace,
): number {
  let most = 0;
  for (const x of [-ASIDE_M, opening.width_m + ASIDE_M])
    for (const y of [near_m[0] - LIMB_M, near_m[1] + LIMB_M])
      for (const z of [0, TALLEST_M])
        most = Math.max(most, distanceTo(source, x, y, z) + distanceTo(listener, x, y, z));
  return most;
}

/** How far a burst that is so much above the threshold at 1 m is heard on the axis of both, metres. */
function farthestOf(margin_db: number, alpha: number): number {
  let [low, high] = [0, 1e4];
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (levelOf(1 / (middle * middle)) - alpha * middle + margin_db >= 0) low = middle;
    else high = middle;
  }
  return high;
}

/** null for a pair too far apart in frequency. */
function pairOf(
  burst: BurstSource,
  hearing: Hearing,
  sensor: UltrasonicRanger,
  near_m: readonly [number, number],
  place: RangerPlace,
): Pair | null {
  const { ranger } = burst;
  if (Math.abs(ranger.frequency_khz / sensor.frequency_khz - 1) > DEAF_SHARE) return null;
  const frequency = ranger.frequency_khz * 1000;
  const ka = (piston_radius_m: number): number => sizeInWaves(frequency, piston_radius_m, hearing.speed_mps);
  const alpha = absorption(frequency, place.surroundings);
  const source = pointing(burst.axis);
  const gain = powerOf(ranger.source_level_db - sensor.threshold_db);
  const sourceBeam = directivityTable(ka(ranger.piston_radius_m), ranger.shading_db);
  const listenerBeam = directivityTable(ka(sensor.piston_radius_m), sensor.shading_db);
  const passage = {
    source,
    listener: hearing,
    gain,
    absorption_db_per_m: alpha,
    bounce_loss_db: sensor.bounce_loss_db,
    sourceBeam: (sin2: number) => sourceBeam.at(sin2),
    listenerBeam: (sin2: number) => listenerBeam.at(sin2),
  };
  return {
    source,
    gain,
    wavelength_m: hearing.speed_mps / frequency,
    farthest_m: farthestOf(ranger.source_level_db - sensor.threshold_db, alpha),
    byBodies_m: byBodiesOf(source, hearing, near_m, place),
    sourceBeam,
    listenerBeam,
    air: airTable(alpha, 4 * hearing.reach_m),
    ways: waysOf(passage, place.opening, burst.sameFrame),
  };
}

function isOpen({ corners }: Way, scene: Scene): boolean {
  for (let i = 0; i + 5 < corners.length; i += 3) {
    const [ax, ay, az] = [corners[i]!, corners[i + 1]!, corners[i + 2]!];
    if (isBlocked(scene, ax, ay, az, corners[i + 3]!, corners[i + 4]!, corners[i + 5]!, -1)) return false;
  }
  return true;
}

/**
 * The way by one capsule, taken as in a mirror: over the point of its axis with the least way to both, a radius shorter
 * on either side. Echo law as for one's own echo, each way with its own spreading and directivity.
 */
function offCapsule(
  pair: Pair,
  hearing: Hearing,
  scene: Scene,
  index: number,
  least_m: number,
  most_m: number,
  out: number[],
): void {
  const { source } = pair;
  const { capsules } = scene;
  const at = index * CAPSULE;
  const [ax, ay, az] = [capsules[at]!, capsules[at + 1]!, capsules[at + 2]!];
  const radius = capsules[at + 6]!;
  // No way by the capsule is longer than that over one end of its axis: most are too short to matter.
  const overEnd = distanceTo(source, ax, ay, az) + distanceTo(hearing, ax, ay, az);
  if (overEnd - 2 * radius < least_m) return;
  const [ex, ey, ez] = [capsules[at + 3]! - ax, capsules[at + 4]! - ay, capsules[at + 5]! - az];
  const length = Math.sqrt(ex * ex + ey * ey + ez * ez);
  // Along the axis the way behaves as at a mirror: where it meets shares the feet's distance as the heights do.
  const footOf = (p: Pointing): number =>
    length > 0 ? ((p.x - ax) * ex + (p.y - ay) * ey + (p.z - az) * ez) / length : 0;
  const [ts, tl] = [footOf(source), footOf(hearing)];
  const heightOf = (p: Pointing, t: number): number => {
    const [x, y, z] = [p.x - ax, p.y - ay, p.z - az];
    return Math.sqrt(Math.max(0, x * x + y * y + z * z - t * t));
  };
  const [hs, hl] = [heightOf(source, ts), heightOf(hearing, tl)];
  const mirror = hs + hl > 0 ? (ts * hl + tl * hs) / (hs + hl) : ts;
  const t = Math.min(length, Math.max(0, mirror));
  const share = length > 0 ? t / length : 0;
  const [qx, qy, qz] = [ax + share * ex, ay + share * ey, az + share * ez];
  const [sx, sy, sz] = [qx - source.x, qy - source.y, qz - source.z];
  const [lx, ly, lz] = [qx - hearing.x, qy - hearing.y, qz - hearing.z];
  const fromSource = Math.sqrt(sx * sx + sy * sy + sz * sz);
  const toListener = Math.sqrt(lx * lx + ly * ly + lz * lz);
  const [there, back] = [fromSource - radius, toListener - radius];
  if (!(there > 0) || !(back > 0)) return;
  const out1 = (sx * source.dx + sy * source.dy + sz * source.dz) / fromSource;
  const out2 = (lx * hearing.dx + ly * hearing.dy + lz * hearing.dz) / toListener;
  if (!(out1 > 0) || !(out2 > 0)) return;

  const way = there + back;
  if (way < least_m || way >= most_m) return;
  // With unequal ways their harmonic mean stands for the distance: a flat wall then gives 1/way², as it must.
  const distance = (2 * there * back) / way;
  const visible = visibleLength(mirror, length, pair.wavelength_m * distance);
  const area = targetArea(radius, visible, distance, pair.wavelength_m);
  const beams = pair.sourceBeam.at(Math.max(0, 1 - out1 * out1)) * pair.listenerBeam.at(Math.max(0, 1 - out2 * out2));
  const cloth = hearing.clothing.at(scene.clothing[index]!);
  const power = pair.gain * pair.air.at(way) * beams * area * cloth;
  if (power < there * there * back * back) return;
  // Between the two it casts a shadow; it doesn't reflect.
  if (standsIn(scene, index, source.x, source.y, source.z, hearing.x, hearing.y, hearing.z)) return;
  // The normal of the surface halves the angle between both ways.
  const [nx, ny, nz] = [
    -sx / fromSource - lx / toListener,
    -sy / fromSource - ly / toListener,
    -sz / fromSource - lz / toListener,
  ];
  const scale = radius / Math.sqrt(nx * nx + ny * ny + nz * nz);
  const [px, py, pz] = [qx + scale * nx, qy + scale * ny, qz + scale * nz];
  if (isBlocked(scene, source.x, source.y, source.z, px, py, pz, index)) return;
  if (isBlocked(scene, px, py, pz, hearing.x, hearing.y, hearing.z, index)) return;
  out.push(way);
}
