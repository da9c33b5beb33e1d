/**
 * The exact edge search: when does a moving capsule come nearer to a beam line than a given distance?
 *
 * Distance changes by no more than the capsule's ends move. So from a node where the distance to the threshold is d,
 * the search may leap to the last node before which neither end has moved d; only cells that are crossed, or could
 * be, are looked into. One search serves walking and standing, level and tilted beams.
 *
 * Within one cell (about 9 mm of an adult's path) a pair of crossings is found when the ends' movement allows it, by
 * halving down to 1/64 of the cell; a pair closer together than that, or a third crossing beside a found one, may be dropped.
 */
import type { FlatBeam } from './beam-line.js';
import { addInterval } from './intervals.js';
import type { Extent, Limb, LimbTrack, NodeSpan } from './track.js';

/** Width at which root refinement stops, in cells: an adult's cell lasts about 10 ms, so this is some 0.1 µs. */
const ROOT_WIDTH = 1e-5;
const SMALLEST_HALF = 1 / 64;

class LimbSearch {
  private al!: Float64Array;
  private aw!: Float64Array;
  private az!: Float64Array;
  private bl!: Float64Array;
  private bw!: Float64Array;
  private bz!: Float64Array;
  private ul = 0;
  private uw = 0;
  private uz = 0;
  private vl = 0;
  private vw = 0;
  private vz = 0;
  private cau = 0;
  private cav = 0;
  private cbu = 0;
  private cbv = 0;
  private threshold = 0;
  private mask = 0;
  private shift = 0;
  private uTurn = 0;
  private vTurn = 0;
  // The ends at the node looked at last.
  private au = 0;
  private av = 0;
  private bu = 0;
  private bv = 0;
  // The ends at the start of the cell looked into.
  private au0 = 0;
  private av0 = 0;
  private bu0 = 0;
  private bv0 = 0;

  /**
   * Adds the node intervals in which `limb`, carried by `track`, is within `radius + clearance` of the beam to `out`.
   *
   * @param from first node, an integer; @param to last node, an integer
   */
  scan(
    track: LimbTrack,
    limb: Limb,
    span: NodeSpan,
    beam: FlatBeam,
    clearance: number,
    from: number,
    to: number,
    out: number[],
  ): void {
    const threshold = limb.radius + clearance;
    if (!(threshold > 0)) return;
    if (limb.shadowed && beam.ul === 0 && beam.vl === 0) return;
    const cau = beam.u0 + beam.ul * limb.al + beam.uw * limb.aw + beam.uz * limb.az;
    const cbu = beam.u0 + beam.ul * limb.bl + beam.uw * limb.bw + beam.uz * limb.bz;
    const cav = beam.v0 + beam.vl * limb.al + beam.vw * limb.aw + beam.vz * limb.az;
    const cbv = beam.v0 + beam.vl * limb.bl + beam.vw * limb.bw + beam.vz * limb.bz;

    // What can't reach the beam's height, or only later, or no more, is left out before any distance is taken.
    const ea = track.aExtent;
    const eb = track.bExtent;
    if (beam.vw === 0 || span.advance === 0) {
      const vMax = Math.max(cav + top(ea, beam.vl, beam.vw, beam.vz), cbv + top(eb, beam.vl, beam.vw, beam.vz));
      const vMin = Math.min(cav - top(ea, -beam.vl, -beam.vw, -beam.vz), cbv - top(eb, -beam.vl, -beam.vw, -beam.vz));
      if (vMin > threshold || vMax < -threshold) return;
    }
    const uMax = Math.max(cau + top(ea, beam.ul, beam.uw, beam.uz), cbu + top(eb, beam.ul, beam.uw, beam.uz));
    const uMin = Math.min(cau - top(ea, -beam.ul, -beam.uw, -beam.uz), cbu - top(eb, -beam.ul, -beam.uw, -beam.uz));
    let first = from;
    let last = to;
    if (span.advance > 0) {
      const perUnit = span.nodes / (span.advance * beam.uw);
      first = Math.max(first, Math.floor((-threshold - uMax) * perUnit));
      last = Math.min(last, Math.ceil((threshold - uMin) * perUnit));
    } else if (uMin > threshold || uMax < -threshold) return;
    if (first >= last) return;

    this.al = track.a.l;
    this.aw = track.a.w;
    this.az = track.a.z;
    this.bl = track.b.l;
    this.bw = track.b.w;
    this.bz = track.b.z;
    this.ul = beam.ul;
    this.uw = beam.uw;
    this.uz = beam.uz;
    this.vl = beam.vl;
    this.vw = beam.vw;
    this.vz = beam.vz;
    this.cau = cau;
    this.cbu = cbu;
    this.cav = cav;
    this.cbv = cbv;
    this.threshold = threshold;
    if (span.advance > 0) {
      this.mask = span.nodes - 1;
      this.shift = 31 - Math.clz32(span.nodes);
      this.uTurn = span.advance * beam.uw;
      this.vTurn = span.advance * beam.vw;
    } else {
      this.mask = -1;
      this.shift = 31;
      this.uTurn = 0;
      this.vTurn = 0;
    }
    this.leap(track.moved, span.nodes, first, last, out);
  }

  private leap(moved: Float64Array, nodes: number, first: number, last: number, out: number[]): void {
    const mask = this.mask;
    const shift = this.shift;
    const perTurn = moved[nodes]!;
    const covered = out.length;
    let c = 0;
    let n = first;
    let d = this.distance(n);
    let start = d < 0 ? n : NaN;
    const found = FOUND;
    found.length = 0;
    while (n < last) {
      // Path that another limb already covers needs no second look.
      while (c < covered && out[c + 1]! <= n) c += 2;
      if (c < covered && out[c]! <= n && out[c + 1]! >= n + 2) {
        if (start === start) found.push(start, n);
        n = Math.min(Math.floor(out[c + 1]!), last);
        d = this.distance(n);
        start = d < 0 ? n : NaN;
        continue;
      }
      const slack = (d < 0 ? -d : d) + moved[n & mask]! + (n >> shift) * perTurn;
      let m = n;
      while (m < last && moved[(m + 1) & mask]! + ((m + 1) >> shift) * perTurn <= slack) m++;
      if (m > n) {
        n = m;
        d = this.distance(n);
        continue;
      }
      this.au0 = this.au;
      this.av0 = this.av;
      this.bu0 = this.bu;
      this.bv0 = this.bv;
      const next = this.distance(n + 1);
      const inside = start === start;
      if (next < 0 !== inside) {
        const root = n + this.root(0, d, 1, next);
        if (inside) {
          found.push(start, root);
          start = NaN;
        } else start = root;
      } else {
        const movement =
          moved[(n + 1) & mask]! + ((n + 1) >> shift) * perTurn - moved[n & mask]! - (n >> shift) * perTurn;
        if ((d < 0 ? -d : d) + (next < 0 ? -next : next) < movement)
          start = this.dip(n, d, next, movement, start, found);
      }
      n++;
      d = next;
    }
    if (start === start && last > start) found.push(start, last);
    for (let i = 0; i < found.length; i += 2) addInterval(out, found[i]!, found[i + 1]!);
  }

  /** Distance to the threshold at a node; negative inside. Leaves the ends in au, av, bu, bv. */
  private distance(n: number): number {
    const k = n & this.mask;
    const turn = n >> this.shift;
    const du = turn * this.uTurn;
    const dv = turn * this.vTurn;
    const al = this.al[k]!,
      aw = this.aw[k]!,
      az = this.az[k]!;
    const bl = this.bl[k]!,
      bw = this.bw[k]!,
      bz = this.bz[k]!;
    const au = this.ul * al + this.uw * aw + this.uz * az + this.cau + du;
    const av = this.vl * al + this.vw * aw + this.vz * az + this.cav + dv;
    const bu = this.ul * bl + this.uw * bw + this.uz * bz + this.cbu + du;
    const bv = this.vl * bl + this.vw * bw + this.vz * bz + this.cbv + dv;
    this.au = au;
    this.av = av;
    this.bu = bu;
    this.bv = bv;
    return fromOrigin(au, av, bu, bv) - this.threshold;
  }

  /** Distance to the threshold at fraction t of the cell between the remembered ends. */
  private within(t: number): number {
    return (
      fromOrigin(
        this.au0 + (this.au - this.au0) * t,
        this.av0 + (this.av - this.av0) * t,
        this.bu0 + (this.bu - this.bu0) * t,
        this.bv0 + (this.bv - this.bv0) * t,
      ) - this.threshold
    );
  }

  /** The crossing between fractions t0 and t1 of the cell, where g0 and g1 differ in sign: Illinois' false position. */
  private root(t0: number, g0: number, t1: number, g1: number): number {
    let side = 0;
    for (let i = 0; i < 60 && t1 - t0 > ROOT_WIDTH; i++) {
      const t = t0 + ((t1 - t0) * g0) / (g0 - g1);
      const g = this.within(t);
      if (g === 0) return t;
      if (g < 0 === g1 < 0) {
        // The far end hardly moves once the near one has converged: accept when the step is below the width.
        if (side === 1) {
          g0 /= 2;
          if (t1 - t < ROOT_WIDTH) return t;
        }
        t1 = t;
        g1 = g;
        side = 1;
      } else {
        if (side === -1) {
          g1 /= 2;
          if (t - t0 < ROOT_WIDTH) return t;
        }
        t0 = t;
        g0 = g;
        side = -1;
      }
    }
    return t0 + ((t1 - t0) * g0) / (g0 - g1);
  }

  /** Both ends of the cell are on one side, but the movement would allow a visit to the other: halve and look. */
  private dip(n: number, g0: number, g1: number, movement: number, start: number, found: number[]): number {
    const t = this.deepest(0, g0, 1, g1, movement);
    if (t < 0) return start;
    const g = this.within(t);
    const there = n + this.root(0, g0, t, g);
    const back = n + this.root(t, g, 1, g1);
    if (start === start) {
      found.push(start, there);
      return back;
    }
    found.push(there, back);
    return NaN;
  }

  /** A fraction of the cell on the other side of the threshold than its ends, or −1. */
  private deepest(t0: number, g0: number, t1: number, g1: number, movement: number): number {
    if (Math.abs(g0) + Math.abs(g1) >= movement) return -1;
    const t = (t0 + t1) / 2;
    const g = this.within(t);
    if (g < 0 !== g0 < 0) return t;
    if (t1 - t0 <= SMALLEST_HALF) return -1;
    const left = this.deepest(t0, g0, t, g, movement / 2);
    return left >= 0 ? left : this.deepest(t, g, t1, g1, movement / 2);
  }
}

const FOUND: number[] = [];
const SEARCH = new LimbSearch();

/** See {@link LimbSearch.scan}. One shared searcher: the core is single-threaded, and nothing is allocated per limb. */
export function scanLimb(
  track: LimbTrack,
  limb: Limb,
  span: NodeSpan,
  beam: FlatBeam,
  clearance: number,
  from: number,
  to: number,
  out: number[],
): void {
  SEARCH.scan(track, limb, span, beam, clearance, from, to, out);
}

/** Greatest value of l·x + w·y + z·z over an extent. */
function top(e: Extent, l: number, w: number, z: number): number {
  return (l > 0 ? l * e.l1 : l * e.l0) + (w > 0 ? w * e.w1 : w * e.w0) + (z > 0 ? z * e.z1 : z * e.z0);
}

/** Distance of the origin from the segment (au, av)–(bu, bv). */
export function fromOrigin(au: number, av: number, bu: number, bv: number): number {
  const du = bu - au;
  const dv = bv - av;
  const dot = -(au * du + av * dv);
  if (dot <= 0) return Math.sqrt(au * au + av * av);
  const length2 = du * du + dv * dv;
  if (dot >= length2) return Math.sqrt(bu * bu + bv * bv);
  const cross = au * dv - av * du;
  return (cross < 0 ? -cross : cross) / Math.sqrt(length2);
}
