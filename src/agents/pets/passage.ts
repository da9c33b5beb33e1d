/**
 * Passages of pets: through, turning back, lingering, which for a pet is to sit down in the doorway.
 *
 * As with people, all times are seconds since the visit began, and what chance decides is drawn in
 * motion/drawn.ts. A visit begins and ends where no part of a long dog reaches a beam that a person couldn't reach.
 */
import type { Stream } from '../../engine/stream.js';
import type { Frame } from '../../geometry/beam-line.js';
import { moved, turnedRound } from '../../geometry/beam-line.js';
import type { Body } from '../body.js';
import { LONGEST_REACH } from '../figures/legs.js';
import { PET_STILL } from '../figures/pets.js';
import { NODES } from '../gait/gait-table.js';
import type { Stop } from '../motion/drawn.js';
import { DRAW, frameOf, lingeringStop, paceOf, turningStop } from '../motion/drawn.js';
import type { Stretch } from '../motion/motion.js';
import type { Opening, Passage } from '../motion/passage.js';
import type { Pace } from '../motion/walk.js';
import { nodesOver, speedAt, timeTo, walk } from '../motion/walk.js';
import { petReach } from './body.js';
import { sitDown, stay } from './sit.js';
import { firstStepNode, lastStepNode, setOut, startingWay, stop, stoppingWay } from './steps.js';
import { turnRound } from './turn-round.js';

/** How far from the door plane a visit begins and ends, along the walk. */
function reachOf(body: Body, opening: Opening, frame: Frame): number {
  return (opening.zone_m + Math.max(0, petReach(body) - LONGEST_REACH.value)) / Math.abs(frame.cos);
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
  return pausing(body, opening, backward, chance, turningStop(chance), false);
}

/** Walks in, sits down in the doorway for a while, stands up and goes on; some go back instead. */
export function petLinger(body: Body, opening: Opening, backward: boolean, chance: Stream): Passage {
  return pausing(body, opening, backward, chance, lingeringStop(chance), true);
}

function pausing(
  body: Body,
  opening: Opening,
  backward: boolean,
  chance: Stream,
  { depth_m, pause_s, back }: Stop,
  sits: boolean,
): Passage {
  const frame = frameOf(body, opening, backward, chance);
  const reach = reachOf(body, opening, frame);
  const pace = paceOf(body, reach, chance);
  const hindRight = chance.at(DRAW.foot) < 0.5;
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
    out = turnedRound(out);
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
