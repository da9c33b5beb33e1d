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
import type { Joint } from '../gait/leg-model.js';
import { PART } from '../gait/parts.js';
import type { Stretch } from './motion.js';
import { STANCE, hangingArm } from './stance.js';

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
  const arm = hangingArm(body.elbow_deg);
  const elbow: Joint = { w: STANCE.hip.w + arm.elbowW, z: STANCE.hip.z + arm.elbowZ };
  const hand: Joint = { w: STANCE.hip.w + arm.handW, z: STANCE.hip.z + arm.handZ };
  const spun = (l: number, w: number, z: number, share: number, right: boolean): PointTrack => {
    const p = points(NODES);
    for (let k = 0; k < NODES; k++) {
      const t = k / (NODES - 1);
      const trunk = t * t * (3 - 2 * t);
      const foot = footTurn(right === (way === 1) ? 'right' : 'left', t);
      const angle = way * PI * (share * trunk + (1 - share) * foot.turned);
      const c = cos(angle);
      const s = sin(angle);
      set(p, k, l * c + w * s, w * c - l * s, z + (1 - share) * foot.lift);
    }
    return p;
  };
  const made: (LimbTrack | undefined)[] = [];
  const make = (limb: Limb): LimbTrack => {
    const [a, shareA, b, shareB] = endsOf(limb.part, elbow, hand);
    const right = limb.al > 0;
    return limbTrack(
      spun(limb.al, a.w + limb.aw, a.z + limb.az, shareA, right),
      spun(limb.bl, b.w + limb.bw, b.z + limb.bz, shareB, right),
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
  };
}

/** Standing joints of a part's two ends, and how much each follows the trunk (1) or the foot (0). */
function endsOf(part: number, elbow: Joint, hand: Joint): [Joint, number, Joint, number] {
  switch (part) {
    case PART.trunk:
      return [STANCE.hip, 1, STANCE.hip, 1];
    case PART.thighR:
    case PART.thighL:
      return [STANCE.hip, 1, STANCE.knee, 0.5];
    case PART.shankR:
    case PART.shankL:
      return [STANCE.knee, 0.5, STANCE.ankle, 0];
    case PART.footR:
    case PART.footL:
      return [STANCE.heel, 0, STANCE.toe, 0];
    case PART.upperArmR:
    case PART.upperArmL:
      return [STANCE.hip, 1, elbow, 1];
    default:
      return [elbow, 1, hand, 1];
  }
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
