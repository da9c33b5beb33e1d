/**
 * Reaching through: somebody stops short of the opening, stretches an arm through it, takes it back, turns and leaves.
 *
 * The feet stand and the trunk is still while the arm moves; only the arm goes through. It is raised forward from where
 * it hangs, straightening as it comes up, and lowered the same way.
 */
import { DEG } from '../../engine/arithmetic.js';
import { lognormal, uniform } from '../../engine/distributions.js';
import { smoothstep } from '../../engine/interpolate.js';
import type { Stream } from '../../engine/stream.js';
import type { Frame } from '../../geometry/beam-line.js';
import type { LimbTrack, PoseTracks } from '../../geometry/track.js';
import { limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import type { Body } from '../body.js';
import { REACH, REACH_DEPTH, REACH_HOLD } from '../figures/stillness.js';
import { armPose } from '../gait/arm-model.js';
import { classElbow } from '../gait/gait-table.js';
import { PART } from '../gait/parts.js';
import type { Stretch } from './motion.js';
import type { Opening, Passage } from './passage.js';
import { pausing, turnBack } from './passage.js';
import { STANCE, standingEnds } from './stance.js';

const NODES = 33;
/** Draws of the reach's own stream. */
const DRAW = { hand: 0, hold: 1, height: 2, beyond: 3 } as const;
/** Its number among the streams of a visit; swaying has 1 (passage.ts). */
const REACH_STREAM = 2;

/** Which arm, how high and how long. A pure function of the stream. */
interface Reach {
  readonly right: boolean;
  /** How far the shoulder is swung forward from hanging, degrees: 90 is level. */
  readonly raised_deg: number;
  readonly hold_s: number;
}

/** An arm that holds something can't be stretched: then the other one is; null where both do. */
function reachOf(body: Body, chance: Stream): Reach | null {
  const free = (part: number): boolean => body.limbs.list().some((limb) => limb.part === part);
  const [right, left] = [free(PART.forearmR), free(PART.forearmL)];
  if (!right && !left) return null;
  return {
    right: right && (!left || chance.at(DRAW.hand) < REACH.value.right_share),
    raised_deg: uniform(chance.at(DRAW.height), REACH.value.lowest_deg, REACH.value.highest_deg),
    hold_s: lognormal(chance.at(DRAW.hold), REACH_HOLD.value.median, REACH_HOLD.value.sigma),
  };
}

/** Arm up, held, and down again, starting `start` seconds into the visit at the frame's origin; the body stands still. */
function reaching(body: Body, frame: Frame, reach: Reach, start: number): Stretch[] {
  const { swing_s } = REACH.value;
  const up = swing(body, reach, false);
  const away = start + swing_s + reach.hold_s;
  return [
    spanOf(up, frame, 0, NODES - 1, start, swing_s),
    spanOf(held(body, reach), frame, 0, 1, start + swing_s, reach.hold_s),
    spanOf(swing(body, reach, true), frame, 0, NODES - 1, away, swing_s),
  ];
}

/** A stretch whose nodes are even in time. */
function spanOf(
  tracks: PoseTracks,
  frame: Frame,
  from: number,
  to: number,
  start: number,
  duration_s: number,
): Stretch {
  return {
    tracks,
    frame,
    from,
    to,
    timeAt: (node) => start + ((node - from) / (to - from)) * duration_s,
    nodeAt: (time) => from + ((time - start) / duration_s) * (to - from),
    foresee: null,
    perLimb: false,
  };
}

function swing(body: Body, reach: Reach, down: boolean): PoseTracks {
  return armTracks(body, reach, NODES, (k) => {
    const t = k / (NODES - 1);
    const raised = smoothstep(t);
    return down ? 1 - raised : raised;
  });
}

function held(body: Body, reach: Reach): PoseTracks {
  return armTracks(body, reach, 2, () => 1);
}

/** Tracks of somebody standing whose one arm is raised by a share at each node: everything else stays where it is. */
function armTracks(body: Body, reach: Reach, nodes: number, raised: (node: number) => number): PoseTracks {
  const span = { nodes, advance: 0 };
  const made: (LimbTrack | undefined)[] = [];
  const upper = reach.right ? PART.upperArmR : PART.upperArmL;
  const fore = reach.right ? PART.forearmR : PART.forearmL;
  const bent = classElbow(body.elbow_deg) * DEG;
  const make = (part: number): LimbTrack => {
    const [a, b] = [pointTrack(nodes), pointTrack(nodes)];
    if (part !== upper && part !== fore) {
      const [p, q] = standingEnds(part, body.elbow_deg);
      for (let k = 0; k < nodes; k++) {
        setPoint(a, k, 0, p.w, p.z);
        setPoint(b, k, 0, q.w, q.z);
      }
      return limbTrack(a, b, span);
    }
    const { w, z } = STANCE.hip;
    for (let k = 0; k < nodes; k++) {
      const share = raised(k);
      const elbow = bent + (REACH.value.elbow_deg * DEG - bent) * share;
      const arm = armPose(reach.raised_deg * DEG * share, elbow);
      if (part === upper) setPoint(a, k, 0, w, z);
      else setPoint(a, k, 0, w + arm.elbowW, z + arm.elbowZ);
      if (part === upper) setPoint(b, k, 0, w + arm.elbowW, z + arm.elbowZ);
      else setPoint(b, k, 0, w + arm.handW, z + arm.handZ);
    }
    return limbTrack(a, b, span);
  };
  return { span, made, part: (index) => (made[index] ??= make(index)), heights: null };
}

/** How far the middle of a stretched hand is from the trunk axis, metres. */
function armsLength(body: Body, { raised_deg }: Reach): number {
  return armPose(raised_deg * DEG, REACH.value.elbow_deg * DEG).handW * body.unit_m;
}

/**
 * Walks up, stops so far before the door plane that a stretched hand goes through it, reaches, turns and walks out where
 * it came from. Whose hands are full only turns back.
 */
export function reachThrough(body: Body, opening: Opening, backward: boolean, chance: Stream): Passage {
  const own = chance.nth(REACH_STREAM);
  const reach = reachOf(body, own);
  if (!reach) return turnBack(body, opening, backward, chance);
  const { least_beyond, most_beyond, nearest } = REACH_DEPTH.value;
  const beyond = uniform(own.at(DRAW.beyond), least_beyond, most_beyond);
  const depth_m = Math.min(-nearest, beyond - armsLength(body, reach));
  return pausing(body, opening, backward, chance, depth_m, true, {
    duration_s: 2 * REACH.value.swing_s + reach.hold_s,
    stretches: (frame, start) => reaching(body, frame, reach, start),
  });
}
