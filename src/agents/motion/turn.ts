/**
 * Half a turn on the spot: the trunk turns evenly, the feet step round one after the other, lifted while they turn.
 * Whole limbs are tracked, since their offsets turn too.
 */
import { PI, cos, sin } from '../../engine/arithmetic.js';
import { hump, smoothstep } from '../../engine/interpolate.js';
import type { Frame } from '../../geometry/beam-line.js';
import type { Limb } from '../../geometry/limbs.js';
import type { LimbTrack, PointTrack } from '../../geometry/track.js';
import { limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import type { Body } from '../body.js';
import { TURN, TURN_STEPS } from '../figures/stillness.js';
import type { Stretch } from './motion.js';
import { foreseeTurning } from './foresee-turning.js';
import { standingEnds } from './stance.js';

const NODES = 33;
const LIFT = TURN.value.lift;

/** A turn over the right shoulder (`way` 1) or the left (−1), starting `start` seconds into the visit. */
export function turn(body: Body, frame: Frame, way: 1 | -1, duration_s: number, start: number): Stretch {
  const span = { nodes: NODES, advance: 0 };
  const spun = (p: PointTrack, l: number, w: number, z: number, share: number, right: boolean): PointTrack => {
    const { cos: c, sin: s, lift } = spinOf(share, right, way);
    for (let k = 0; k < NODES; k++) {
      setPoint(p, k, l * c[k]! + w * s[k]!, w * c[k]! - l * s[k]!, z + lift[k]!);
    }
    return p;
  };
  const made: (LimbTrack | undefined)[] = [];
  const make = (limb: Limb): LimbTrack => {
    const [a, b] = standingEnds(limb.part, body.elbow_deg);
    const right = limb.al > 0;
    return limbTrack(
      spun(END_A, limb.al, a.w + limb.aw, a.z + limb.az, a.turns, right),
      spun(END_B, limb.bl, b.w + limb.bw, b.z + limb.bz, b.turns, right),
      span,
    );
  };
  return {
    tracks: { span, made, part: (index) => (made[index] ??= make(body.limbs.at(index))), heights: null },
    frame,
    from: 0,
    to: NODES - 1,
    timeAt: (node) => start + (node / (NODES - 1)) * duration_s,
    nodeAt: (time) => ((time - start) / duration_s) * (NODES - 1),
    foresee: (limb, beam, threshold) => foreseeTurning(body.limbs.at(limb), beam, threshold, body.elbow_deg, LIFT),
    perLimb: true,
  };
}

/** Where both ends of a limb are put together before a track is made of them. */
const END_A = pointTrack(NODES);
const END_B = pointTrack(NODES);

interface Spin {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly lift: Float64Array;
}

/** A few spins serve everybody: a point goes wholly with the trunk, wholly with a foot, or half with each. */
const spins = new Map<string, Spin>();
function spinOf(share: number, right: boolean, way: 1 | -1): Spin {
  const key = share === 1 ? `${way}` : `${way} ${share} ${right}`;
  let spin = spins.get(key);
  if (!spin) spins.set(key, (spin = spinning(share, right, way)));
  return spin;
}

/** How far round a point is at each node that follows the trunk by `share` and its foot by the rest. */
function spinning(share: number, right: boolean, way: 1 | -1): Spin {
  const spin = { cos: new Float64Array(NODES), sin: new Float64Array(NODES), lift: new Float64Array(NODES) };
  for (let k = 0; k < NODES; k++) {
    const t = k / (NODES - 1);
    const trunk = smoothstep(t);
    const foot = footTurn(right === (way === 1) ? 1 : 0, t);
    const angle = way * PI * (share * trunk + (1 - share) * foot.turned);
    spin.cos[k] = cos(angle);
    spin.sin[k] = sin(angle);
    spin.lift[k] = (1 - share) * foot.lift;
  }
  return spin;
}

function footTurn(right: 0 | 1, t: number): { turned: number; lift: number } {
  let turned = 0;
  for (const move of TURN_STEPS.value) {
    if (move.right !== right) continue;
    if (t <= move.from) break;
    const u = Math.min(1, (t - move.from) / (move.to - move.from));
    const before = turned;
    turned = before + (move.turned - before) * u * u * (3 - 2 * u);
    if (u < 1) return { turned, lift: hump(LIFT, u) };
  }
  return { turned, lift: 0 };
}
