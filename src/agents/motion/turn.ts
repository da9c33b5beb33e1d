/**
 * Half a turn on the spot: the trunk turns evenly, the feet step round one after the other, lifted while they turn.
 * Whole limbs are tracked, since their offsets turn too.
 */
import { PI, cos, sin } from '../../engine/arithmetic.js';
import type { Frame } from '../../geometry/beam-line.js';
import type { Limb, LimbTrack, PointTrack } from '../../geometry/track.js';
import { limbTrack } from '../../geometry/track.js';
import type { Body } from '../body.js';
import { points, set } from '../gait/gait-table.js';
import type { Stretch } from './motion.js';
import { foreseeTurning } from './reach.js';
import { standingEnds } from './stance.js';

const NODES = 33;
const LIFT = 0.03;
/** When each foot turns, as shares of the turn, and how far round it is then: two moves a foot. */
const MOVES = {
  right: [
    { from: 0.05, to: 0.27, turned: 0.5 },
    { from: 0.5, to: 0.72, turned: 1 },
  ],
  left: [
    { from: 0.28, to: 0.49, turned: 0.7 },
    { from: 0.73, to: 0.97, turned: 1 },
  ],
} as const;

/** A turn over the right shoulder (`way` 1) or the left (−1), starting `start` seconds into the visit. */
export function turn(body: Body, frame: Frame, way: 1 | -1, duration_s: number, start: number): Stretch {
  const span = { nodes: NODES, advance: 0 };
  const angles = new Map<string, Spin>();
  const spinOf = (share: number, right: boolean): Spin => {
    const key = share === 1 ? 'trunk' : `${share} ${right}`;
    let spin = angles.get(key);
    if (!spin) {
      spin = spinning(share, right, way);
      angles.set(key, spin);
    }
    return spin;
  };
  const spun = (l: number, w: number, z: number, share: number, right: boolean): PointTrack => {
    const p = points(NODES);
    const { cos: c, sin: s, lift } = spinOf(share, right);
    for (let k = 0; k < NODES; k++) {
      set(p, k, l * c[k]! + w * s[k]!, w * c[k]! - l * s[k]!, z + lift[k]!);
    }
    return p;
  };
  const made: (LimbTrack | undefined)[] = [];
  const make = (limb: Limb): LimbTrack => {
    // What sways with the trunk turns with it, what stays with the foot turns with that.
    const [a, b] = standingEnds(limb.part, body.elbow_deg);
    const right = limb.al > 0;
    return limbTrack(
      spun(limb.al, a.w + limb.aw, a.z + limb.az, a.sways, right),
      spun(limb.bl, b.w + limb.bw, b.z + limb.bz, b.sways, right),
      span,
    );
  };
  return {
    tracks: { span, part: (index) => (made[index] ??= make(body.limbs[index] as Limb)) },
    frame,
    from: 0,
    to: NODES - 1,
    timeAt: (node) => start + (node / (NODES - 1)) * duration_s,
    perLimb: true,
    foresee: (limb, beam, threshold) => foreseeTurning(limb, beam, threshold, body.elbow_deg, LIFT),
  };
}

interface Spin {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly lift: Float64Array;
}

/** How far round a point is at each node that follows the trunk by `share` and its foot by the rest. */
function spinning(share: number, right: boolean, way: 1 | -1): Spin {
  const spin = { cos: new Float64Array(NODES), sin: new Float64Array(NODES), lift: new Float64Array(NODES) };
  for (let k = 0; k < NODES; k++) {
    const t = k / (NODES - 1);
    const trunk = t * t * (3 - 2 * t);
    const foot = footTurn(right === (way === 1) ? 'right' : 'left', t);
    const angle = way * PI * (share * trunk + (1 - share) * foot.turned);
    spin.cos[k] = cos(angle);
    spin.sin[k] = sin(angle);
    spin.lift[k] = (1 - share) * foot.lift;
  }
  return spin;
}

function footTurn(foot: 'right' | 'left', t: number): { turned: number; lift: number } {
  let turned = 0;
  for (const move of MOVES[foot]) {
    if (t <= move.from) break;
    const u = Math.min(1, (t - move.from) / (move.to - move.from));
    const before = turned;
    turned = before + (move.turned - before) * u * u * (3 - 2 * u);
    if (u < 1) return { turned, lift: LIFT * 16 * u * u * (1 - u) * (1 - u) };
  }
  return { turned, lift: 0 };
}
