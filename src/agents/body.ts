/**
 * Bodies: capsules that ride on the moving parts of a person, or the single one of a test rod.
 *
 * A person is 15 capsules: three of the trunk side by side (an elongated cross-section), neck, head, thighs, shanks,
 * feet, upper arms, forearms with hands; an infant on the arm adds one, a load its own. Offsets are in units of the body's leg unit, so that
 * all bodies share the gait tables.
 */
import { Limbs, LimbsMaker, limbOf } from '../geometry/limbs.js';
import type { Limb } from '../geometry/limbs.js';
import type { PoseTracks } from '../geometry/track.js';
import { HIP_JOINTS, STEP_WIDTH } from './figures/legs.js';
import { CARRYING, INFANT } from './figures/manner.js';
import { NECK_ROOT, NECK_SHARE } from './figures/proportions.js';
import { FOOT_RADIUS } from './gait/foot.js';
import { PART, UPRIGHT_HIP } from './gait/parts.js';
import type { Held } from './loads/arms.js';
import { heldArm } from './loads/arms.js';
import { LOAD_KINDS } from './loads/kinds.js';
import { loadLimbs } from './loads/loads.js';
import type { Person } from './person.js';
import type { Load } from './schema.js';

/** What a body is: whoever walks or rolls keeps out of each other's way, test rods don't mind. */
export type BodySort = 'person' | 'pet' | 'thing' | 'test-rod';

export interface Body {
  readonly sort: BodySort;
  /** Name of the walker. */
  readonly who: string;
  /** Number in its replicate. */
  readonly number: number;
  readonly persons: number;
  /** Height from the floor, metres: of a rod, its length. */
  readonly stature_m: number;
  /** Breadth across, metres: what must fit through the opening. */
  readonly breadth_m: number;
  /** One model unit in metres. */
  readonly unit_m: number;
  /** Undisturbed speed, m/s. */
  readonly speed_mps: number;
  /** Step length in model units; 0 for what has no legs. */
  readonly step: number;
  readonly elbow_deg: number;
  /** How its parts move as it goes, where that is neither a person's gait nor all in one piece. */
  readonly walks: PoseTracks | null;
  readonly limbs: Limbs;
}

/** Where head and neck stand among a person's limbs: they ride on the trunk, as its own capsules do. */
export const HEAD_LIMBS: readonly number[] = [3, 4];

/**
 * The body of a person.
 *
 * @param turn cosine of the angle by which the shoulders are turned to fit through the opening; 1 square on
 * @param load what they carry, push or pull: of the same body, with whoever is in it
 */
export function personBody(who: string, number: number, person: Person, turn = 1, load?: Load): Body {
  const unit = person.leg_unit_m;
  const at = (height_m: number): number => height_m / unit - UPRIGHT_HIP;
  const trunkRadius = (person.chest_depth_m + person.waist_depth_m) / 4;
  const arm = person.upper_arm_radius_m;
  const shoulder = person.bideltoid_m / 2 - arm;
  const side = Math.max(
    0,
    Math.max(person.waist_breadth_m, person.hip_breadth_m, person.bideltoid_m - 4 * arm) / 2 - trunkRadius,
  );
  const sin = Math.sqrt(1 - turn * turn);
  const limbs = new LimbsMaker();
  const trunk = (l_m: number, top_m: number, shadowed: boolean): void => {
    const l = (l_m * turn) / unit;
    const w = (l_m * sin) / unit;
    limbs.put(PART.trunk, l, w, 0, l, w, at(top_m - trunkRadius), trunkRadius / unit, shadowed);
  };
  // The middle of the trunk reaches up to the root of the neck, its sides to the shoulders.
  const neckRoot = person.shoulder_height_m + NECK_ROOT.value * person.stature_m;
  const headTop = at(person.stature_m - person.head_radius_m);
  const chin = Math.min(headTop, at(person.chin_height_m + person.head_radius_m));
  trunk(0, neckRoot, false);
  trunk(side, person.shoulder_height_m, false);
  trunk(-side, person.shoulder_height_m, turn === 1);
  limbs.put(PART.trunk, 0, 0, chin, 0, 0, headTop, person.head_radius_m / unit);
  limbs.put(PART.trunk, 0, 0, at(neckRoot - trunkRadius), 0, 0, chin, (NECK_SHARE.value * person.head_radius_m) / unit);

  const hip = (person.hip_breadth_m * HIP_JOINTS.value) / unit;
  const foot = STEP_WIDTH.value / unit;
  for (const s of [1, -1] as const) {
    const right = s === 1;
    const knee = (hip + foot) / 2;
    limbs.put(right ? PART.thighR : PART.thighL, s * hip, 0, 0, s * knee, 0, 0, person.thigh_radius_m / unit);
    limbs.put(right ? PART.shankR : PART.shankL, s * knee, 0, 0, s * foot, 0, 0, person.shank_radius_m / unit);
    limbs.put(right ? PART.footR : PART.footL, s * foot, 0, 0, s * foot, 0, 0, FOOT_RADIUS);
    const held = heldArm(person, load, right);
    const l = (s * shoulder * turn) / unit;
    const w = (s * shoulder * sin) / unit;
    const z = at(person.shoulder_height_m - arm);
    if (held) for (const limb of armHeld(l, w, z, person, held)) limbs.add(limb);
    else {
      limbs.put(right ? PART.upperArmR : PART.upperArmL, l, w, z, l, w, z, arm / unit);
      limbs.put(right ? PART.forearmR : PART.forearmL, l, w, z, l, w, z, person.forearm_radius_m / unit);
    }
  }
  if (person.infant) limbs.add(infantOnArm(person, at, trunkRadius));
  if (load !== undefined) for (const limb of loadLimbs(load, person, trunkRadius, shoulder)) limbs.add(limb);
  const aboard = load === undefined ? 0 : LOAD_KINDS[load].persons;
  return {
    sort: 'person',
    who,
    number,
    persons: (person.infant ? 2 : 1) + aboard,
    stature_m: person.stature_m,
    breadth_m: load === undefined ? person.bideltoid_m : Math.max(person.bideltoid_m, LOAD_KINDS[load].breadth_m),
    unit_m: unit,
    speed_mps: person.speed_mps,
    step: person.step_m / unit,
    elbow_deg: person.elbow_mean_deg,
    walks: null,
    limbs: limbs.limbs(),
  };
}

/** An arm that holds an infant or a load: it hangs from the shoulder, its forearm as it is held, and doesn't swing. */
function armHeld(l: number, w: number, z: number, person: Person, held: Held): Limb[] {
  const upper = person.upper_arm_m / person.leg_unit_m;
  const fore = person.forearm_m / person.leg_unit_m;
  return [
    limbOf(PART.trunk, l, w, z, l, w, z - upper, person.upper_arm_radius_m / person.leg_unit_m),
    limbOf(
      PART.trunk,
      l,
      w,
      z - upper,
      l * held.across,
      w + held.forward * fore,
      z - upper - held.down * fore,
      person.forearm_radius_m / person.leg_unit_m,
    ),
  ];
}

/** An upright capsule before the chest, its top at shoulder height. */
function infantOnArm(person: Person, at: (height_m: number) => number, trunkRadius: number): Limb {
  const { length, radius, ahead } = INFANT.value;
  const unit = person.leg_unit_m;
  const w = (trunkRadius + ahead - radius) / unit;
  const l = (-CARRYING.value.infant_across * person.bideltoid_m) / unit;
  const top = person.shoulder_height_m;
  return limbOf(PART.trunk, l, w, at(top - length + radius), l, w, at(top - radius), radius / unit);
}

/** What a body that moves as one piece is, besides its name and number. */
type RigidBody = Pick<Body, 'sort' | 'persons' | 'stature_m' | 'breadth_m' | 'speed_mps'>;

/** A body that moves as one piece: without gait, its limbs in metres. */
export function rigidBody(who: string, number: number, own: RigidBody, limbs: readonly Limb[]): Body {
  const { sort, persons, stature_m, breadth_m, speed_mps } = own;
  return {
    sort,
    who,
    number,
    persons,
    stature_m,
    breadth_m,
    unit_m: 1,
    speed_mps,
    step: 0,
    elbow_deg: 0,
    walks: null,
    limbs: Limbs.of(limbs),
  };
}

/** A test rod: an upright cylinder of the given diameter and height with a rounded top, all metres and m/s. */
export function rodBody(
  who: string,
  number: number,
  diameter_m: number,
  height_m: number,
  speed_mps: number,
  persons: number,
): Body {
  const radius = diameter_m / 2;
  const own = { sort: 'test-rod', persons, stature_m: height_m, breadth_m: diameter_m, speed_mps } as const;
  // From the floor, so that its lower end is flat where a beam can be.
  return rigidBody(who, number, own, [limbOf(PART.trunk, 0, 0, 0, 0, 0, Math.max(0, height_m - radius), radius)]);
}
