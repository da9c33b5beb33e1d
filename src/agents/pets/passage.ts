/**
 * Passages of pets: through, turning back, lingering, which for a pet is to sit down in the doorway.
 *
 * As with people, all times are seconds since the visit began, and each purpose has its own numbered draw of the
 * visit's stream. A visit begins and ends where no part of a long dog reaches a beam that a person couldn't reach.
 */
import { DEG } from '../../engine/arithmetic.js';
import { lognormal, standardWithin3, uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import type { Frame } from '../../geometry/beam-line.js';
import { frameAt } from '../../geometry/beam-line.js';
import type { Body } from '../body.js';
import { LONGEST_REACH } from '../figures/legs.js';
import { BESIDE, LINGER } from '../figures/manner.js';
import { PET_STILL } from '../figures/pets.js';
import {
  HEADING,
  LINGER_DEPTH,
  LINGER_RETURNS,
  PACE_CHANGE,
  SIDEWAYS,
  TURN_BACK_DEPTH,
  TURN_BACK_PAUSE,
} from '../figures/stillness.js';
import { NODES } from '../gait/gait-table.js';
import type { Stretch } from '../motion/motion.js';
import type { Opening, Passage } from '../motion/passage.js';
import type { Pace } from '../motion/walk.js';
import { nodesOver, speedAt, timeTo, walk } from '../motion/walk.js';
import { petReach } from './body.js';
import { sitDown, stay } from './sit.js';
import { firstStepNode, lastStepNode, setOut, startingWay, stop, stoppingWay } from './steps.js';
import { turnRound } from './turn-round.js';

/** Draws of a pet's visit by purpose. Never renumber: only add. */
const DRAW = {
  sideways: 0,
  heading: 1,
  phase: 2,
  tilt: 3,
  dip: 4,
  depth: 5,
  pause: 6,
  way: 7,
  returns: 8,
  paw: 9,
} as const;

/** Origin where the pet's line crosses the door plane; backward is the same picture turned half round. */
function frameOf(body: Body, opening: Opening, backward: boolean, chance: Stream): Frame {
  const { width_m } = opening;
  const half = Math.min(width_m / 2, body.breadth_m / 2 + BESIDE.value);
  const drawn = width_m * (0.5 + SIDEWAYS.value * standardWithin3(chance.at(DRAW.sideways)));
  const x = Math.min(width_m - half, Math.max(half, drawn));
  const ahead = frameAt(x, 0, HEADING.value * DEG * standardWithin3(chance.at(DRAW.heading)));
  return backward ? { x: width_m - x, y: 0, cos: -ahead.cos, sin: -ahead.sin } : ahead;
}

/** How far from the door plane a visit begins and ends, along the walk. */
function reachOf(body: Body, opening: Opening, frame: Frame): number {
  return (opening.zone_m + Math.max(0, petReach(body) - LONGEST_REACH.value)) / Math.abs(frame.cos);
}

function paceOf(body: Body, reach_m: number, chance: Stream): Pace {
  const { tilt_sd, dip_low, dip_high } = PACE_CHANGE.value;
  return {
    speed_mps: body.speed_mps,
    tilt: tilt_sd * standardWithin3(chance.at(DRAW.tilt)),
    dip: uniform(chance.at(DRAW.dip), dip_low, dip_high),
    half_m: reach_m,
  };
}

/** Straight through. `body` is of {@link petBody}. */
export function petThrough(body: Body, opening: Opening, backward: boolean, chance: Stream): Passage {
  const frame = frameOf(body, opening, backward, chance);
  const reach = reachOf(body, opening, frame);
  const pace = paceOf(body, reach, chance);
  const stretch = walk(body, frame, -reach, reach, NODES * chance.at(DRAW.phase), pace, 0);
  return { motion: [stretch], cross_s: -timeTo(pace, -reach), leave_s: stretch.timeAt(stretch.to) };
}

/** Walks in, stands, turns on the spot and walks out where it came from. */
export function petTurnBack(body: Body, opening: Opening, backward: boolean, chance: Stream): Passage {
  const { low, high } = TURN_BACK_DEPTH.value;
  const pause = uniform(chance.at(DRAW.pause), TURN_BACK_PAUSE.value.low, TURN_BACK_PAUSE.value.high);
  return pausing(body, opening, backward, chance, uniform(chance.at(DRAW.depth), low, high), pause, true, false);
}

/** Walks in, sits down in the doorway for a while, stands up and goes on; some go back instead. */
export function petLinger(body: Body, opening: Opening, backward: boolean, chance: Stream): Passage {
  const { low, high } = LINGER_DEPTH.value;
  const sitting = lognormal(chance.at(DRAW.pause), LINGER.value.median, LINGER.value.sigma);
  const back = chance.at(DRAW.returns) < LINGER_RETURNS.value;
  return pausing(body, opening, backward, chance, uniform(chance.at(DRAW.depth), low, high), sitting, back, true);
}

function pausing(
  body: Body,
  opening: Opening,
  backward: boolean,
  chance: Stream,
  depth_m: number,
  pause_s: number,
  back: boolean,
  sits: boolean,
): Passage {
  const frame = frameOf(body, opening, backward, chance);
  const reach = reachOf(body, opening, frame);
  const pace = paceOf(body, reach, chance);
  const hindRight = chance.at(DRAW.paw) < 0.5;
  const { sit_down_s, turn_s } = PET_STILL.value;

  // In: the walk ends as a hind paw lands, a stop before the place to stand.
  const stopping = stoppingWay(body);
  const landing = Math.max(depth_m - stopping, -reach + 0.01);
  const place = landing + stopping;
  const walkIn = walk(
    body,
    frame,
    -reach,
    landing,
    lastStepNode(hindRight) - nodesOver(body, landing + reach) + AHEAD_NODES,
    pace,
    0,
  );
  const motion: Stretch[] = [walkIn];
  const stopAt = walkIn.timeAt(walkIn.to);
  const stopFor = (2 * stopping) / speedAt(pace, landing);
  motion.push(stop(body, moved(frame, landing), hindRight, stopFor, stopAt));
  let now = stopAt + stopFor;

  let out = moved(frame, place);
  if (sits) {
    motion.push(sitDown(body, out, true, sit_down_s, now));
    now += sit_down_s;
  }
  motion.push(stay(body, out, sits, pause_s, now));
  now += pause_s;
  if (sits) {
    motion.push(sitDown(body, out, false, sit_down_s, now));
    now += sit_down_s;
  }
  let left = reach - place;
  if (back) {
    const way = chance.at(DRAW.way) < 0.5 ? 1 : -1;
    motion.push(turnRound(body, out, opening.width_m, way, turn_s, now));
    now += turn_s;
    out = { x: out.x, y: out.y, cos: -out.cos, sin: -out.sin };
    left = reach + place;
  }

  // Out: from standing to a hind paw's leaving the floor, then the walk from there on.
  const starting = startingWay(body);
  const outPace: Pace = { speed_mps: pace.speed_mps, tilt: pace.tilt, dip: pace.dip, half_m: Math.max(left, 0.5) };
  const startAt = now;
  const startFor = (2 * starting) / speedAt(outPace, 0);
  motion.push(setOut(body, out, hindRight, startFor, startAt));
  now += startFor;
  const first = firstStepNode(body, hindRight);
  const walkOut = walk(body, moved(out, starting), 0, Math.max(0.01, left - starting), first, outPace, now);
  motion.push(walkOut);

  // The middle of the standing trunk; how it leans as the pet sits is not counted as a pass.
  const crossed = (): number => {
    if (landing >= 0) return timeTo(pace, 0) - timeTo(pace, -reach);
    if (place >= 0) return stopAt + stopFor * (1 - Math.sqrt(1 + landing / stopping));
    if (place + starting >= 0) return startAt + startFor * Math.sqrt(-place / starting);
    return now + timeTo(outPace, -place - starting) - timeTo(outPace, 0);
  };
  return { motion, cross_s: back ? null : crossed(), leave_s: walkOut.timeAt(walkOut.to) };
}

/** Whole strides added to a node number that may be below 0. */
const AHEAD_NODES = 64 * NODES;

/** Frame moved along its own way. */
function moved(frame: Frame, path_m: number): Frame {
  return { x: frame.x + path_m * frame.sin, y: frame.y + path_m * frame.cos, cos: frame.cos, sin: frame.sin };
}
