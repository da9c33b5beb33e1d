/**
 * From a pet's walk to standing and back. No published curve stands behind these two; they join the walk to standing
 * without a jump. A paw that moves is lifted; a planted one stays.
 */
import type { Frame } from '../../geometry/beam-line.js';
import type { Body } from '../body.js';
import { NODES } from '../gait/gait-table.js';
import type { Stretch } from '../motion/motion.js';
import type { Windows } from './pose.js';
import { between, standingPose, walkingPose } from './pose.js';
import { gaitOf } from './table.js';
import { gaitKey, keptTracks, stretchOver } from './whole.js';

const STEPPING_NODES = 33;

/** The right hind paw has just landed: the forepaw of its side still swings, the others close up. */
const STOPPING: Windows = [[0, 0.45], [0.5, 1], null, [0.1, 0.6]];
/** The right hind paw stays until it is about to leave the floor. */
const STARTING: Windows = [[0.15, 0.5], [0.5, 1], null, [0.15, 0.75]];

/** Node of the right hind leg's cycle at which the walk out begins: where its paw leaves the floor. */
function firstNode(body: Body): number {
  return Math.floor(gaitOf(body.walks).duty * NODES);
}

/** How far the trunk goes while a pet comes to rest, metres. */
export function stoppingWay(body: Body): number {
  const { stride, duty } = gaitOf(body.walks);
  return (stride * duty * body.unit_m) / 2;
}

/** How far it goes until the pet walks again, metres. */
export function startingWay(body: Body): number {
  const { stride, duty } = gaitOf(body.walks);
  return stride * (firstNode(body) / NODES - duty / 2) * body.unit_m;
}

/** The node of the walk's table that the walk in ends with. */
export function lastStepNode(hindRight: boolean): number {
  return hindRight ? 0 : NODES / 2;
}

/** The node that the walk out begins with. */
export function firstStepNode(body: Body, hindRight: boolean): number {
  return firstNode(body) + (hindRight ? 0 : NODES / 2);
}

/** From the landing of a hind paw to standing: the trunk slows down evenly. The frame's origin is where it began. */
export function stop(body: Body, frame: Frame, hindRight: boolean, duration_s: number, start: number): Stretch {
  const tracks = keptTracks(`stop ${hindRight} ${gaitKey(body)}`, body, STEPPING_NODES, (t) => {
    const way = stoppingWay(body) / body.unit_m;
    const from = walkingPose(body, lastStepNode(hindRight) / NODES, 0);
    const windows = hindRight ? STOPPING : mirrored(STOPPING);
    return between(from, standingPose(body, way), way * t * (2 - t), windows, t);
  });
  return stretchOver(tracks, frame, duration_s, start);
}

/** From standing to the moment a hind paw leaves the floor: the trunk gathers speed evenly. */
export function setOut(body: Body, frame: Frame, hindRight: boolean, duration_s: number, start: number): Stretch {
  const tracks = keptTracks(`set out ${hindRight} ${gaitKey(body)}`, body, STEPPING_NODES, (t) => {
    const way = startingWay(body) / body.unit_m;
    const to = walkingPose(body, firstStepNode(body, hindRight) / NODES, way);
    const windows = hindRight ? STARTING : mirrored(STARTING);
    return between(standingPose(body), to, way * t * t, windows, t);
  });
  return stretchOver(tracks, frame, duration_s, start);
}

function mirrored([foreRight, foreLeft, hindRight, hindLeft]: Windows): Windows {
  return [foreLeft, foreRight, hindLeft, hindRight];
}
