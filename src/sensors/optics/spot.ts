/**
 * What stands in a spot of light: each limb's share of it and how far away it is, nearest first.
 *
 * The spot is round and grows evenly along the axis: the thin one of a triangulation ranger, the wide cone of a
 * time-of-flight ranger. A limb covers it like a strip as wide as itself, where its axis comes nearest to the spot's; the
 * end of a limb covers it like a straight edge. Limbs are judged one after another: what a nearer one leaves is shared
 * by those behind as if nothing were known of which part is left.
 */
import type { BeamLine } from '../../geometry/beam-line.js';
import type { Scene } from '../ranger.js';
import { CAPSULE } from '../ranger.js';
import { behindEdge, behindStrip } from './covered.js';

/** Where a spot of light comes from and goes to. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Unit vector along the axis. */
  readonly dx: number;
  readonly dy: number;
  readonly dz: number;
  /** Radius at the sensor, metres, and how much it grows per metre. */
  readonly radius_m: number;
  readonly growth: number;
  /** Distance of what is behind everybody, metres. */
  readonly behind_m: number;
}

export function spotAlong({ from, to }: BeamLine, radius_m: number, growth: number): Spot {
  const [dx, dy, dz] = [to.x - from.x, to.y - from.y, to.z - from.z];
  const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
  return {
    ...from,
    dx: dx / length,
    dy: dy / length,
    dz: dz / length,
    radius_m,
    growth,
    behind_m: length,
  };
}

/** Most limbs that are told apart; more than two bodies have. */
const MOST = 64;

/** Targets found last, nearest first: kept, so that nothing is allocated per reading. */
export class Targets {
  count = 0;
  /** Distance of the surface from the sensor, metres. */
  readonly distance_m = new Float64Array(MOST);
  /** Share of the spot that it covers of what the nearer ones leave. */
  readonly share = new Float64Array(MOST);
  /** Index of the capsule in the scene. */
  readonly capsule = new Int32Array(MOST);
  /** Share of the spot that goes on to what is behind everybody. */
  left = 1;

  find(scene: Scene, spot: Spot): void {
    this.count = 0;
    for (let i = 0; i < scene.count; i++) this.look(scene, i, spot);
    let left = 1;
    for (let i = 0; i < this.count; i++) {
      const taken = left * this.share[i]!;
      this.share[i] = taken;
      left -= taken;
    }
    this.left = left;
  }

  private look({ capsules }: Scene, index: number, spot: Spot): void {
    const at = index * CAPSULE;
    const radius = capsules[at + 6]!;
    const { x, y, z, dx, dy, dz } = spot;
    const wx = capsules[at]! - x;
    const wy = capsules[at + 1]! - y;
    const wz = capsules[at + 2]! - z;
    const ex = capsules[at + 3]! - x - wx;
    const ey = capsules[at + 4]! - y - wy;
    const ez = capsules[at + 5]! - z - wz;
    const e2 = ex * ex + ey * ey + ez * ez;
    const dw = dx * wx + dy * wy + dz * wz;
    const de = dx * ex + dy * ey + dz * ez;
    const ew = ex * wx + ey * wy + ez * wz;
    // Where the limb's axis comes nearest to the line of the spot's, in lengths of the limb.
    const skew = e2 - de * de;
    const free = skew > 1e-12 * e2 ? (de * dw - ew) / skew : 0;
    const s = free < 0 ? 0 : free > 1 ? 1 : free;
    const along = dw + s * de;
    if (!(along > 0)) return;
    const px = wx + s * ex - along * dx;
    const py = wy + s * ey - along * dy;
    const pz = wz + s * ez - along * dz;
    const off2 = px * px + py * py + pz * pz;
    const spotRadius = spot.radius_m + spot.growth * along;
    const reach = spotRadius + radius;
    if (off2 >= reach * reach) return;
    const off = Math.sqrt(off2);
    let distance = along;
    if (off < radius) {
      // How deep the axis of the spot runs inside the limb before it meets the limb's own axis; longer in a slanted one.
      const slant = s === free && e2 > 0 ? Math.sqrt(skew / e2) : 1;
      const depth = Math.sqrt(radius * radius - off2);
      distance -= slant * (radius + Math.sqrt(e2)) > depth ? depth / slant : radius;
    }
    if (distance >= spot.behind_m) return;
    if (distance < 0) distance = 0;
    const share = s === free ? behindStrip(off, radius, spotRadius) : behindEdge((off - radius) / spotRadius);
    if (share > 0) this.keep(distance, share, index);
  }

  /** Puts a target in its place; the farthest goes when there are too many. */
  private keep(distance: number, share: number, capsule: number): void {
    let i = this.count < MOST ? this.count++ : MOST - 1;
    for (; i > 0 && this.distance_m[i - 1]! > distance; i--) {
      this.distance_m[i] = this.distance_m[i - 1]!;
      this.share[i] = this.share[i - 1]!;
      this.capsule[i] = this.capsule[i - 1]!;
    }
    this.distance_m[i] = distance;
    this.share[i] = share;
    this.capsule[i] = capsule;
  }
}

/** Slabs along the walk and in height outside which no surface is in the spot; with room for limbs that cross its end. */
export function slabOf(spot: Spot): { along_m: readonly [number, number]; heights_m: readonly [number, number] } {
  const far = spot.behind_m + BEYOND_M;
  const slab = (at: number, d: number): readonly [number, number] => {
    const aside = Math.sqrt(Math.max(0, 1 - d * d));
    const near = aside * spot.radius_m;
    const there = aside * (spot.radius_m + spot.growth * far);
    const end = at + d * far;
    return [Math.min(at - near, end - there), Math.max(at + near, end + there)];
  };
  return { along_m: slab(spot.y, spot.dy), heights_m: slab(spot.z, spot.dz) };
}
/** How far behind the end of the spot the axis of a limb may be whose surface is before it, metres. */
const BEYOND_M = 0.6;
