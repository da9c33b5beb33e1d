/**
 * Things that swing about a fixed place: their motion is one stretch of whole capsules, laid out node by node, even in
 * time. Between nodes capsules move in straight lines, so nodes are as many as keep the chord near the arc.
 */
import type { Frame } from '../../geometry/beam-line.js';
import type { LimbTrack, PointTrack } from '../../geometry/track.js';
import { limbTrack, pointTrack } from '../../geometry/track.js';
import type { Stretch } from '../motion/motion.js';
import type { Passage } from '../motion/passage.js';

/** The door's own axes: l is x across from the left jamb, w is y along the walk. */
const DOOR: Frame = { x: 0, y: 0, cos: 1, sin: 0 };
/** Furthest a capsule's end is from its arc between two nodes, metres. */
const MOST_OFF_M = 5e-4;

/**
 * Nodes for a swing of a point at `radius_m` through `angle` radians, which at its fastest goes `quickest` times its mean
 * pace: the sagitta of a node's arc δ is R (1 − cos δ/2), less than R δ²/8.
 */
export function nodesFor(radius_m: number, angle: number, quickest: number): number {
  const widest = Math.sqrt((8 * MOST_OFF_M) / Math.max(radius_m, MOST_OFF_M));
  return Math.max(5, Math.ceil((quickest * angle) / widest) + 1);
}

/**
 * A passage of something that swings and crosses nothing.
 *
 * @param limbs how many capsules it has @param place writes both ends of capsule `limb` at time share t, metres, into a and b at node k
 */
export function swinging(
  limbs: number,
  nodes: number,
  duration_s: number,
  place: (limb: number, t: number, a: PointTrack, b: PointTrack, k: number) => void,
): Passage {
  const span = { nodes, advance: 0 };
  const made: (LimbTrack | undefined)[] = Array.from({ length: limbs }, () => undefined);
  const make = (limb: number): LimbTrack => {
    const [a, b] = [pointTrack(nodes), pointTrack(nodes)];
    for (let k = 0; k < nodes; k++) place(limb, k / (nodes - 1), a, b, k);
    return limbTrack(a, b, span);
  };
  const stretch: Stretch = {
    tracks: { span, made, part: (limb) => (made[limb] ??= make(limb)), heights: null },
    frame: DOOR,
    from: 0,
    to: nodes - 1,
    timeAt: (node) => (node / (nodes - 1)) * duration_s,
    nodeAt: (time) => (time / duration_s) * (nodes - 1),
    foresee: null,
    perLimb: true,
  };
  return { motion: [stretch], cross_s: null, leave_s: duration_s };
}
