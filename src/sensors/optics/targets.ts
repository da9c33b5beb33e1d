/**
 * What stands in a spot of light: each limb's share of it and how far away it is, nearest first.
 *
 * Seen from the sensor, in a plane in which the spot is the unit disc at every distance, a limb is a strip with two
 * ends. Taken as simpler than it is:
 *
 * - The strip is as wide everywhere as where it comes nearest to the middle of the spot. Its round ends are square ones:
 *   of the same area in a wide spot, as far out in a thin one. Never is more covered than by an edge at the limb's
 *   nearest point.
 * - All of a limb's share is as far away as its surface in the middle of what it covers; distances are along the axis.
 * - Limbs are judged one after another, nearest first: what a nearer one leaves is shared by those behind as if nothing
 *   were known of which part is left.
 */
import type { Scene } from '../ranger.js';
import { CAPSULE } from '../ranger.js';
import { behindEdge, inBox } from './covered.js';
import { entryOf } from './ray.js';
import type { Spot } from './spot.js';

/** Most limbs that are told apart, the nearest; more than a few bodies have. */
const MOST = 64;
/** What is nearer to the sensor's plane than this, metres, is not in front of it. */
const FRONT_M = 1e-3;
/** A strip shorter than its spot by so much has no direction. */
const POINT = 1e-12;
/** π/4, in radii: a square end so far out has the area of a round one. */
const ROUND = 0.7853981633974483;

/** Targets found last, nearest first: kept, so that nothing is allocated per reading. */
export class Targets {
  count = 0;
  /** Distance of the surface from the sensor, metres. */
  readonly distance_m = new Float64Array(MOST);
  /** Share of the whole spot that it covers, of what the nearer ones leave. */
  readonly share = new Float64Array(MOST);
  /** Index of the capsule in the scene. */
  readonly capsule = new Int32Array(MOST);
  /** Share of the spot that goes on to what is behind everybody. */
  left = 1;

  /** The limb at hand in the spot's own axes, u, v and along it: one end, the other. Numbers handed over would be allocated. */
  private readonly ends = new Float64Array(6);
  /** Distance of the nearest limb that covers all: nothing behind it counts. */
  private wall_m = Infinity;

  find(scene: Scene, spot: Spot): void {
    this.count = 0;
    this.wall_m = Infinity;
    const { capsules, count } = scene;
    const { x, y, z, dx, dy, dz, ux, uy, uz, vx, vy, vz, widest_m } = spot;
    const { ends } = this;
    for (let i = 0; i < count; i++) {
      const at = i * CAPSULE;
      const radius = capsules[at + 6]!;
      const ax = capsules[at]! - x;
      const ay = capsules[at + 1]! - y;
      const az = capsules[at + 2]! - z;
      const bx = capsules[at + 3]! - x;
      const by = capsules[at + 4]! - y;
      const bz = capsules[at + 5]! - z;
      const au = ux * ax + uy * ay + uz * az;
      const bu = ux * bx + uy * by + uz * bz;
      const most = widest_m + radius;
      if ((au > most && bu > most) || (au < -most && bu < -most)) continue;
      const ad = dx * ax + dy * ay + dz * az;
      const bd = dx * bx + dy * by + dz * bz;
      if ((ad < bd ? ad : bd) - radius > this.wall_m) continue;
      const reach = spot.radius_m + spot.growth * (ad > bd ? ad : bd) + radius;
      if ((au > reach && bu > reach) || (au < -reach && bu < -reach)) continue;
      const av = vx * ax + vy * ay + vz * az;
      const bv = vx * bx + vy * by + vz * bz;
      if ((av > reach && bv > reach) || (av < -reach && bv < -reach)) continue;
      ends[0] = au;
      ends[1] = av;
      ends[2] = ad;
      ends[3] = bu;
      ends[4] = bv;
      ends[5] = bd;
      this.look(spot, i, radius);
    }
    let left = 1;
    for (let i = 0; i < this.count; i++) {
      const taken = left * this.share[i]!;
      this.share[i] = taken;
      left -= taken;
    }
    this.left = left;
  }

  /** Looks closely at the limb at hand. */
  private look(spot: Spot, index: number, radius: number): void {
    const { ends } = this;
    const au = ends[0]!;
    const av = ends[1]!;
    const ad = ends[2]!;
    const bu = ends[3]!;
    const bv = ends[4]!;
    const bd = ends[5]!;
    if (ad < FRONT_M && bd < FRONT_M) return;
    // Only what is in front of the sensor has a picture.
    const a = ad < FRONT_M ? (FRONT_M - ad) / (bd - ad) : 0;
    const b = bd < FRONT_M ? (FRONT_M - ad) / (bd - ad) : 1;
    // One over the radius of the spot at either end: what the picture is scaled by.
    const ia = 1 / (spot.radius_m + spot.growth * (ad + a * (bd - ad)));
    const ib = 1 / (spot.radius_m + spot.growth * (ad + b * (bd - ad)));
    const ax = (au + a * (bu - au)) * ia;
    const ay = (av + a * (bv - av)) * ia;
    const ex = (au + b * (bu - au)) * ib - ax;
    const ey = (av + b * (bv - av)) * ib - ay;
    const e2 = ex * ex + ey * ey;
    const ae = ax * ex + ay * ey;
    const t = e2 < POINT || ae >= 0 ? 0 : ae <= -e2 ? 1 : -ae / e2;
    const px = ax + t * ex;
    const py = ay + t * ey;
    const off2 = px * px + py * py;
    // It is this that is even along a limb in its picture.
    const scale = ia + t * (ib - ia);
    const half = radius * scale;
    if (off2 >= (1 + half) * (1 + half)) return;
    const off = Math.sqrt(off2);

    const length = Math.sqrt(e2);
    const across = e2 < POINT ? off : Math.abs(ax * ey - ay * ex) / length;
    const along = e2 < POINT ? 0 : ae / length;
    const round = half < 1 ? ROUND + (1 - ROUND) * half : 1;
    const boxed = inBox(
      across - half,
      across + half,
      along - round * radius * ia,
      along + length + round * radius * ib,
    );
    const share = Math.min(boxed, behindEdge(off - half));
    if (!(share > 0)) return;

    const middle = off > 0 ? (Math.max(-1, off - half) + Math.min(1, off + half)) / (2 * off) : 0;
    const ou = middle * px * spot.radius_m;
    const ov = middle * py * spot.radius_m;
    const du = middle * px * spot.growth;
    const dv = middle * py * spot.growth;
    const one = 1 / Math.sqrt(1 + du * du + dv * dv);
    let distance = one * entryOf(du * one, dv * one, one, au - ou, av - ov, ad, bu - ou, bv - ov, bd, radius);
    // A ray that just misses what covers the spot on both sides of it: as far as the limb's own axis.
    if (distance === Infinity) distance = ad + (a + ((t * ib) / scale) * (b - a)) * (bd - ad);
    if (distance >= spot.behind_m) return;
    if (share === 1 && distance < this.wall_m) this.wall_m = distance;
    this.keep(distance < 0 ? 0 : distance, share, index);
  }

  /** Puts a target in its place; the farthest goes when there are too many. */
  private keep(distance: number, share: number, capsule: number): void {
    let i = this.count;
    if (i < MOST) this.count++;
    else if (distance >= this.distance_m[--i]!) return;
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
