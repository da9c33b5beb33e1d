/** From when to when a body may be near a place along the walk: bounds, not a search. */
import type { Extent, Limb } from '../../geometry/track.js';
import type { Body } from '../body.js';
import type { Motion, Stretch } from './motion.js';

/** Rounding of single precision, model units, with room. */
const SPARE = 1e-4;

/**
 * Bounds, in seconds since the visit began, of the time in which some surface of the body lies between two places along
 * the walk: outside them it never does. Null when it never does at all.
 *
 * @param from_m @param to_m places along the walk in the door's axes, `from_m` below `to_m`
 */
export function nearWithin(
  body: Body,
  motion: Motion,
  from_m: number,
  to_m: number,
): { readonly start_s: number; readonly end_s: number } | null {
  let start_s = Infinity;
  let end_s = -Infinity;
  for (const stretch of motion) {
    reachOf(body, stretch);
    const { frame, tracks } = stretch;
    const unit = body.unit_m;
    // Bounds of y about the frame's origin, and, for a walk, about the place walked to.
    const across = Math.abs(frame.sin) * REACH.aside * unit;
    const low = frame.y + Math.min(frame.cos * REACH.back, frame.cos * REACH.ahead) * unit - across;
    const high = frame.y + Math.max(frame.cos * REACH.back, frame.cos * REACH.ahead) * unit + across;
    let first = stretch.from;
    let last = stretch.to;
    if (tracks.span.advance > 0) {
      const perNode = (tracks.span.advance * unit * frame.cos) / tracks.span.nodes;
      const a = (from_m - high) / perNode;
      const b = (to_m - low) / perNode;
      first = Math.max(first, Math.min(a, b));
      last = Math.min(last, Math.max(a, b));
      if (!(first <= last)) continue;
    } else if (low > to_m || high < from_m) continue;
    start_s = Math.min(start_s, stretch.timeAt(first));
    end_s = Math.max(end_s, stretch.timeAt(last));
  }
  return start_s <= end_s ? { start_s, end_s } : null;
}

/** How far the body's surface reaches in a stretch, model units: backward and forward (signed), and to a side. */
const REACH = { back: 0, ahead: 0, aside: 0 };

function reachOf(body: Body, stretch: Stretch): void {
  REACH.back = Infinity;
  REACH.ahead = -Infinity;
  REACH.aside = 0;
  const { tracks, perLimb } = stretch;
  for (let i = 0; i < body.limbs.length; i++) {
    const limb = body.limbs[i] as Limb;
    const part = perLimb ? i : limb.part;
    const track = tracks.made[part] ?? tracks.part(part);
    widen(track.aExtent, perLimb ? 0 : limb.al, perLimb ? 0 : limb.aw, limb.radius + SPARE);
    widen(track.bExtent, perLimb ? 0 : limb.bl, perLimb ? 0 : limb.bw, limb.radius + SPARE);
  }
}

function widen(extent: Extent, l: number, w: number, radius: number): void {
  REACH.back = Math.min(REACH.back, extent.w0 + w - radius);
  REACH.ahead = Math.max(REACH.ahead, extent.w1 + w + radius);
  REACH.aside = Math.max(REACH.aside, Math.abs(extent.l0 + l - radius), Math.abs(extent.l1 + l + radius));
}
