/**
 * The plain way, to compare the edge search with: every millisecond of a visit is posed and measured. Same motions,
 * same tables of poses, same culling by height, by reach along the walk and by what is foreseen of somebody standing;
 * both beams are held against one pose.
 */
import type { Body } from '../src/agents/body.js';
import type { Motion, Stretch } from '../src/agents/motion/motion.js';
import type { FlatBeam } from '../src/geometry/beam-line.js';
import { flatten } from '../src/geometry/beam-line.js';
import { fromOrigin } from '../src/geometry/cell.js';
import type { Limb } from '../src/geometry/limbs.js';
import type { Extent, LimbTrack } from '../src/geometry/track.js';
import { EXTENT_A, EXTENT_B, STRIDE, extentOf } from '../src/geometry/track.js';
import type { BeamPath } from '../src/sensors/door-sensors.js';

const STEP_S = 1e-3;

/** A limb that may be in a beam somewhere between two nodes. */
interface Candidate {
  readonly track: LimbTrack;
  /** The limb's own offsets and the beam, put together: flat coordinates of both ends but for the track's part. */
  readonly beam: FlatBeam;
  readonly au: number;
  readonly av: number;
  readonly bu: number;
  readonly bv: number;
  readonly threshold: number;
  readonly first: number;
  readonly last: number;
}

/** Breaks of each path: [start, end, …] in seconds since the visit began, to the millisecond. */
export function steppedBreaks(body: Body, motion: Motion, paths: readonly BeamPath[]): number[][] {
  const breaks: number[][] = paths.map(() => []);
  let end_s = 0;
  for (const stretch of motion) {
    const start_s = end_s;
    end_s = stretch.timeAt(stretch.to);
    const steady = paths.map(() => false);
    const candidates = paths.map((path, p) => candidatesOf(body, stretch, path, p, steady));
    // Only while some limb is within reach of a beam along the walk is anything looked at.
    const all = candidates.flat();
    const first = Math.max(stretch.from, Math.min(...all.map((one) => one.first)));
    const last = Math.min(stretch.to, Math.max(...all.map((one) => one.last)));
    const from_k = Math.ceil(start_s / STEP_S);
    const to_k = Math.ceil(end_s / STEP_S);
    let node = first;
    let now = stretch.timeAt(first);
    const first_k = first < last ? Math.max(from_k, Math.floor(now / STEP_S)) : Infinity;
    // What the stretch before left broken goes on, unless nothing can be in the beam now.
    for (let p = 0; p < paths.length; p++) if (steady[p] || first_k > from_k) hold(breaks[p]!, steady[p]!, from_k);
    if (!(first < last)) continue;
    const last_s = stretch.timeAt(last);
    let perSecond = (last - first) / (last_s - now);
    const stop = Math.min(to_k, Math.floor(last_s / STEP_S) + 2);
    for (let k = first_k; k < stop; k++) {
      // The node at this instant, by the pace of the step before: within a thousandth of a node.
      const next = node + (k * STEP_S - now) * perSecond;
      const then = stretch.timeAt(next);
      if (then !== now) perSecond = (next - node) / (then - now);
      node = next;
      now = then;
      moveTo(node, stretch);
      for (let p = 0; p < paths.length; p++) {
        if (!steady[p]) hold(breaks[p]!, anyWithin(candidates[p]!, node), k);
      }
    }
  }
  for (const list of breaks) hold(list, false, Math.ceil(end_s / STEP_S));
  return breaks;
}

/** Notes at step `k` that a beam is broken or isn't. */
function hold(list: number[], broken: boolean, k: number): void {
  if (broken !== (list.length % 2 === 1)) list.push(k * STEP_S);
}

/** Where in the tables the pose of the moment lies, for all limbs and beams. */
const POSE = { i: 0, j: 0, t: 0, w0: 0, w1: 0 };
function moveTo(node: number, { tracks: { span }, from, to }: Stretch): void {
  const { nodes, advance } = span;
  const inside = Math.min(to, Math.max(from, node));
  const n = Math.min(Math.floor(inside), advance === 0 ? nodes - 2 : Infinity);
  const turn = advance === 0 ? 0 : Math.floor(n / nodes);
  const wraps = n - turn * nodes + 1 === nodes;
  POSE.i = (n - turn * nodes) * STRIDE;
  POSE.j = wraps ? 0 : POSE.i + STRIDE;
  POSE.t = inside - n;
  POSE.w0 = turn * advance;
  POSE.w1 = wraps ? POSE.w0 + advance : POSE.w0;
}

function anyWithin(candidates: readonly Candidate[], node: number): boolean {
  const { i, j, t, w0, w1 } = POSE;
  for (let c = 0; c < candidates.length; c++) {
    const one = candidates[c]!;
    if (node >= one.first && node <= one.last && within(one, i, j, t, w0, w1)) return true;
  }
  return false;
}

function within(c: Candidate, i: number, j: number, t: number, w0: number, w1: number): boolean {
  const { ends } = c.track;
  const { ul, uw, uz, vl, vz } = c.beam;
  const al = ends[i]! + (ends[j]! - ends[i]!) * t;
  const aw = ends[i + 1]! + w0 + (ends[j + 1]! + w1 - ends[i + 1]! - w0) * t;
  const az = ends[i + 2]! + (ends[j + 2]! - ends[i + 2]!) * t;
  const bl = ends[i + 3]! + (ends[j + 3]! - ends[i + 3]!) * t;
  const bw = ends[i + 4]! + w0 + (ends[j + 4]! + w1 - ends[i + 4]! - w0) * t;
  const bz = ends[i + 5]! + (ends[j + 5]! - ends[i + 5]!) * t;
  const distance = fromOrigin(
    c.au + ul * al + uw * aw + uz * az,
    c.av + vl * al + vz * az,
    c.bu + ul * bl + uw * bw + uz * bz,
    c.bv + vl * bl + vz * bz,
  );
  return distance < c.threshold;
}

function candidatesOf(body: Body, stretch: Stretch, path: BeamPath, p: number, steady: boolean[]): Candidate[] {
  const beam = flatten(path.line, stretch.frame, body.unit_m);
  const found: Candidate[] = [];
  for (let i = 0; i < body.limbs.count; i++) {
    const limb = body.limbs.at(i);
    const threshold = limb.radius + path.clearance(limb.radius * body.unit_m) / body.unit_m;
    if (!(threshold > 0)) continue;
    const foreseen = stretch.foresee?.(i, beam, threshold) ?? 'look';
    if (foreseen === 'clear') continue;
    if (foreseen === 'broken') {
      steady[p] = true;
      return [];
    }
    const track = stretch.tracks.part(stretch.perLimb ? i : limb.part);
    const own = stretch.perLimb ? { al: 0, aw: 0, az: 0, bl: 0, bw: 0, bz: 0 } : limb;
    const candidate = candidateOf(track, own, limb.shadowed, stretch, beam, threshold);
    if (candidate) found.push(candidate);
  }
  return found;
}

function candidateOf(
  track: LimbTrack,
  own: Pick<Limb, 'al' | 'aw' | 'az' | 'bl' | 'bw' | 'bz'>,
  shadowed: boolean,
  { tracks: { span }, from, to }: Stretch,
  beam: FlatBeam,
  threshold: number,
): Candidate | null {
  const { ul, uw, uz, vl, vz } = beam;
  const au = beam.u0 + ul * own.al + uw * own.aw + uz * own.az;
  const av = beam.v0 + vl * own.al + vz * own.az;
  const bu = beam.u0 + ul * own.bl + uw * own.bw + uz * own.bz;
  const bv = beam.v0 + vl * own.bl + vz * own.bz;
  const a = extentOf(track, EXTENT_A);
  const b = extentOf(track, EXTENT_B);
  if (vl === 0) {
    if (av + a.z0 > threshold && bv + b.z0 > threshold) return null;
    if (av + a.z1 < -threshold && bv + b.z1 < -threshold) return null;
    if (shadowed && ul === 0) return null;
  }
  let first = from;
  let last = to;
  if (span.advance > 0) {
    const most = Math.max(au + top(a, ul, uw, uz), bu + top(b, ul, uw, uz));
    const least = Math.min(au - top(a, -ul, -uw, -uz), bu - top(b, -ul, -uw, -uz));
    const perUnit = span.nodes / (span.advance * uw);
    first = Math.max(first, (-threshold - most) * perUnit);
    last = Math.min(last, (threshold - least) * perUnit);
  }
  return first < last ? { track, beam, au, av, bu, bv, threshold, first, last } : null;
}

function top(e: Extent, l: number, w: number, z: number): number {
  return (l > 0 ? l * e.l1 : l * e.l0) + (w > 0 ? w * e.w1 : w * e.w0) + (z > 0 ? z * e.z1 : z * e.z0);
}
