/**
 * Walking people as tests see them: joints and foot points read from posed capsules, instants read from what the feet
 * do, nothing from the parameters of the gait.
 */
import type { Body } from '../../src/agents/body.js';
import { personBody } from '../../src/agents/body.js';
import { FOOT_RADIUS } from '../../src/agents/gait/foot.js';
import { PART } from '../../src/agents/gait/parts.js';
import type { Capsule, Motion } from '../../src/agents/motion/motion.js';
import { nodeAt, poseAt } from '../../src/agents/motion/motion.js';
import { through } from '../../src/agents/motion/passage.js';
import type { Person, Sex } from '../../src/agents/person.js';
import { drawPerson } from '../../src/agents/population.js';
import { Stream } from '../../src/engine/stream.js';

/** A place in the plane of walking, metres: y along the walk, z up. */
export interface Place {
  readonly y: number;
  readonly z: number;
}
export interface Leg {
  readonly hip: Place;
  readonly knee: Place;
  readonly ankle: Place;
  /** The ends of the sole on the floor when the foot is flat: rear edge of the heel, tip of the toes. */
  readonly heel: Place;
  readonly toe: Place;
  /** Least height of the foot's capsule above the floor, metres. */
  readonly sole_m: number;
}
export interface Moment {
  readonly time_s: number;
  readonly right: Leg;
  readonly left: Leg;
  /** Lower end of the middle of the trunk. */
  readonly trunk: Place;
}

/** One person, by size; what isn't stated is drawn from a seeded stream. */
export function personOf(
  known: { sex: Sex; age_y: number; stature_m: number; speed_mps: number },
  change: Partial<Person> = {},
): Person {
  const person = drawPerson({ kind: 'person', with_infant: false, ...known }, Stream.root('one person'), 1);
  return { ...person, ...change };
}

/** An adult of average proportions whose step length is `step` leg units, at a speed that goes with it. */
export function adultWithStep(step: number, stature_m = 1.7, speed_mps = 1.3): Body {
  const person = personOf({ sex: 'woman', age_y: 30, stature_m, speed_mps }, { leg_unit_m: stature_m });
  return personBody('adult', 1, { ...person, step_m: step * stature_m });
}

/** Draw of a visit's stream that slows a walker down at the door plane (passage.ts). */
const DIP_DRAW = 4;
/** A visit's stream of a walk straight ahead, in the middle, at even pace: no slowing at the door plane. */
export const EVEN = {
  at: (n: number) => (n === DIP_DRAW ? 0 : 0.5),
  nth: () => EVEN,
  child: () => EVEN,
} as unknown as Stream;

/** A straight walk through a zone of `zone_m`, seen every `step_s`. */
export function walkOf(body: Body, zone_m: number, step_s: number, chance: Stream = EVEN): Moment[] {
  const { motion, leave_s } = through(body, { width_m: 2, zone_m }, false, chance);
  return momentsOf(body, motion, leave_s, step_s);
}

export function momentsOf(body: Body, motion: Motion, until_s: number, step_s: number): Moment[] {
  const moments: Moment[] = [];
  for (let k = 0; k * step_s <= until_s; k++) moments.push(momentAt(body, motion, k * step_s));
  return moments;
}

export function momentAt(body: Body, motion: Motion, time_s: number): Moment {
  const { stretch, node } = nodeAt(motion, time_s);
  const pose = poseAt(body, stretch, node);
  const of = (part: number): Capsule => pose[body.limbs.list().findIndex((limb) => limb.part === part)] as Capsule;
  const trunk = of(PART.trunk);
  return {
    time_s,
    right: legOf(body, of(PART.thighR), of(PART.shankR), of(PART.footR)),
    left: legOf(body, of(PART.thighL), of(PART.shankL), of(PART.footL)),
    trunk: { y: trunk.y0, z: trunk.z0 },
  };
}

function legOf(body: Body, thigh: Capsule, shank: Capsule, foot: Capsule): Leg {
  const axis = { y: foot.y1 - foot.y0, z: foot.z1 - foot.z0 };
  const long = Math.sqrt(axis.y ** 2 + axis.z ** 2);
  const along = { y: axis.y / long, z: axis.z / long };
  const r = FOOT_RADIUS * body.unit_m;
  // Down, at right angles to the axis, whichever way the foot points.
  const way = Math.sign(along.y);
  const down = { y: way * along.z, z: -way * along.y };
  return {
    hip: { y: thigh.y0, z: thigh.z0 },
    knee: { y: thigh.y1, z: thigh.z1 },
    ankle: { y: shank.y1, z: shank.z1 },
    heel: { y: foot.y0 + r * (down.y - along.y), z: foot.z0 + r * (down.z - along.z) },
    toe: { y: foot.y1 + r * (down.y + along.y), z: foot.z1 + r * (down.z + along.z) },
    sole_m: Math.min(foot.z0, foot.z1) - foot.radius,
  };
}

/** Angle of the thigh to the vertical, degrees, positive forward. */
export function thighAngle(leg: Pick<Leg, 'hip' | 'knee'>): number {
  return degrees(Math.atan2(leg.knee.y - leg.hip.y, leg.hip.z - leg.knee.z));
}
/** Flexion of the knee, degrees. */
export function kneeAngle(leg: Pick<Leg, 'hip' | 'knee' | 'ankle'>): number {
  return thighAngle(leg) - degrees(Math.atan2(leg.ankle.y - leg.knee.y, leg.knee.z - leg.ankle.z));
}
function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}

/** How far a point of the foot moves to the next moment, metres; the slower of heel and toe is what may be planted. */
export function slip(now: Leg, next: Leg): number {
  const moved = (a: Place, b: Place) => Math.sqrt((b.y - a.y) ** 2 + (b.z - a.z) ** 2);
  return Math.min(moved(now.heel, next.heel), moved(now.toe, next.toe));
}

/**
 * Moments at which a foot is planted (a point of its sole stays where it is): [first, last] indices of each stance.
 * A point stays if it moves slower than a twentieth of the walking speed.
 */
export function stances(moments: readonly Moment[], side: 'right' | 'left', speed_mps: number): [number, number][] {
  const still = moments.map((moment, i) => {
    const next = moments[i + 1];
    return next ? slip(moment[side], next[side]) < 0.05 * speed_mps * (next.time_s - moment.time_s) : false;
  });
  const found: [number, number][] = [];
  let from = -1;
  still.forEach((is, i) => {
    if (is && from < 0) from = i;
    if (!is && from >= 0) {
      if (i - from > 10) found.push([from, i]);
      from = -1;
    }
  });
  // What began before the walk was seen, or goes on after it, isn't whole.
  return found.filter(([first]) => first > 0);
}
