/** What a body does during one visit: stretches of motion, one after the other, each on its own nodes. */
import type { BeamLine, FlatBeam, Frame } from '../../geometry/beam-line.js';
import { flatten, toRoom } from '../../geometry/beam-line.js';
import { addInterval } from '../../geometry/intervals.js';
import { passesBy, scanLimb } from '../../geometry/search.js';
import { LIMB, Limbs, PART_OF, RADIUS, limbOf } from '../../geometry/limbs.js';
import type { PoseTracks } from '../../geometry/track.js';
import { endAt } from '../../geometry/track.js';
import type { Body } from '../body.js';

export interface Stretch {
  readonly tracks: PoseTracks;
  readonly frame: Frame;
  /** Node numbers, real, of beginning and end. */
  readonly from: number;
  readonly to: number;
  /** Seconds since the visit began, at a node; grows with it. */
  timeAt(node: number): number;
  /** The node at a time within the stretch: the other way round, to a micrometre of the way. */
  nodeAt(time: number): number;
  /** What is known of a limb and a beam without its track; null: all must be looked for. */
  readonly foresee: Foresee | null;
  /** True where the tracks hold whole limbs, one per limb of the body, offsets included. */
  readonly perLimb: boolean;
}

/**
 * Of a limb by its number: `clear` or `broken` all the time, or `look`. `threshold` is the distance at which the beam is
 * broken, model units.
 */
export type Foresee = (limb: number, beam: FlatBeam, threshold: number) => 'clear' | 'broken' | 'look';

export type Motion = readonly Stretch[];

/**
 * When a body breaks a beam: exact intervals in seconds since the visit began, added to `out` (sorted, disjoint).
 *
 * @param clearance how much nearer than touching a capsule of a given radius (metres) must come, negative, or how much
 *   further it may be, positive; −Infinity if it can't break the beam at all
 * @param hidden limbs that aren't there
 */
export function breaksOf(
  body: Body,
  motion: Motion,
  line: BeamLine,
  clearance: (radius_m: number) => number,
  out: number[],
  hidden?: ReadonlySet<number>,
): void {
  const { numbers, count } = body.limbs;
  for (const stretch of motion) {
    const { tracks } = stretch;
    const beam = flatten(line, stretch.frame, body.unit_m);
    const level = beam.vl === 0;
    const { heights } = tracks;
    let nodes: number[] = [];
    const from = Math.floor(stretch.from);
    const to = Math.ceil(stretch.to);
    for (let i = 0; i < count; i++) {
      if (hidden?.has(i) === true) continue;
      const at = LIMB * i;
      const radius = numbers[at + RADIUS]!;
      const extra = clearance(radius * body.unit_m) / body.unit_m;
      const foreseen = stretch.foresee ? stretch.foresee(i, beam, radius + extra) : 'look';
      if (foreseen === 'clear') continue;
      if (foreseen === 'broken') {
        nodes = [from, to];
        break;
      }
      const part = stretch.perLimb ? i : numbers[at + PART_OF]!;
      if (level && heights !== null && passesBy(heights, part, numbers, at, beam, radius + extra)) continue;
      const track = tracks.made[part] ?? tracks.part(part);
      if (stretch.perLimb) scanLimb(track, bare(radius), 0, tracks.span, beam, extra, from, to, nodes);
      else scanLimb(track, numbers, at, tracks.span, beam, extra, from, to, nodes);
    }
    for (let i = 0; i < nodes.length; i += 2) {
      const start = Math.max(nodes[i] as number, stretch.from);
      const end = Math.min(nodes[i + 1] as number, stretch.to);
      if (start < end) addInterval(out, stretch.timeAt(start), stretch.timeAt(end));
    }
  }
}

/** Numbers of a limb whose track holds its offsets already; the same ones every time. */
function bare(radius: number): readonly number[] {
  BARE[RADIUS] = radius;
  return BARE;
}
const BARE = [...Limbs.of([limbOf(0, 0, 0, 0, 0, 0, 0, 0.5)]).numbers];

/** A posed capsule in the room, metres. */
export interface Capsule {
  readonly x0: number;
  readonly y0: number;
  readonly z0: number;
  readonly x1: number;
  readonly y1: number;
  readonly z1: number;
  readonly radius: number;
}

/** Every capsule of a body at one node of a stretch: for pictures and for checks against the search. */
export function poseAt(body: Body, stretch: Stretch, node: number): Capsule[] {
  const { tracks, frame } = stretch;
  const unit = body.unit_m;
  return body.limbs.list().map((limb, i) => {
    const track = tracks.part(stretch.perLimb ? i : limb.part);
    const o = stretch.perLimb ? limbOf(i, 0, 0, 0, 0, 0, 0, limb.radius) : limb;
    const a = endAt(track, 0, node, tracks.span);
    const b = endAt(track, 1, node, tracks.span);
    const p = toRoom((a.l + o.al) * unit, (a.w + o.aw) * unit, frame);
    const q = toRoom((b.l + o.bl) * unit, (b.w + o.bw) * unit, frame);
    return {
      x0: p.x,
      y0: p.y,
      z0: (a.z + o.az) * unit,
      x1: q.x,
      y1: q.y,
      z1: (b.z + o.bz) * unit,
      radius: limb.radius * unit,
    };
  });
}

/** The stretch a time falls in and the node there; bisection, for pictures and checks, not for the hot path. */
export function nodeAt(motion: Motion, time: number): { stretch: Stretch; node: number } {
  let stretch = motion[motion.length - 1] as Stretch;
  for (const s of motion) {
    if (time <= s.timeAt(s.to)) {
      stretch = s;
      break;
    }
  }
  let low = stretch.from;
  let high = stretch.to;
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (stretch.timeAt(middle) < time) low = middle;
    else high = middle;
  }
  return { stretch, node: (low + high) / 2 };
}
