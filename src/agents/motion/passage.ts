/**
 * Passages: what a body does from entering the doorway zone to leaving it, and what is true of it.
 *
 * All times are seconds since the visit began. What chance decides of it is drawn in drawn.ts.
 */
import { DEG, sin } from '../../engine/arithmetic.js';
import type { Stream } from '../../engine/stream.js';
import type { Frame } from '../../geometry/beam-line.js';
import { moved, turnedRound } from '../../geometry/beam-line.js';
import { AL, AW, BL, BW, LIMB, RADIUS } from '../../geometry/limbs.js';
import type { Body } from '../body.js';
import { LONGEST_REACH } from '../figures/legs.js';
import { HEADING, TURN } from '../figures/stillness.js';
import { NODES } from '../gait/gait-table.js';
import type { Stop } from './drawn.js';
import { DRAW, frameOf, lingeringStop, paceOf, turningStop } from './drawn.js';
import type { HalfStep } from './half-step.js';
import { HALF_STEP_NODES, halfStep, halfStepTravel } from './half-step.js';
import type { Motion, Stretch } from './motion.js';
import { stand } from './stand.js';
import { turn } from './turn.js';
import type { Pace } from './walk.js';
import { nodesOver, speedAt, timeTo, walk } from './walk.js';

export interface Passage {
  readonly motion: Motion;
  /** Last pass of the trunk axis through the door plane; null when the body leaves where it came from. */
  readonly cross_s: number | null;
  readonly leave_s: number;
}

export interface Opening {
  readonly width_m: number;
  readonly zone_m: number;
}

/** Sine of the largest angle a walker goes at. */
const MOST_ASLANT = sin(3 * HEADING.value * DEG);

/**
 * From where to where along the walk a visit lasts, metres on either side of the door plane: the zone, and for a body
 * that reaches further from its trunk axis than the zone allows for (a pram pushed ahead, a case pulled behind) as much more as
 * it reaches further, at whatever angle it goes. So nothing of it touches a beam outside its visit.
 */
export function visitHalf(body: Body, { zone_m }: Opening): number {
  let reach = 0;
  const { numbers } = body.limbs;
  for (let at = 0; at < numbers.length; at += LIMB) {
    const a = Math.abs(numbers[at + AW]!) + MOST_ASLANT * Math.abs(numbers[at + AL]!);
    const b = Math.abs(numbers[at + BW]!) + MOST_ASLANT * Math.abs(numbers[at + BL]!);
    reach = Math.max(reach, Math.max(a, b) + numbers[at + RADIUS]!);
  }
  return zone_m + Math.max(0, reach * body.unit_m - LONGEST_REACH.value);
}

/** Straight through, from one end of the zone to the other. `x_m` sets the place across the opening (abreast). */
export function through(body: Body, opening: Opening, backward: boolean, chance: Stream, x_m?: number): Passage {
  const frame = frameOf(body, opening, backward, chance, x_m);
  const pace = paceOf(body, visitHalf(body, opening), chance);
  const reach = pace.half_m / Math.abs(frame.cos);
  const phase = NODES * chance.at(DRAW.phase);
  const stretch = walk(body, frame, -reach, reach, phase, pace, 0);
  return { motion: [stretch], cross_s: -timeTo(pace, -reach), leave_s: stretch.timeAt(stretch.to) };
}

/** Walks in, stands, turns on the spot and walks out where it came from. */
export function turnBack(body: Body, opening: Opening, backward: boolean, chance: Stream): Passage {
  return standingAt(turningStop(chance), body, opening, backward, chance);
}

/** Walks in, stands in the doorway for a while, then goes on; some go back instead. */
export function linger(body: Body, opening: Opening, backward: boolean, chance: Stream): Passage {
  return standingAt(lingeringStop(chance), body, opening, backward, chance);
}

function standingAt(
  { depth_m, pause_s, back }: Stop,
  body: Body,
  opening: Opening,
  backward: boolean,
  chance: Stream,
): Passage {
  return pausing(body, opening, backward, chance, depth_m, back, standing(body, pause_s, chance));
}

/** What somebody does where they stop: it begins and ends with standing still. */
interface Stay {
  readonly duration_s: number;
  /** The stretches of it at a place, from so many seconds into the visit on. */
  stretches(frame: Frame, start: number): Stretch[];
}

function standing(body: Body, duration_s: number, chance: Stream): Stay {
  return { duration_s, stretches: (frame, start) => [stand(body, frame, duration_s, start, chance.nth(1))] };
}

/**
 * Walks in, stops `depth_m` beyond the door plane (before it where negative), stays, and goes on, or turns and goes back.
 */
export function pausing(
  body: Body,
  opening: Opening,
  backward: boolean,
  chance: Stream,
  depth_m: number,
  back: boolean,
  stay: Stay,
): Passage {
  const frame = frameOf(body, opening, backward, chance);
  const pace = paceOf(body, visitHalf(body, opening), chance);
  const reach = pace.half_m / Math.abs(frame.cos);
  const motion: Stretch[] = [];
  const leading = chance.at(DRAW.foot) < 0.5 ? 'right' : 'left';

  // In: the walk ends with a contact of the leading foot, a closing step before the place to stand.
  const closing = halfStepTravel('closing', body.step) * body.unit_m;
  const contact = Math.max(depth_m - closing, -reach + 0.01);
  const stop = contact + closing;
  const contactNode = leading === 'right' ? 0 : NODES / 2;
  const walkIn = walk(
    body,
    frame,
    -reach,
    contact,
    contactNode - nodesOver(body, contact + reach) + 4 * NODES,
    pace,
    0,
  );
  motion.push(walkIn);
  const closingAt = walkIn.timeAt(walkIn.to);
  let now = pushHalfStep(motion, body, moved(frame, contact), 'closing', leading, speedAt(pace, contact), closingAt);

  const standAt = now;
  motion.push(...stay.stretches(moved(frame, stop), now));
  now += stay.duration_s;
  let out = moved(frame, stop);
  let left = reach - stop;
  if (back) {
    const way = chance.at(DRAW.way) < 0.5 ? 1 : -1;
    motion.push(turn(body, out, way, TURN.value.duration_s, now));
    now += TURN.value.duration_s;
    out = turnedRound(out);
    left = reach + stop;
  }

  // Out: a first step, then the walk from the leading foot's contact on.
  const first = halfStepTravel('first', body.step) * body.unit_m;
  const outPace: Pace = { speed_mps: pace.speed_mps, tilt: pace.tilt, dip: pace.dip, half_m: Math.max(left, 0.5) };
  const firstAt = now;
  now = pushHalfStep(motion, body, out, 'first', leading, speedAt(outPace, 0), now);
  const walkOut = walk(body, moved(out, first), 0, Math.max(0.01, left - first), contactNode + 4 * NODES, outPace, now);
  motion.push(walkOut);
  const leave_s = walkOut.timeAt(walkOut.to);

  // The trunk axis is the mean hip's way; sway, under a centimetre, is not counted as a pass.
  const crossed = (): number => {
    if (contact >= 0) return timeTo(pace, 0) - timeTo(pace, -reach);
    if (stop >= 0) return closingAt + (standAt - closingAt) * (1 - Math.sqrt(1 + contact / closing));
    if (stop + first >= 0) return firstAt + (now - firstAt) * Math.sqrt(-stop / first);
    return now + timeTo(outPace, -stop - first) - timeTo(outPace, 0);
  };
  return { motion, cross_s: back ? null : crossed(), leave_s };
}

/** A half step takes as long as an even change between standing and `speed_mps` does. */
function pushHalfStep(
  motion: Stretch[],
  body: Body,
  frame: Frame,
  kind: HalfStep,
  leading: 'right' | 'left',
  speed_mps: number,
  start: number,
): number {
  const duration = (2 * halfStepTravel(kind, body.step) * body.unit_m) / speed_mps;
  motion.push({
    tracks: halfStep(kind, body.step, body.elbow_deg, leading),
    frame,
    from: 0,
    to: HALF_STEP_NODES - 1,
    timeAt: (node) => start + (duration * node) / (HALF_STEP_NODES - 1),
    nodeAt: (time) => ((time - start) / duration) * (HALF_STEP_NODES - 1),
    foresee: null,
    perLimb: false,
  });
  return start + duration;
}
