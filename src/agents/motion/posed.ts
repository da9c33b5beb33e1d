/** Where every capsule of a body is at an instant: the way rangers look, and the quick one. */
import { STRIDE } from '../../geometry/track.js';
import type { Limb, NodeSpan } from '../../geometry/track.js';
import type { Body } from '../body.js';
import type { Motion, Stretch } from './motion.js';

/** Numbers per capsule: ax, ay, az, bx, by, bz, radius; metres in the door's axes. */
const CAPSULE = 7;
/** How near in time the node of an instant is found, seconds: a walker moves a nanometre in it. */
const NEAR_S = 1e-9;

/**
 * Writes the capsules of a body at `time_s` into `out`, from number `at` on. A pure function of its arguments, however
 * it was asked before.
 *
 * @param time_s seconds since the visit began; before its beginning or after its end the pose is that of the end
 * @param out large enough for {@link CAPSULE} numbers a limb
 * @param near start and end of the time in which each limb matters, as of near.ts: those outside are left out
 * @returns the number after the last written
 */
export function poseInto(
  body: Body,
  motion: Motion,
  time_s: number,
  out: Float64Array,
  at: number,
  near: Float64Array | null = null,
): number {
  const stretch = stretchAt(motion, time_s);
  const node = nodeOf(stretch, time_s);
  const { tracks, frame, perLimb } = stretch;
  const { span } = tracks;
  const unit = body.unit_m;
  const cos = frame.cos * unit;
  const sin = frame.sin * unit;
  const n = Math.floor(node);
  const t = node - n;
  const k0 = indexOf(n, span);
  const k1 = indexOf(n + 1, span);
  const turn0 = turnOf(n, span);
  const turn1 = turnOf(n + 1, span);
  let o = at;
  for (let i = 0; i < body.limbs.length; i++) {
    if (near !== null && (time_s < near[2 * i]! || time_s > near[2 * i + 1]!)) continue;
    const limb = body.limbs[i] as Limb;
    const part = perLimb ? i : limb.part;
    const { ends } = tracks.made[part] ?? tracks.part(part);
    let l = mixed(ends[k0]!, ends[k1]!, t);
    let w = mixed(ends[k0 + 1]! + turn0, ends[k1 + 1]! + turn1, t);
    let z = mixed(ends[k0 + 2]!, ends[k1 + 2]!, t);
    if (!perLimb) {
      l += limb.al;
      w += limb.aw;
      z += limb.az;
    }
    out[o] = frame.x + l * cos + w * sin;
    out[o + 1] = frame.y + w * cos - l * sin;
    out[o + 2] = z * unit;
    l = mixed(ends[k0 + 3]!, ends[k1 + 3]!, t);
    w = mixed(ends[k0 + 4]! + turn0, ends[k1 + 4]! + turn1, t);
    z = mixed(ends[k0 + 5]!, ends[k1 + 5]!, t);
    if (!perLimb) {
      l += limb.bl;
      w += limb.bw;
      z += limb.bz;
    }
    out[o + 3] = frame.x + l * cos + w * sin;
    out[o + 4] = frame.y + w * cos - l * sin;
    out[o + 5] = z * unit;
    out[o + 6] = limb.radius * unit;
    o += CAPSULE;
  }
  return o;
}

function mixed(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}

function indexOf(node: number, span: NodeSpan): number {
  if (span.advance > 0) return (node & (span.nodes - 1)) * STRIDE;
  return (node < 0 ? 0 : node >= span.nodes ? span.nodes - 1 : node) * STRIDE;
}

function turnOf(node: number, span: NodeSpan): number {
  return span.advance > 0 ? Math.floor(node / span.nodes) * span.advance : 0;
}

function stretchAt(motion: Motion, time_s: number): Stretch {
  const last = motion.length - 1;
  for (let i = 0; i < last; i++) {
    const stretch = motion[i] as Stretch;
    if (time_s <= stretch.timeAt(stretch.to)) return stretch;
  }
  return motion[last] as Stretch;
}

/** Node at a time. Time runs nearly evenly over the nodes of a stretch: false position is there in a few looks. */
function nodeOf(stretch: Stretch, time_s: number): number {
  let low = stretch.from;
  let high = stretch.to;
  let below = stretch.timeAt(low) - time_s;
  if (below >= 0) return low;
  let above = stretch.timeAt(high) - time_s;
  if (above <= 0) return high;
  let side = 0;
  for (let i = 0; i < 60; i++) {
    const node = low - (below * (high - low)) / (above - below);
    const off = stretch.timeAt(node) - time_s;
    if (off < NEAR_S && off > -NEAR_S) return node;
    if (off > 0) {
      high = node;
      above = off;
      if (side === 1) below /= 2;
      side = 1;
    } else {
      low = node;
      below = off;
      if (side === -1) above /= 2;
      side = -1;
    }
  }
  return (low + high) / 2;
}
