/**
 * A second opinion on edges, written without looking at how the search does it: poses are asked for on a fixed grid of
 * time and every capsule is held against every beam, as two segments in space.
 *
 * Grid points at which nothing can have changed are left out: no point of any body here moves faster than `FASTEST_MPS`
 * (displacement.test.ts samples that densely), so a beam that is clear by 12 mm stays clear for a millisecond.
 */
import type { Body } from '../../src/agents/body.js';
import type { Capsule, Motion } from '../../src/agents/motion/motion.js';
import { nodeAt, poseAt } from '../../src/agents/motion/motion.js';
import type { BeamLine } from '../../src/geometry/beam-line.js';

export const GRID_S = 1e-4;
/** Nobody's toe is this fast: a toe swings at 3.75 times the walking speed, and nobody here walks above 2.5 m/s. */
export const FASTEST_MPS = 12;

/** How far the beam axis is from breaking at a time: below 0 it is broken. Metres. */
export type Margin = (time_s: number) => number;

/** @param clearance as the search takes it: how much further than touching a capsule of a radius breaks the beam */
export function marginOf(body: Body, motion: Motion, line: BeamLine, clearance: (radius_m: number) => number): Margin {
  return (time_s) => {
    const { stretch, node } = nodeAt(motion, time_s);
    let least = Infinity;
    for (const capsule of poseAt(body, stretch, node)) {
      const limit = capsule.radius + clearance(capsule.radius);
      if (limit > 0) least = Math.min(least, apart(capsule, line) - limit);
    }
    return least;
  };
}

/** Edges as the grid shows them: `times[i]` is the first grid point after edge i; even ones break, odd ones clear. */
export function steppedEdges(margin: Margin, until_s: number, fastest_mps = FASTEST_MPS): number[] {
  const edges: number[] = [];
  const last = Math.floor(until_s / GRID_S);
  let broken = false;
  let k = 0;
  while (k <= last) {
    const m = margin(k * GRID_S);
    if (m < 0 !== broken) {
      edges.push(k * GRID_S);
      broken = !broken;
    }
    k += Math.max(1, Math.floor(Math.abs(m) / (fastest_mps * GRID_S)));
  }
  if (broken) edges.push(until_s);
  return edges;
}

/** Distance from a capsule's axis to the line of light between emitter and receiver. */
function apart(c: Capsule, line: BeamLine): number {
  const { from, to } = line;
  return segmentsApart([c.x0, c.y0, c.z0], [c.x1, c.y1, c.z1], [from.x, from.y, from.z], [to.x, to.y, to.z]);
}

type Vec = readonly [number, number, number];

/**
 * Distance between two segments. The squared distance is a convex function of the places on both, so its least value
 * is where both slopes vanish, or on the rim of the square of places: an end of one against the whole of the other.
 */
export function segmentsApart(p0: Vec, p1: Vec, q0: Vec, q1: Vec): number {
  const u = minus(p1, p0);
  const v = minus(q1, q0);
  const w = minus(p0, q0);
  const uu = dot(u, u);
  const uv = dot(u, v);
  const vv = dot(v, v);
  const det = uu * vv - uv * uv;
  let best = Math.min(pointApart(p0, q0, q1), pointApart(p1, q0, q1), pointApart(q0, p0, p1), pointApart(q1, p0, p1));
  if (det > 1e-12 * uu * vv) {
    const s = (uv * dot(v, w) - vv * dot(u, w)) / det;
    const t = (uu * dot(v, w) - uv * dot(u, w)) / det;
    if (s >= 0 && s <= 1 && t >= 0 && t <= 1) best = Math.min(best, length(along(along(w, u, s), v, -t)));
  }
  return best;
}

function pointApart(p: Vec, a: Vec, b: Vec): number {
  const d = minus(b, a);
  const dd = dot(d, d);
  const t = dd === 0 ? 0 : Math.min(1, Math.max(0, dot(minus(p, a), d) / dd));
  return length(minus(p, along(a, d, t)));
}
function minus(a: Vec, b: Vec): Vec {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}
function along(a: Vec, d: Vec, t: number): Vec {
  return [a[0] + d[0] * t, a[1] + d[1] * t, a[2] + d[2] * t];
}
function dot(a: Vec, b: Vec): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
function length(a: Vec): number {
  return Math.sqrt(dot(a, a));
}
