/**
 * Motion as the search knows it: capsule ends that move in straight lines between nodes.
 *
 * One parameter counts nodes: path length in a walk, time while standing. Between two nodes both ends of a capsule
 * move linearly; that *is* the model, not an approximation of it, and it is what makes the edge search exact.
 */

/** Positions of one point at the nodes: l to the walker's right, w forward, z up; model units. */
export interface PointTrack {
  readonly l: Float64Array;
  readonly w: Float64Array;
  readonly z: Float64Array;
}

/** Smallest box that holds a point over all nodes, with the steady advance of a walk taken out of w. */
export interface Extent {
  readonly l0: number;
  readonly l1: number;
  readonly w0: number;
  readonly w1: number;
  readonly z0: number;
  readonly z1: number;
}

/** Nodes of a motion: how many, and whether they repeat. */
export interface NodeSpan {
  /** Nodes of one period (a power of two) or of the whole motion when it doesn't repeat. */
  readonly nodes: number;
  /** How far w advances from one period to the next, model units; 0 for a motion that doesn't repeat. */
  readonly advance: number;
}

/** The two ends of a limb, with what the search needs to leap: how far either end has moved by each node. */
export interface LimbTrack {
  readonly a: PointTrack;
  readonly b: PointTrack;
  /** moved[k] = sum over the cells before node k of the larger movement of the two ends; length nodes + 1. */
  readonly moved: Float64Array;
  readonly aExtent: Extent;
  readonly bExtent: Extent;
}

/** A capsule of a body: which part of the motion carries it, constant offsets of both ends and a radius, model units. */
export interface Limb {
  /** Index of the part whose track carries this capsule. */
  readonly part: number;
  readonly al: number;
  readonly aw: number;
  readonly az: number;
  readonly bl: number;
  readonly bw: number;
  readonly bz: number;
  readonly radius: number;
  /** Differs from an earlier limb of the body only in l, so that a beam straight across sees one for both. */
  readonly shadowed: boolean;
}

/** A motion of a whole body: one track per part, all on the same nodes. */
export interface PoseTracks {
  readonly span: NodeSpan;
  part(index: number): LimbTrack;
}

/** Builds a limb's track from its ends. O(nodes). */
export function limbTrack(a: PointTrack, b: PointTrack, span: NodeSpan): LimbTrack {
  const moved = new Float64Array(span.nodes + 1);
  const last = span.advance === 0 ? span.nodes - 1 : span.nodes;
  for (let k = 0; k < last; k++) moved[k + 1] = moved[k]! + Math.max(movement(a, k, span), movement(b, k, span));
  if (last < span.nodes) moved[span.nodes] = moved[last]!;
  return { a, b, moved, aExtent: extentOf(a, span), bExtent: extentOf(b, span) };
}

function movement(p: PointTrack, k: number, span: NodeSpan): number {
  const next = k + 1 < span.nodes ? k + 1 : 0;
  const wrap = next === 0 ? span.advance : 0;
  const dl = p.l[next]! - p.l[k]!;
  const dw = p.w[next]! + wrap - p.w[k]!;
  const dz = p.z[next]! - p.z[k]!;
  return Math.sqrt(dl * dl + dw * dw + dz * dz);
}

function extentOf(p: PointTrack, span: NodeSpan): Extent {
  let l0 = Infinity,
    l1 = -Infinity,
    w0 = Infinity,
    w1 = -Infinity,
    z0 = Infinity,
    z1 = -Infinity;
  for (let k = 0; k < span.nodes; k++) {
    const w = p.w[k]! - (span.advance * k) / span.nodes;
    l0 = Math.min(l0, p.l[k]!);
    l1 = Math.max(l1, p.l[k]!);
    w0 = Math.min(w0, w);
    w1 = Math.max(w1, w);
    z0 = Math.min(z0, p.z[k]!);
    z1 = Math.max(z1, p.z[k]!);
  }
  return { l0, l1, w0, w1, z0, z1 };
}

/** Position of a point at a real node number, offsets left out. */
export function pointAt(p: PointTrack, node: number, span: NodeSpan): { l: number; w: number; z: number } {
  const n = Math.floor(node);
  const t = node - n;
  const at = (m: number) => {
    const turn = span.advance === 0 ? 0 : Math.floor(m / span.nodes);
    const k = span.advance === 0 ? Math.min(Math.max(m, 0), span.nodes - 1) : m - turn * span.nodes;
    return { l: p.l[k]!, w: p.w[k]! + turn * span.advance, z: p.z[k]! };
  };
  const c = at(n);
  if (t === 0) return c;
  const d = at(n + 1);
  return { l: c.l + (d.l - c.l) * t, w: c.w + (d.w - c.w) * t, z: c.z + (d.z - c.z) * t };
}
