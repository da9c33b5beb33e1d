/** From when to when each limb of a body may be near a place: bounds, not a search. */
import { AL, AW, AZ, BL, BW, BZ, LIMB, PART_OF, RADIUS } from '../../geometry/limbs.js';
import type { Extent } from '../../geometry/track.js';
import { EXTENT_A, EXTENT_B, extentOf } from '../../geometry/track.js';
import type { Body } from '../body.js';
import type { Motion, Stretch } from './motion.js';

/** Rounding of single precision, model units, with room. */
const SPARE = 1e-4;
/** The same for times, seconds. */
const SPARE_S = 1e-6;

/** A slab of space across the doorway: its extent along the walk and in height, door axes, metres. */
export interface Slab {
  readonly along_m: readonly [number, number];
  readonly heights_m: readonly [number, number];
}

/** Times in seconds since the visit began. */
export interface NearTimes {
  /** Of the whole body. */
  readonly start_s: number;
  readonly end_s: number;
  /** Start and end of each limb; an end before its start for a limb that is never near. */
  readonly limbs: Float64Array;
}

/**
 * Bounds of the time in which some surface of the body lies in a slab: outside them it never does. Null when it never
 * does at all.
 */
export function nearWithin(body: Body, motion: Motion, slab: Slab): NearTimes | null {
  const limbs = new Float64Array(2 * body.limbs.count);
  let start_s = Infinity;
  let end_s = -Infinity;
  for (let i = 0; i < body.limbs.count; i++) {
    let from = Infinity;
    let to = -Infinity;
    for (const stretch of motion) {
      if (!near(body, stretch, i, slab)) continue;
      const start = stretch.timeAt(NODES.first) - SPARE_S;
      const end = stretch.timeAt(NODES.last) + SPARE_S;
      if (start < from) from = start;
      if (end > to) to = end;
    }
    limbs[2 * i] = from;
    limbs[2 * i + 1] = to;
    if (from < start_s) start_s = from;
    if (to > end_s) end_s = to;
  }
  return start_s <= end_s ? { start_s, end_s, limbs } : null;
}

/** What {@link near} found: first and last node, kept so that nothing is allocated. */
const NODES = { first: 0, last: 0 };

function near(body: Body, stretch: Stretch, index: number, { along_m, heights_m }: Slab): boolean {
  const { frame, tracks, perLimb } = stretch;
  const { numbers } = body.limbs;
  const at = LIMB * index;
  const part = perLimb ? index : numbers[at + PART_OF]!;
  const track = tracks.made[part] ?? tracks.part(part);
  const a = extentOf(track, EXTENT_A);
  const b = extentOf(track, EXTENT_B);
  const r = numbers[at + RADIUS]! + SPARE;
  const own = perLimb ? 0 : 1;
  const al = own * numbers[at + AL]!;
  const aw = own * numbers[at + AW]!;
  const az = own * numbers[at + AZ]!;
  const bl = own * numbers[at + BL]!;
  const bw = own * numbers[at + BW]!;
  const bz = own * numbers[at + BZ]!;
  const unit = body.unit_m;
  if (Math.min(a.z0 + az, b.z0 + bz) - r > heights_m[1] / unit) return false;
  if (Math.max(a.z1 + az, b.z1 + bz) + r < heights_m[0] / unit) return false;
  const back = Math.min(a.w0 + aw, b.w0 + bw) - r;
  const ahead = Math.max(a.w1 + aw, b.w1 + bw) + r;
  const across = Math.abs(frame.sin) * (Math.max(aside(a, al), aside(b, bl)) + r);
  // Bounds of y about the frame's origin, and, for a walk, about the place walked to.
  const low = frame.y + (Math.min(frame.cos * back, frame.cos * ahead) - across) * unit;
  const high = frame.y + (Math.max(frame.cos * back, frame.cos * ahead) + across) * unit;
  NODES.first = stretch.from;
  NODES.last = stretch.to;
  if (tracks.span.advance === 0) return low <= along_m[1] && high >= along_m[0];
  const perNode = (tracks.span.advance * unit * frame.cos) / tracks.span.nodes;
  const one = (along_m[0] - high) / perNode;
  const other = (along_m[1] - low) / perNode;
  NODES.first = Math.max(stretch.from, Math.min(one, other));
  NODES.last = Math.min(stretch.to, Math.max(one, other));
  return NODES.first <= NODES.last;
}

/** How far an end strays to a side. */
function aside(extent: Extent, l: number): number {
  return Math.max(Math.abs(extent.l0 + l), Math.abs(extent.l1 + l));
}
