/**
 * The leaf of a door: a slab that hangs from a jamb, and how it swings.
 *
 * Shut, it lies in the frame, flush with the face on the side it opens to; it turns about the edge of that face. So in
 * swinging it sweeps all that is beyond that face, and nothing on the other side.
 *
 * Only swings are told. A leaf at rest breaks no beam: open, it is taken to stand clear along the wall or the jamb;
 * shut, no beam is taken to run where it lies. What it sweeps beyond 90° is outside the opening, where no beam is: a swing is
 * seen between shut and 90°, though all of it takes its time. `check` tells where a beam is swept, or could be stood in.
 */
import { DEG, cos, sin } from '../../engine/arithmetic.js';
import { smoothstep } from '../../engine/interpolate.js';
import type { Leaf } from '../../geometry/schema.js';
import type { Limb } from '../../geometry/limbs.js';
import { limbOf } from '../../geometry/limbs.js';
import type { Body } from '../body.js';
import { rigidBody } from '../body.js';
import { PART } from '../gait/parts.js';
import type { Passage } from '../motion/passage.js';
import { nodesFor, swinging } from './swinging.js';

/** The hole and the frame it hangs in. */
export interface LeafPlace {
  readonly width_m: number;
  readonly height_m: number;
  readonly jamb_depth_m: number;
}

/** Posts of the slab stand no further apart than this share of their radius: dents between them are below a fifth of it. */
const APART = 1.2;

/** Where the posts of the slab stand along it, metres from the hinge. */
function postsOf({ thickness_m }: Leaf, { width_m }: LeafPlace): number[] {
  const r = thickness_m / 2;
  const length = width_m - thickness_m;
  const cells = Math.max(1, Math.ceil(length / (APART * r)));
  return Array.from({ length: cells + 1 }, (_, i) => r + (i * length) / cells);
}

/**
 * The leaf as a body: upright capsules, as thick as the slab, side by side and overlapping from hinge to edge, so that no
 * beam slips between two of them. Nobody is aboard. At its upper and lower rim it is rounded by half its thickness.
 *
 * @param number of the body in its replicate
 */
export function leafBody(leaf: Leaf, place: LeafPlace, number: number): Body {
  const r = leaf.thickness_m / 2;
  // Where each is comes from the swing, whole capsules at a time.
  const limbs: Limb[] = postsOf(leaf, place).map(() => limbOf(PART.trunk, 0, 0, 0, 0, 0, 0, r));
  return hangingBody('leaf', number, place.height_m, place.width_m, limbs);
}

/** A body that hangs: nobody, and it goes nowhere by itself. */
export function hangingBody(
  who: string,
  number: number,
  height_m: number,
  breadth_m: number,
  limbs: readonly Limb[],
): Body {
  const own = { sort: 'thing', persons: 0, stature_m: height_m, breadth_m, speed_mps: 0 } as const;
  return rigidBody(who, number, own, limbs);
}

/** As far as a leaf is seen to open, degrees: beyond, it has left the opening. */
const SQUARE_DEG = 90;

/** A swing from shut to as far as it opens, or back: `swing_s`, of which the part beyond 90° is left out. */
export function leafSwing(leaf: Leaf, place: LeafPlace, way: 'open' | 'shut'): Passage {
  const seen_deg = Math.min(leaf.opens_deg, SQUARE_DEG);
  const share = timeShareTo(seen_deg / leaf.opens_deg);
  const angle = (t: number): number => leaf.opens_deg * smoothstep(share * (way === 'open' ? t : 1 - t));
  return swungBy(leaf, place, angle, share * leaf.swing_s, seen_deg);
}

/** How long into a shutting swing the leaf comes into the opening, seconds: 0 unless it opens beyond 90°. */
export function unseen_s(leaf: Leaf): number {
  return leaf.swing_s * (1 - timeShareTo(Math.min(1, SQUARE_DEG / leaf.opens_deg)));
}

/** An open leaf stirs in a draught: from where it leaves the opening some degrees in, and back. */
export function leafStir(leaf: Leaf, place: LeafPlace, by_deg: number, duration_s: number): Passage {
  const seen_deg = Math.min(leaf.opens_deg, SQUARE_DEG);
  const there = (t: number): number => (t < 0.5 ? smoothstep(2 * t) : smoothstep(2 - 2 * t));
  return swungBy(leaf, place, (t) => seen_deg - by_deg * there(t), duration_s, 2 * by_deg);
}

/** The share of the time at which {@link smoothstep} has come to a share of the way: bisection, to the last bit. */
function timeShareTo(way: number): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (smoothstep(middle) < way) low = middle;
    else high = middle;
  }
  return way >= 1 ? 1 : low;
}

/** @param angle_deg opening angle at a share of the time @param swept_deg how much it turns in all */
function swungBy(
  leaf: Leaf,
  place: LeafPlace,
  angle_deg: (t: number) => number,
  duration_s: number,
  swept_deg: number,
): Passage {
  const posts = postsOf(leaf, place);
  const r = leaf.thickness_m / 2;
  const left = leaf.hinge === 'left';
  const side = leaf.opens === 'forward' ? 1 : -1;
  const hinge_x = left ? 0 : place.width_m;
  const across = left ? 1 : -1;
  // A swing that is cut at 90° is as steep as a whole one: 1.5 times the mean pace of what it is seen of, or twice.
  const nodes = nodesFor(place.width_m, swept_deg * DEG, 2);
  return swinging(posts.length, nodes, duration_s, (limb, t, a, b, k) => {
    const angle = angle_deg(t) * DEG;
    const [c, s] = [cos(angle), sin(angle)];
    const along = posts[limb] as number;
    // The middle of the slab is half its thickness behind the face that it turns about.
    const x = hinge_x + across * (along * c + r * s);
    const y = side * (place.jamb_depth_m / 2 + along * s - r * c);
    a.l[k] = x;
    a.w[k] = y;
    a.z[k] = r;
    b.l[k] = x;
    b.w[k] = y;
    b.z[k] = place.height_m - r;
  });
}
