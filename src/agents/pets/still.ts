/**
 * What a pet does between two walks: it stops, stands or sits, turns on the spot and sets out. No published curve
 * stands behind these; they join the walk to standing without a jump. A paw that moves is lifted; a planted one stays.
 */
import { DEG, PI, sin } from '../../engine/arithmetic.js';
import type { FlatBeam, Frame } from '../../geometry/beam-line.js';
import { fromOrigin } from '../../geometry/cell.js';
import type { Limb, LimbTrack } from '../../geometry/track.js';
import { limbTrack } from '../../geometry/track.js';
import type { Body } from '../body.js';
import { NODES, points, set } from '../gait/gait-table.js';
import type { Foresee, Stretch } from '../motion/motion.js';
import { PET_LIMB, SPECIES } from './build.js';
import { lifted, smooth } from './leg.js';
import type { Paw, PetPose } from './pose.js';
import { limbEnds, sittingPose, spun, standingPose, walkingPose } from './pose.js';
import { gaitOf } from './table.js';

const STEPPING_NODES = 33;
const SITTING_NODES = 33;
const TURNING_NODES = 129;
/** Of a wagging tail: the time between two nodes. */
const WAG_NODE_S = 0.0625;
/** Half turns are made in so many steps of each paw. */
const TURNING_STEPS = 4;

/** Shares of the time in which each leg moves, from and to, in the order fore right, fore left, hind right, hind left. */
type Windows = readonly (readonly [number, number] | null)[];
/** The right hind paw has just landed: the forepaw of its side still swings, the others close up. */
const STOPPING: Windows = [[0, 0.45], [0.5, 1], null, [0.1, 0.6]];
/** The right hind paw stays until it is about to leave the floor. */
const STARTING: Windows = [[0.15, 0.5], [0.5, 1], null, [0.15, 0.75]];
/** The hind paws step forward one after the other while the hindquarters go down. */
const SITTING: Windows = [null, null, [0, 0.5], [0.3, 0.8]];

/** Node of the right hind leg's cycle at which the walk out begins: where its paw leaves the floor. */
function firstNode(body: Body): number {
  return Math.floor(gaitOf(body.walks).duty * NODES);
}

/** How far the trunk goes while a pet comes to rest, or until it walks again: metres. */
export function stoppingWay(body: Body): number {
  const { stride, duty } = gaitOf(body.walks);
  return (stride * duty * body.unit_m) / 2;
}
export function startingWay(body: Body): number {
  const { stride, duty } = gaitOf(body.walks);
  return stride * (firstNode(body) / NODES - duty / 2) * body.unit_m;
}

/** Which node of the walk's table the walk in ends with, and the walk out begins with. */
export function lastStepNode(hindRight: boolean): number {
  return hindRight ? 0 : NODES / 2;
}
export function firstStepNode(body: Body, hindRight: boolean): number {
  return firstNode(body) + (hindRight ? 0 : NODES / 2);
}

/** From the landing of a hind paw to standing: the trunk slows down evenly. The frame's origin is where it began. */
export function stop(body: Body, frame: Frame, hindRight: boolean, duration_s: number, start: number): Stretch {
  const way = stoppingWay(body) / body.unit_m;
  const from = walkingPose(body, lastStepNode(hindRight) / NODES, 0);
  const to = standingPose(body, way);
  const windows = hindRight ? STOPPING : mirrored(STOPPING);
  return posed(body, frame, STEPPING_NODES, duration_s, start, (t) => between(from, to, way * t * (2 - t), windows, t));
}

/** From standing to the moment a hind paw leaves the floor: the trunk gathers speed evenly. */
export function setOut(body: Body, frame: Frame, hindRight: boolean, duration_s: number, start: number): Stretch {
  const way = startingWay(body) / body.unit_m;
  const from = standingPose(body);
  const to = walkingPose(body, firstStepNode(body, hindRight) / NODES, way);
  const windows = hindRight ? STARTING : mirrored(STARTING);
  return posed(body, frame, STEPPING_NODES, duration_s, start, (t) => between(from, to, way * t * t, windows, t));
}

/** Sits down, or stands up again. The forepaws stay. */
export function sitDown(body: Body, frame: Frame, down: boolean, duration_s: number, start: number): Stretch {
  const [standing, sitting] = [standingPose(body), sittingPose(body)];
  return posed(body, frame, SITTING_NODES, duration_s, start, (t) => {
    const gone = down ? t : 1 - t;
    return { ...between(standing, sitting, 0, SITTING, gone), sits: smooth(gone) };
  });
}

/** Stands or sits at the frame's origin, wagging. */
export function stay(body: Body, frame: Frame, sits: boolean, duration_s: number, start: number): Stretch {
  const { swing_deg, hertz } = SPECIES[gaitOf(body.walks).species].tail;
  const still = sits ? sittingPose(body) : standingPose(body);
  const nodes = Math.max(2, Math.ceil(duration_s / WAG_NODE_S) + 1);
  const wagging = (t: number): PetPose => {
    const time = t * duration_s;
    // Grows in over the first second and fades over the last.
    const grown = Math.max(0, Math.min(1, time, duration_s - time));
    return { ...still, tail: grown * swing_deg * DEG * sin(2 * PI * hertz * time) };
  };
  return posed(body, frame, nodes, duration_s, start, wagging, foreseeStill(body, still));
}

/**
 * Half a turn on the spot, to the right (1) or the left (−1): the trunk evenly, the paws one after the other. Whatever of
 * a long pet would swing into a jamb is drawn in sideways, as if it bent.
 */
export function turnRound(
  body: Body,
  frame: Frame,
  width_m: number,
  way: 1 | -1,
  duration_s: number,
  start: number,
): Stretch {
  const standing = standingPose(body);
  // Hind right, fore right, hind left, fore left: the order of the walk.
  const order = [1, 3, 0, 2];
  const turning = (t: number): PetPose => {
    const turned = way * PI * t;
    const step = Math.min(TURNING_STEPS - 1, Math.floor(t * TURNING_STEPS));
    const inStep = t * TURNING_STEPS - step;
    const paws = standing.paws.map((paw, i): Paw => {
      const u = Math.min(1, Math.max(0, inStep * 4 - (order[i] as number)));
      const at = (way * PI * (step + smooth(u))) / TURNING_STEPS;
      const seen = spun(paw, at - turned);
      return { l: seen.l, w: seen.w, z: paw.z + lifted(u) };
    });
    return { ...standing, turned, paws };
  };
  const drawnIn = (place: Paw, limb: number, t: number): Paw => {
    const leg = limb >= PET_LIMB.firstLeg && limb < PET_LIMB.tail;
    // Legs are between the jambs at both ends of the turn; nose and tail, far ahead and behind, need not be.
    const spare = leg ? 0 : Math.max(0, 1 - t / DRAWN_IN_BY, 1 - (1 - t) / DRAWN_IN_BY);
    const radius = (body.limbs[limb] as Limb).radius * body.unit_m;
    const x = frame.x + (place.l * frame.cos + place.w * frame.sin) * body.unit_m;
    const off = (Math.min(Math.max(x, radius - spare), width_m - radius + spare) - x) / body.unit_m;
    return off === 0 ? place : { l: place.l + off * frame.cos, w: place.w + off * frame.sin, z: place.z };
  };
  return posed(body, frame, TURNING_NODES, duration_s, start, turning, null, drawnIn);
}
/** Share of a turn by which a long pet is drawn in. */
const DRAWN_IN_BY = 0.15;

/** Between two poses that face the same way: the trunk at `w`, each paw that moves within its window. */
function between(from: PetPose, to: PetPose, w: number, windows: Windows, t: number): PetPose {
  const paws = from.paws.map((paw, i): Paw => {
    const goal = to.paws[i] as Paw;
    const window = windows[i];
    // What has nowhere to go stays to the last bit.
    if (!window) return paw;
    const u = Math.min(1, Math.max(0, (t - window[0]) / (window[1] - window[0])));
    const q = smooth(u);
    return { l: paw.l, w: paw.w + (goal.w - paw.w) * q, z: paw.z + (goal.z - paw.z) * q + lifted(u) };
  });
  return { w, sits: 0, turned: 0, paws, tail: from.tail + (to.tail - from.tail) * smooth(t) };
}

function mirrored([foreRight, foreLeft, hindRight, hindLeft]: Windows): Windows {
  return [foreLeft, foreRight, hindLeft, hindRight] as Windows;
}

/** A stretch whose poses are given by share of its time; whole limbs are tracked, each made when first asked for. */
function posed(
  body: Body,
  frame: Frame,
  nodes: number,
  duration_s: number,
  start: number,
  poseAt: (t: number) => PetPose,
  foresee: Foresee | null = null,
  fitted: (place: Paw, limb: number, t: number) => Paw = (place) => place,
): Stretch {
  const span = { nodes, advance: 0 };
  let poses: PetPose[] | undefined;
  const made: (LimbTrack | undefined)[] = [];
  const make = (index: number): LimbTrack => {
    poses ??= Array.from({ length: nodes }, (_, k) => poseAt(k / (nodes - 1)));
    const [one, other] = [points(nodes), points(nodes)];
    for (let k = 0; k < nodes; k++) {
      const ends = limbEnds(body, poses[k] as PetPose, index);
      const [a, b] = [fitted(ends.a, index, k / (nodes - 1)), fitted(ends.b, index, k / (nodes - 1))];
      set(one, k, a.l, a.w, a.z);
      set(other, k, b.l, b.w, b.z);
    }
    return limbTrack(one, other, span);
  };
  return {
    tracks: { span, made, part: (index) => (made[index] ??= make(index)) },
    frame,
    from: 0,
    to: nodes - 1,
    // In this order, so that the last node is at the next stretch’s start to the last bit.
    timeAt: (node) => start + duration_s * (node / (nodes - 1)),
    nodeAt: (time) => ((time - start) / duration_s) * (nodes - 1),
    foresee,
    perLimb: true,
  };
}

/** All but the tail stand still: in a beam all the time or never. */
function foreseeStill(body: Body, pose: PetPose): Foresee {
  return (limb: Limb, beam: FlatBeam, threshold: number) => {
    const index = body.limbs.indexOf(limb);
    if (index < 0 || index === PET_LIMB.tail) return 'look';
    const { a, b } = limbEnds(body, pose, index);
    const u = (p: Paw): number => beam.u0 + beam.ul * p.l + beam.uw * p.w + beam.uz * p.z;
    const v = (p: Paw): number => beam.v0 + beam.vl * p.l + beam.vw * p.w + beam.vz * p.z;
    const d = fromOrigin(u(a), v(a), u(b), v(b)) - threshold;
    return d > SPARE ? 'clear' : d < -SPARE ? 'broken' : 'look';
  };
}
/** Single precision of tracks, with room. */
const SPARE = 1e-5;
