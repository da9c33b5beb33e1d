/**
 * The exact edge search: when does a moving capsule come nearer to a beam line than a given distance?
 *
 * Distance changes by no more than the capsule's ends move. So from a node where the distance to the threshold is d,
 * the search may leap to the last node before which neither end has moved d; only cells that are crossed, or could
 * be, are looked into. One search serves walking and standing, level and tilted beams.
 *
 * Within one cell (about 9 mm of an adult's path; up to 44 ms of a turn on the spot) a pair of crossings is found when
 * the ends' movement allows it, by halving down to 1/64 of the cell; a pair closer together than that, or a third crossing
 * beside a found one, may be dropped.
 */
import type { FlatBeam } from './beam-line.js';
import { CELL, dipInCell, fromOrigin, rootInCell } from './cell.js';
import { addInterval } from './intervals.js';
import { AL, AW, AZ, BL, BW, BZ, RADIUS, SHADOWED } from './limbs.js';
import type { LimbTrack, NodeSpan } from './track.js';
import {
  AHEAD,
  EXTENT_A,
  EXTENT_B,
  FASTEST,
  L0,
  L1,
  MOVED,
  PACE,
  PER_PERIOD,
  SIDEWAYS,
  STRAYS,
  STRIDE,
  W0,
  W1,
  Z0,
  Z1,
} from './track.js';

/** Whether a level beam is above or below all that a limb ever reaches: most limbs, told without a look at their tracks. */
export function passesBy(
  heights: Float64Array,
  part: number,
  limbs: readonly number[],
  at: number,
  { v0, vz }: FlatBeam,
  threshold: number,
): boolean {
  const a = v0 + vz * limbs[at + AZ]!;
  const b = v0 + vz * limbs[at + BZ]!;
  const h = 4 * part;
  return (
    (a + heights[h]! > threshold && b + heights[h + 2]! > threshold) ||
    (a + heights[h + 1]! < -threshold && b + heights[h + 3]! < -threshold)
  );
}

/**
 * Adds the node intervals in which a limb, carried by `track`, is within its radius + `clearance` of the beam to `out`
 * (sorted, disjoint; what it covers already is not looked at again).
 *
 * @param limbs the numbers of {@link Limbs}; the limb's begin at `at`
 * @param from first node, an integer
 * @param to last node, an integer; of a motion that doesn't repeat, no more than its last
 */
export function scanLimb(
  track: LimbTrack,
  limbs: readonly number[],
  at: number,
  span: NodeSpan,
  beam: FlatBeam,
  clearance: number,
  from: number,
  to: number,
  out: number[],
): void {
  const threshold = limbs[at + RADIUS]! + clearance;
  if (!(threshold > 0)) return;
  const { ends, whole } = track;
  const { ul, uw, uz, vl, vz } = beam;
  const oal = limbs[at + AL]!;
  const oaw = limbs[at + AW]!;
  const oaz = limbs[at + AZ]!;
  const obl = limbs[at + BL]!;
  const obw = limbs[at + BW]!;
  const obz = limbs[at + BZ]!;
  const cav = beam.v0 + vl * oal + vz * oaz;
  const cbv = beam.v0 + vl * obl + vz * obz;
  // What can't reach the beam's height, or only later, or no more, is left out before any distance is taken. The height
  // has been asked by passesBy where all parts' heights are at hand; tracks that are made one by one are asked here.
  if (vl === 0) {
    if (cav + whole[EXTENT_A + Z0]! > threshold && cbv + whole[EXTENT_B + Z0]! > threshold) return;
    if (cav + whole[EXTENT_A + Z1]! < -threshold && cbv + whole[EXTENT_B + Z1]! < -threshold) return;
    if (limbs[at + SHADOWED] === 1 && ul === 0) return;
    // A trunk at mid-height: its cross-section simply walks through the beam.
    const perNode = (uw * span.advance) / span.nodes;
    if (
      cav + whole[EXTENT_A + Z1]! <= 0 &&
      cbv + whole[EXTENT_B + Z0]! >= 0 &&
      oal === obl &&
      oaw === obw &&
      Math.abs(ul) * whole[SIDEWAYS]! < perNode / 2
    ) {
      const c = beam.u0 + ul * oal + uw * oaw + uz * oaz;
      const start = Math.max(from, passes(track, span, ul, c + threshold, perNode));
      const end = Math.min(to, passes(track, span, ul, c - threshold, perNode));
      if (start < end) addInterval(out, start, end);
      return;
    }
  }
  const cau = beam.u0 + ul * oal + uw * oaw + uz * oaz;
  const cbu = beam.u0 + ul * obl + uw * obw + uz * obz;
  const uMax = Math.max(cau + top(whole, EXTENT_A, ul, uw, uz), cbu + top(whole, EXTENT_B, ul, uw, uz));
  const uMin = Math.min(cau - top(whole, EXTENT_A, -ul, -uw, -uz), cbu - top(whole, EXTENT_B, -ul, -uw, -uz));
  let first = from;
  let last = to;
  let mask = -1;
  let shift = 31;
  if (span.advance > 0) {
    const perUnit = span.nodes / (span.advance * uw);
    first = Math.max(first, Math.floor((-threshold - uMax) * perUnit));
    last = Math.min(last, Math.ceil((threshold - uMin) * perUnit));
    mask = span.nodes - 1;
    shift = 31 - Math.clz32(span.nodes);
  } else if (uMin > threshold || uMax < -threshold) return;
  if (first >= last) return;

  // From here on everything is a local: this loop is where a simulation spends its time.
  const perFastest = 1 / whole[FASTEST]!;
  const perPeriod = whole[PER_PERIOD]!;
  const uTurn = span.advance * uw;
  const past = uz === 0 ? threshold + (ul < 0 ? -ul : ul) * whole[STRAYS]! + PAST : Infinity;
  const found = FOUND;
  let f = 0;
  const covered = out.length;
  let c = 0;
  let start = NaN;
  // The node looked at last: its number, distance to the threshold (negative inside) and ends.
  let n = first;
  let d = 0;
  let au = 0;
  let av = 0;
  let bu = 0;
  let bv = 0;
  let moved = 0;
  let m = first;
  let afresh = true;
  for (;;) {
    const k = (m & mask) * STRIDE;
    const turn = m >> shift;
    const tu = turn * uTurn;
    const l0 = ends[k]!;
    const w0 = ends[k + 1]!;
    const z0 = ends[k + 2]!;
    const l1 = ends[k + 3]!;
    const w1 = ends[k + 4]!;
    const z1 = ends[k + 5]!;
    const nau = ul * l0 + uw * w0 + uz * z0 + cau + tu;
    const nav = vl * l0 + vz * z0 + cav;
    const nbu = ul * l1 + uw * w1 + uz * z1 + cbu + tu;
    const nbv = vl * l1 + vz * z1 + cbv;
    const movedBy = ends[k + MOVED]! + turn * perPeriod;
    const next = fromOrigin(nau, nav, nbu, nbv) - threshold;
    if (afresh) {
      start = next < 0 ? m : NaN;
      afresh = false;
    } else if (m === n + 1) {
      const crossed = next < 0 === (start !== start);
      const movement = movedBy - moved;
      if (crossed || (d < 0 ? -d : d) + (next < 0 ? -next : next) < movement) {
        CELL[0] = au;
        CELL[1] = av;
        CELL[2] = bu;
        CELL[3] = bv;
        CELL[4] = nau - au;
        CELL[5] = nav - av;
        CELL[6] = nbu - bu;
        CELL[7] = nbv - bv;
        CELL[8] = threshold;
        if (crossed) {
          const root = n + rootInCell(0, d, 1, next);
          if (start === start) {
            found[f++] = start;
            found[f++] = root;
            start = NaN;
          } else start = root;
        } else {
          const t = dipInCell(0, d, 1, next, movement);
          if (t >= 0) {
            // Both ends of the cell are on one side, this place in it on the other: two crossings.
            const g = start === start ? HARDLY : -HARDLY;
            const there = n + rootInCell(0, d, t, g);
            const back = n + rootInCell(t, g, 1, next);
            found[f++] = start === start ? start : there;
            found[f++] = start === start ? there : back;
            if (start === start) start = back;
          }
        }
      }
    }
    n = m;
    d = next;
    au = nau;
    av = nav;
    bu = nbu;
    bv = nbv;
    moved = movedBy;
    // What only walks forward and is past the beam is past it for good.
    if (n >= last || (au > past && bu > past)) break;

    // Path that another limb already covers needs no second look.
    while (c < covered && out[c + 1]! <= n) c += 2;
    if (c < covered && out[c]! <= n && out[c + 1]! >= n + 2) {
      if (start === start) {
        found[f++] = start;
        found[f++] = n;
      }
      m = Math.min(Math.floor(out[c + 1]!), last);
      afresh = true;
      continue;
    }
    const gap = d < 0 ? -d : d;
    const reach = gap * ends[(n & mask) * STRIDE + PACE]!;
    if (reach < 2) {
      // A branch of its own, which the processor foresees: it reads the next node while this one's distance is computed.
      m = n + 1;
      continue;
    }
    // At the limb's greatest speed, or at its greatest among the next cells, whichever leads further.
    const sure = (gap * perFastest) | 0;
    const likely = reach | 0;
    const near = likely < AHEAD ? likely : AHEAD;
    m = n + (sure > near ? sure : near);
    if (m > last) m = last;
  }
  if (start === start && last > start) {
    found[f++] = start;
    found[f++] = last;
  }
  for (let i = 0; i < f; i += 2) addInterval(out, found[i]!, found[i + 1]!);
}
/** Rounding of what stands still, over a period, model units. */
const PAST = 2e-4;
/** Found intervals of the limb at hand; kept, so that nothing is allocated per limb. */
const FOUND: number[] = [];
/** A distance with nothing but a sign. */
const HARDLY = 1e-12;

/** The node, real, at which an upright limb's axis passes: ul·l + perNode·n + c = 0. It moves on in every cell. */
function passes(track: LimbTrack, span: NodeSpan, ul: number, c: number, perNode: number): number {
  const { ends } = track;
  const mask = span.nodes - 1;
  // Sway moves the crossing by a node or so from where an even walk would have it.
  let n = Math.floor(-c / perNode);
  let u = ul * ends[(n & mask) * STRIDE]! + perNode * n + c;
  while (u > 0) {
    n--;
    u = ul * ends[(n & mask) * STRIDE]! + perNode * n + c;
  }
  for (;;) {
    const next = ul * ends[((n + 1) & mask) * STRIDE]! + perNode * (n + 1) + c;
    if (next > 0) return n - u / (next - u);
    u = next;
    n++;
  }
}

/** Greatest value of l·x + w·y + z·z over an extent. */
function top(whole: readonly number[], at: number, l: number, w: number, z: number): number {
  return l * whole[at + (l > 0 ? L1 : L0)]! + w * whole[at + (w > 0 ? W1 : W0)]! + z * whole[at + (z > 0 ? Z1 : Z0)]!;
}
