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

/** A track of so many nodes, to be filled by {@link setPoint}. */
export function pointTrack(nodes: number): PointTrack {
  return { l: new Float64Array(nodes), w: new Float64Array(nodes), z: new Float64Array(nodes) };
}

export function setPoint(track: PointTrack, node: number, l: number, w: number, z: number): void {
  track.l[node] = l;
  track.w[node] = w;
  track.z[node] = z;
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

/**
 * Numbers per node in a limb's track: l, w, z of end a, l, w, z of end b, how far it has moved, and one over its
 * largest movement in a cell among the next {@link AHEAD}.
 */
export const STRIDE = 8;
export const MOVED = 6;
export const PACE = 7;
export const AHEAD = 16;

/**
 * The two ends of a limb, with what the search needs to leap: by each node, the sum over the cells before it of the
 * larger movement of the two ends.
 */
export interface LimbTrack {
  /**
   * {@link STRIDE} numbers a node, so that a look at a node touches one line of the processor's cache. In single
   * precision (a tenth of a micrometre): these rounded values are the model.
   */
  readonly ends: Float32Array;
  /**
   * What holds over all nodes, in one list, for as separate numbers they would lie scattered over the heap:
   * {@link PER_PERIOD}, {@link FASTEST}, {@link SIDEWAYS}, {@link STRAYS}, and from {@link EXTENT_A} and {@link EXTENT_B} on
   * the extents of both ends: l, w, z, each least and most.
   */
  readonly whole: readonly number[];
}

/** Movement over a whole period. */
export const PER_PERIOD = 0;
/** Largest movement in one cell. */
export const FASTEST = 1;
/**
 * Largest sideways movement in one cell of a limb that stays upright and walks on evenly: both ends ride on one point
 * whose w grows in proportion to the node. NaN for all others.
 */
export const SIDEWAYS = 2;
/**
 * How far a limb whose ends only ever walk forward strays sideways over a period: once past a beam by more than that, it
 * is past for good. NaN for a limb that also goes back, or doesn't repeat.
 */
export const STRAYS = 3;
export const EXTENT_A = 4;
export const EXTENT_B = 10;
/** Places in an extent. */
export const L0 = 0;
export const L1 = 1;
export const W0 = 2;
export const W1 = 3;
export const Z0 = 4;
export const Z1 = 5;

/** The extent of an end: that of a at {@link EXTENT_A}, that of b at {@link EXTENT_B}. */
export function extentOf({ whole }: LimbTrack, at: number): Extent {
  return {
    l0: whole[at + L0]!,
    l1: whole[at + L1]!,
    w0: whole[at + W0]!,
    w1: whole[at + W1]!,
    z0: whole[at + Z0]!,
    z1: whole[at + Z1]!,
  };
}

/** A motion of a whole body: one track per part, all on the same nodes. */
export interface PoseTracks {
  readonly span: NodeSpan;
  /** Tracks by part, where they are made already: looked up first, for it is quicker than asking. */
  readonly made: readonly (LimbTrack | undefined)[];
  part(index: number): LimbTrack;
  /**
   * By part, how low and how high end a ever is, and end b, in one place: whom a beam passes by is told from it, and their
   * tracks, far apart in memory, are not touched. Null where tracks are made one by one.
   */
  readonly heights: Float64Array | null;
}

/** The {@link PoseTracks.heights} of tracks that are all made. */
export function heightsOf(parts: readonly LimbTrack[]): Float64Array {
  return Float64Array.from(
    parts.flatMap(({ whole }) => [EXTENT_A, EXTENT_B].flatMap((at) => [whole[at + Z0]!, whole[at + Z1]!])),
  );
}

/** More than single precision takes an end off its place, model units: what foresees without a track keeps clear by it. */
export const TRACK_SPARE = 1e-5;
/** More than single precision can round a movement by, model units. */
const ROUNDING = 1e-6;

/** Builds a limb's track from its ends. O(nodes). */
export function limbTrack(a: PointTrack, b: PointTrack, span: NodeSpan): LimbTrack {
  const { nodes, advance } = span;
  const ends = new Float32Array(nodes * STRIDE);
  for (let k = 0; k < nodes; k++) {
    const at = k * STRIDE;
    ends[at] = a.l[k]!;
    ends[at + 1] = a.w[k]!;
    ends[at + 2] = a.z[k]!;
    ends[at + 3] = b.l[k]!;
    ends[at + 4] = b.w[k]!;
    ends[at + 5] = b.z[k]!;
  }
  let moved = 0;
  let fastest = ROUNDING;
  const cells = advance === 0 ? nodes - 1 : nodes;
  for (let k = 0; k < cells; k++) {
    ends[k * STRIDE + MOVED] = moved;
    const step = Math.max(movement(ends, k, 0, span), movement(ends, k, 3, span)) + ROUNDING;
    moved += step;
    if (step > fastest) fastest = step;
  }
  if (cells < nodes) ends[cells * STRIDE + MOVED] = moved;
  // A motion that repeats is searched by many bodies: worth a closer look at how fast it is where.
  if (advance > 0) lookAhead(ends, moved, span);
  else for (let k = 0; k < nodes; k++) ends[k * STRIDE + PACE] = (1 - ROUNDING) / fastest;
  const sideways = a === b ? sidewaysOf(ends, span) : NaN;
  const strays = straysOf(ends, span);
  return { ends, whole: [moved, fastest, sideways, strays, ...extent(ends, 0, span), ...extent(ends, 3, span)] };
}

function straysOf(ends: Float32Array, { nodes, advance }: NodeSpan): number {
  if (advance === 0) return NaN;
  let strays = 0;
  for (const end of [0, 3]) {
    let least = Infinity;
    let most = -Infinity;
    for (let k = 0; k < nodes; k++) {
      const at = k * STRIDE + end;
      const wraps = k + 1 === nodes;
      const next = wraps ? ends[end + 1]! + advance : ends[at + STRIDE + 1]!;
      // Standing feet stay where they are to within rounding.
      if (next < ends[at + 1]! - ROUNDING) return NaN;
      least = Math.min(least, ends[at]!);
      most = Math.max(most, ends[at]!);
    }
    strays = Math.max(strays, most - least);
  }
  return strays;
}

function sidewaysOf(ends: Float32Array, { nodes, advance }: NodeSpan): number {
  let most = 0;
  for (let k = 0; k < nodes; k++) {
    const at = k * STRIDE;
    if (advance === 0 || Math.abs(ends[at + 1]! - (advance * k) / nodes) > ROUNDING) return NaN;
    most = Math.max(most, Math.abs(ends[((k + 1) % nodes) * STRIDE]! - ends[at]!));
  }
  return most;
}

function lookAhead(ends: Float32Array, perPeriod: number, { nodes }: NodeSpan): void {
  const steps = new Float64Array(nodes + AHEAD);
  for (let k = 0; k < nodes; k++) {
    const next = k + 1 < nodes ? ends[(k + 1) * STRIDE + MOVED]! : ends[MOVED]! + perPeriod;
    steps[k] = next - ends[k * STRIDE + MOVED]!;
  }
  for (let k = 0; k < AHEAD; k++) steps[nodes + k] = steps[k % nodes]!;
  for (let k = 0; k < nodes; k++) {
    let largest = ROUNDING;
    for (let i = k; i < k + AHEAD; i++) if (steps[i]! > largest) largest = steps[i]!;
    // Rounded down, so that single precision never promises more than there is.
    ends[k * STRIDE + PACE] = (1 - ROUNDING) / (largest + ROUNDING);
  }
}

function movement(ends: Float32Array, k: number, end: number, span: NodeSpan): number {
  const next = k + 1 < span.nodes ? k + 1 : 0;
  const wrap = next === 0 ? span.advance : 0;
  const from = k * STRIDE + end;
  const to = next * STRIDE + end;
  const dl = ends[to]! - ends[from]!;
  const dw = ends[to + 1]! + wrap - ends[from + 1]!;
  const dz = ends[to + 2]! - ends[from + 2]!;
  return Math.sqrt(dl * dl + dw * dw + dz * dz);
}

function extent(ends: Float32Array, end: number, span: NodeSpan): number[] {
  let l0 = Infinity;
  let l1 = -Infinity;
  let w0 = Infinity;
  let w1 = -Infinity;
  let z0 = Infinity;
  let z1 = -Infinity;
  for (let k = 0; k < span.nodes; k++) {
    const l = ends[k * STRIDE + end]!;
    const w = ends[k * STRIDE + end + 1]! - (span.advance * k) / span.nodes;
    const z = ends[k * STRIDE + end + 2]!;
    if (l < l0) l0 = l;
    if (l > l1) l1 = l;
    if (w < w0) w0 = w;
    if (w > w1) w1 = w;
    if (z < z0) z0 = z;
    if (z > z1) z1 = z;
  }
  return [l0, l1, w0, w1, z0, z1];
}

/** Position of one end of a limb (0 for a, 1 for b) at a real node number, offsets left out. */
export function endAt(track: LimbTrack, end: 0 | 1, node: number, span: NodeSpan): { l: number; w: number; z: number } {
  const n = Math.floor(node);
  const t = node - n;
  const at = (m: number) => {
    const turn = span.advance === 0 ? 0 : Math.floor(m / span.nodes);
    const k = span.advance === 0 ? Math.min(Math.max(m, 0), span.nodes - 1) : m - turn * span.nodes;
    const i = k * STRIDE + 3 * end;
    return { l: track.ends[i]!, w: track.ends[i + 1]! + turn * span.advance, z: track.ends[i + 2]! };
  };
  const c = at(n);
  if (t === 0) return c;
  const d = at(n + 1);
  return { l: c.l + (d.l - c.l) * t, w: c.w + (d.w - c.w) * t, z: c.z + (d.z - c.z) * t };
}
