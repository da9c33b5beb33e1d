/**
 * What chance decides of a visit, the same for people and pets: the line taken through the opening, the pace along it, where
 * and how long somebody stops. All is a pure function of the visit's stream.
 */
import { DEG } from '../../engine/arithmetic.js';
import { lognormal, standardWithin3, uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import type { Frame } from '../../geometry/beam-line.js';
import { frameAt, turnedRound } from '../../geometry/beam-line.js';
import type { Body } from '../body.js';
import { BESIDE, LINGER } from '../figures/manner.js';
import {
  HEADING,
  LINGER_DEPTH,
  LINGER_RETURNS,
  PACE_CHANGE,
  SIDEWAYS,
  TURN_BACK_DEPTH,
  TURN_BACK_PAUSE,
} from '../figures/stillness.js';
import type { Pace } from './walk.js';

/** Draws of a visit's stream by purpose. Never renumber: only add. */
export const DRAW = {
  sideways: 0,
  heading: 1,
  phase: 2,
  tilt: 3,
  dip: 4,
  depth: 5,
  pause: 6,
  way: 7,
  returns: 8,
  /** Which foot or hind paw lands last before a stop. */
  foot: 9,
} as const;

interface Width {
  readonly width_m: number;
}

/** What has legs goes a little aslant and changes its pace; what rolls and test rods go straight and evenly. */
function hasLegs(body: Body): boolean {
  return body.step > 0 || body.walks !== null;
}

/** Where across the opening a lone body walks, metres from the left jamb. */
function lateral(body: Body, { width_m }: Width, chance: Stream): number {
  const half = Math.min(width_m / 2, body.breadth_m / 2 + BESIDE.value);
  const x = width_m * (0.5 + SIDEWAYS.value * standardWithin3(chance.at(DRAW.sideways)));
  return Math.min(width_m - half, Math.max(half, x));
}

/**
 * A walker's frame: origin where its line crosses the door plane. Going backward is the same picture turned half round,
 * to the last bit. `x_m` is where it crosses, from the left jamb: whoever is given a place goes straight.
 */
export function frameOf(body: Body, opening: Width, backward: boolean, chance: Stream, x_m?: number): Frame {
  const x = x_m ?? lateral(body, opening, chance);
  const aslant = hasLegs(body) && x_m === undefined;
  const ahead = frameAt(x, 0, aslant ? HEADING.value * DEG * standardWithin3(chance.at(DRAW.heading)) : 0);
  return backward ? turnedRound({ ...ahead, x: opening.width_m - x }) : ahead;
}

/** @param half_m path length from the door plane at which the change of pace is whole */
export function paceOf(body: Body, half_m: number, chance: Stream): Pace {
  const { tilt_sd, dip_low, dip_high } = PACE_CHANGE.value;
  if (!hasLegs(body)) return { speed_mps: body.speed_mps, tilt: 0, dip: 0, half_m };
  return {
    speed_mps: body.speed_mps,
    tilt: tilt_sd * standardWithin3(chance.at(DRAW.tilt)),
    dip: uniform(chance.at(DRAW.dip), dip_low, dip_high),
    half_m,
  };
}

/** A stop: how far beyond the door plane (before it where negative), how long, and whether the way is back from there. */
export interface Stop {
  readonly depth_m: number;
  readonly pause_s: number;
  readonly back: boolean;
}

/** Of somebody who turns back. */
export function turningStop(chance: Stream): Stop {
  const pause_s = uniform(chance.at(DRAW.pause), TURN_BACK_PAUSE.value.low, TURN_BACK_PAUSE.value.high);
  return { depth_m: depthIn(TURN_BACK_DEPTH.value, chance), pause_s, back: true };
}

/** Of somebody who lingers: some go back instead of on. */
export function lingeringStop(chance: Stream): Stop {
  const pause_s = lognormal(chance.at(DRAW.pause), LINGER.value.median, LINGER.value.sigma);
  const back = chance.at(DRAW.returns) < LINGER_RETURNS.value;
  return { depth_m: depthIn(LINGER_DEPTH.value, chance), pause_s, back };
}

function depthIn({ low, high }: typeof LINGER_DEPTH.value, chance: Stream): number {
  return uniform(chance.at(DRAW.depth), low, high);
}
