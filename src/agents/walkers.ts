/** From a walker's description to a body that fits an opening. */
import { uniform } from '../engine/distributions.js';
import type { Stream } from '../engine/stream.js';
import type { Body } from './body.js';
import { personBody, rodBody } from './body.js';
import type { Opening } from './motion/passage.js';
import { drawPerson } from './population.js';
import { BUILT_IN_WALKERS } from './schema.js';
import type { Walker } from './schema.js';

/**
 * Shoulders are turned in openings narrower than 1.3 times their breadth. Source: W. H. Warren, S. Whang, J. Exp.
 * Psychol. Hum. Percept. Perform. 13:371–383 (1987), as restated by A. L. Hackney et al., Q. J. Exp. Psychol. 66:1104–1112 (2013).
 * How far they are turned, just enough to restore that ratio, is an assumption.
 */
export const SHOULDER_RATIO = 1.3;
const MOST_TURNED = 0.3;

export function walkerNamed(who: string, walkers: Readonly<Record<string, Walker>>): Walker {
  const walker = Object.hasOwn(walkers, who) ? walkers[who] : BUILT_IN_WALKERS[who];
  if (!walker) throw new RangeError(`no walker is named ${who}`);
  return walker;
}

/** A pure function of the stream: the same body every time. */
export function drawBody(
  who: string,
  walker: Walker,
  number: number,
  opening: Opening,
  homePace: number,
  chance: Stream,
): Body {
  if (walker.kind === 'test-rod') {
    const speed = uniform(chance.at(0), walker.speed_mps, walker.speed_to_mps ?? walker.speed_mps);
    return rodBody(who, number, walker.diameter_m, walker.height_m, speed, walker.persons);
  }
  const person = drawPerson(walker, chance, homePace);
  const turn = Math.min(1, Math.max(MOST_TURNED, opening.width_m / (SHOULDER_RATIO * person.bideltoid_m)));
  return personBody(who, number, person, turn);
}

/** Two side by side need both breadths and a hand's breadth of room. The room is an assumption. */
const ABREAST_ROOM_M = 0.1;
export function fitsAbreast(a: Body, b: Body, opening: Opening): boolean {
  return a.breadth_m + b.breadth_m + ABREAST_ROOM_M <= opening.width_m;
}
