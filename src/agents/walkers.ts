/** From a walker's description to a body that fits an opening. */
import { uniform } from '../engine/distributions.js';
import type { Stream } from '../engine/stream.js';
import type { Body } from './body.js';
import { personBody, rodBody } from './body.js';
import { ABREAST_ROOM, SHOULDERS_TURNED, SHOULDER_RATIO } from './figures/mix.js';
import type { Opening } from './motion/passage.js';
import { turnsShoulders } from './loads/kinds.js';
import { robotVacuum, wheelchairUser } from './loads/rolling.js';
import { drawPerson } from './population.js';
import { petBody } from './pets/body.js';
import { drawPet } from './pets/pet.js';
import { BUILT_IN_WALKERS, isPet } from './schema.js';
import type { Walker } from './schema.js';

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
  if (walker.kind === 'robot-vacuum')
    return robotVacuum(who, number, walker.diameter_m, walker.height_m, walker.speed_mps);
  if (walker.kind === 'wheelchair-user') {
    const { ages_y, women_share } = walker;
    const person = drawPerson({ kind: 'people', ages_y, women_share, with_infant: false }, chance, 1);
    const speed = uniform(chance.at(DRAW_WHEELED_SPEED), walker.speed_mps, walker.speed_to_mps);
    return wheelchairUser(who, number, person, speed);
  }
  if (isPet(walker)) return petBody(who, number, drawPet(walker, chance, homePace));
  const person = drawPerson(walker, chance, homePace);
  if (!turnsShoulders(walker.load)) return personBody(who, number, person, 1, walker.load);
  const turn = Math.min(
    1,
    Math.max(SHOULDERS_TURNED.value, opening.width_m / (SHOULDER_RATIO.value * person.bideltoid_m)),
  );
  return personBody(who, number, person, turn, walker.load);
}

/** A draw of a body's stream, after those of the person who sits in the chair (build.ts). */
const DRAW_WHEELED_SPEED = 64;

/** Two side by side need both breadths and some room. */
export function fitsAbreast(a: Pick<Body, 'breadth_m'>, b: Pick<Body, 'breadth_m'>, opening: Opening): boolean {
  return a.breadth_m + b.breadth_m + ABREAST_ROOM.value <= opening.width_m;
}
