/** A wheelchair and who sits in it. */
import type { Limb } from '../../geometry/limbs.js';
import { HIP_JOINTS } from '../figures/legs.js';
import { PASSENGER, SITTING_HEIGHT, WHEELCHAIR } from '../figures/loads.js';
import { CHIN_HEIGHT, LEG_UNIT_LENGTHS, NECK_ROOT, NECK_SHARE } from '../figures/proportions.js';
import type { Person } from '../person.js';
import type { Place } from './shapes.js';
import { block, rims, tube, tubes, wheels } from './shapes.js';

const CHAIR = WHEELCHAIR.value;

/** The crown of somebody who sits in it, metres above the floor. */
export function seatedHeight(stature_m: number): number {
  return CHAIR.seat + SITTING_HEIGHT.value * stature_m;
}

/** The chair, empty. `hips_m` is where the hips of who sits in it are, ahead of the place's axis. */
export function chair(place: Place, hips_m: number): Limb[] {
  const { across, seat, back, wheel, castor, tube: r, handle_behind, axle_behind } = CHAIR;
  const frame = across / 2 - 4 * r;
  const rear = hips_m - handle_behind + 0.1;
  const front = hips_m + 0.35;
  return [
    ...rims(place, across, hips_m - axle_behind, wheel, r),
    ...wheels(place, across - 0.06, front, castor),
    // The seat, the back and its handles, the armrests, the bars down to the footrest.
    ...block(place, 0, across - 0.2, [rear, front], [seat - 0.05, seat]),
    ...[-1, 0, 1].map((side) =>
      tube(place, [side * (frame - 0.03), rear, seat], [side * (frame - 0.03), rear, back - r], 0.03, side > -1),
    ),
    ...tubes(place, frame, [rear, back - r], [hips_m - handle_behind, back - r], r),
    ...tubes(place, frame, [rear, seat + 0.2], [front - 0.1, seat + 0.2], r),
    ...tubes(place, frame - 0.04, [front, seat], [front + 0.15, CHAIR.footrest], r),
  ];
}

/** Lengths of somebody seated, metres. */
type Sitter = Omit<Person, 'sex' | 'age_y' | 'speed_mps' | 'step_m' | 'infant' | 'elbow_mean_deg'>;

/** Who is pushed: everybody pushes the same middling passenger, who is as stout as they are. */
export function passenger(pusher: Person): Sitter {
  const { stature, shoulders, hips } = PASSENGER.value;
  const scale = stature / pusher.stature_m;
  return {
    ...pusher,
    stature_m: stature,
    leg_unit_m: stature,
    shoulder_height_m: pusher.shoulder_height_m * scale,
    chin_height_m: CHIN_HEIGHT.value * stature,
    bideltoid_m: shoulders,
    hip_breadth_m: hips,
    waist_breadth_m: hips,
    upper_arm_m: pusher.upper_arm_m * scale,
    forearm_m: pusher.forearm_m * scale,
    foot_m: pusher.foot_m * scale,
  };
}

/** Somebody who sits: trunk upright on the seat, thighs forward, feet on the footrest, forearms on the armrests. */
export function sitter(place: Place, hips_m: number, person: Sitter): Limb[] {
  const { seat, footrest } = CHAIR;
  const crown = seatedHeight(person.stature_m);
  /** Of a height of theirs when standing. */
  const sat = (standing_m: number): number => crown - (person.stature_m - standing_m);
  const radius = (person.chest_depth_m + person.waist_depth_m) / 4;
  const arm = person.upper_arm_radius_m;
  const shoulder = person.bideltoid_m / 2 - arm;
  const breadth = Math.max(person.waist_breadth_m, person.hip_breadth_m, person.bideltoid_m - 4 * arm);
  const side = Math.max(0, breadth / 2 - radius);
  const upright = (l: number, low: number, high: number, r: number, shadowed = false): Limb =>
    tube(place, [l, hips_m, Math.min(low, high)], [l, hips_m, high], r, shadowed);
  const neckRoot = sat(person.shoulder_height_m + NECK_ROOT.value * person.stature_m);
  const headTop = crown - person.head_radius_m;
  const chin = Math.min(headTop, sat(person.chin_height_m + person.head_radius_m));
  const shoulders = sat(person.shoulder_height_m);

  const hip = person.hip_breadth_m * HIP_JOINTS.value;
  const lap = seat + person.thigh_radius_m;
  const knee = hips_m + LEG_UNIT_LENGTHS.value.thigh * person.leg_unit_m;
  const shank = LEG_UNIT_LENGTHS.value.shank * person.leg_unit_m;
  const sole = person.shank_radius_m / 2;
  const drop = Math.min(shank, lap - footrest - sole);
  const ankle = knee + Math.sqrt(shank * shank - drop * drop);
  const elbow = Math.max(seat + 0.2, shoulders - arm - person.upper_arm_m);
  return [
    upright(0, seat + radius, neckRoot - radius, radius),
    upright(side, seat + radius, shoulders - radius, radius),
    upright(-side, seat + radius, shoulders - radius, radius, true),
    upright(0, chin, headTop, person.head_radius_m),
    upright(0, neckRoot - radius, chin, NECK_SHARE.value * person.head_radius_m),
    ...tubes(place, hip, [hips_m, lap], [knee, lap], person.thigh_radius_m),
    ...tubes(place, hip, [knee, lap], [ankle, lap - drop], person.shank_radius_m),
    ...tubes(place, hip, [ankle - 0.05, footrest + sole], [ankle + 0.7 * person.foot_m, footrest + sole], sole),
    ...tubes(place, shoulder, [hips_m, shoulders - arm], [hips_m, elbow], arm),
    ...tubes(place, shoulder, [hips_m, elbow], [hips_m + person.forearm_m, elbow], person.forearm_radius_m),
  ];
}
