/** Where every capsule of a body is at an instant: the way rangers look, and the quick one. */
import { AL, AW, AZ, BL, BW, BZ, LIMB, RADIUS } from '../../geometry/limbs.js';
import { STRIDE } from '../../geometry/track.js';
import type { Body } from '../body.js';
import type { Motion, Stretch } from './motion.js';

/** Numbers per capsule: ax, ay, az, bx, by, bz, radius; metres in the door's axes. */
const CAPSULE = 7;

/**
 * One visit, ready to be posed at any instant. What depends on body and stretch alone is laid out once in flat arrays:
 * a pose reads them some hundred times.
 */
export class Posed {
  /** How many capsules it has at most. */
  readonly limbs: number;
  /** Per stretch, the nodes' positions of each limb's part. */
  private readonly ends: (Float32Array[] | undefined)[];
  /** Per stretch: x, y, cos and sin of the frame, the latter two in metres a unit; first node. */
  private readonly frames: Float64Array;

  constructor(
    private readonly body: Body,
    private readonly motion: Motion,
  ) {
    const { limbs, unit_m } = body;
    this.limbs = limbs.count;
    this.ends = motion.map(() => undefined);
    this.frames = new Float64Array(5 * motion.length);
    for (let s = 0; s < motion.length; s++) {
      const { frame, from } = motion[s] as Stretch;
      this.frames.set([frame.x, frame.y, frame.cos * unit_m, frame.sin * unit_m, from], 5 * s);
    }
  }

  /**
   * Writes the capsules at `time_s` into `out`, from number `at` on. A pure function of visit and time, however it was
   * asked before.
   *
   * @param time_s seconds since the visit began; before its beginning or after its end the pose is that of the end
   * @param out large enough for {@link CAPSULE} numbers a limb
   * @param near start and end of the time in which each limb matters, as of near.ts: those outside are left out
   * @returns the number after the last written
   */
  into(time_s: number, out: Float64Array, at: number, near: Float64Array | null): number {
    const { frames, motion } = this;
    const { numbers } = this.body.limbs;
    let s = 0;
    let stretch = motion[0] as Stretch;
    while (s < motion.length - 1 && time_s > stretch.timeAt(stretch.to)) stretch = motion[++s] as Stretch;
    const ends = (this.ends[s] ??= this.endsOf(stretch));
    const { span } = stretch.tracks;
    const fx = frames[5 * s]!;
    const fy = frames[5 * s + 1]!;
    const cos = frames[5 * s + 2]!;
    const sin = frames[5 * s + 3]!;
    const wanted = stretch.nodeAt(time_s);
    const first = frames[5 * s + 4]!;
    const node = wanted < first ? first : wanted > stretch.to ? stretch.to : wanted;
    const n = Math.floor(node);
    const t = node - n;
    const own = stretch.perLimb ? 0 : 1;
    let k0: number;
    let k1: number;
    let turn0 = 0;
    let turn1 = 0;
    if (span.advance > 0) {
      k0 = (n & (span.nodes - 1)) * STRIDE;
      k1 = ((n + 1) & (span.nodes - 1)) * STRIDE;
      turn0 = Math.floor(n / span.nodes) * span.advance;
      turn1 = k1 === 0 ? turn0 + span.advance : turn0;
    } else {
      k0 = Math.min(n, span.nodes - 1) * STRIDE;
      k1 = Math.min(n + 1, span.nodes - 1) * STRIDE;
    }
    const u = 1 - t;
    const turn = turn0 * u + turn1 * t;
    const unit = this.body.unit_m;
    let o = at;
    for (let i = 0; i < ends.length; i++) {
      if (near !== null && (time_s < near[2 * i]! || time_s > near[2 * i + 1]!)) continue;
      const e = ends[i]!;
      const c = LIMB * i;
      const al = e[k0]! * u + e[k1]! * t + own * numbers[c + AL]!;
      const aw = e[k0 + 1]! * u + e[k1 + 1]! * t + turn + own * numbers[c + AW]!;
      const bl = e[k0 + 3]! * u + e[k1 + 3]! * t + own * numbers[c + BL]!;
      const bw = e[k0 + 4]! * u + e[k1 + 4]! * t + turn + own * numbers[c + BW]!;
      out[o] = fx + al * cos + aw * sin;
      out[o + 1] = fy + aw * cos - al * sin;
      out[o + 2] = (e[k0 + 2]! * u + e[k1 + 2]! * t + own * numbers[c + AZ]!) * unit;
      out[o + 3] = fx + bl * cos + bw * sin;
      out[o + 4] = fy + bw * cos - bl * sin;
      out[o + 5] = (e[k0 + 5]! * u + e[k1 + 5]! * t + own * numbers[c + BZ]!) * unit;
      out[o + 6] = numbers[c + RADIUS]! * unit;
      o += CAPSULE;
    }
    return o;
  }

  private endsOf({ tracks, perLimb }: Stretch): Float32Array[] {
    const { limbs } = this.body;
    return Array.from({ length: limbs.count }, (_, i) => {
      const part = perLimb ? i : limbs.partOf(i);
      return (tracks.made[part] ?? tracks.part(part)).ends;
    });
  }
}
