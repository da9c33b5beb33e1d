/**
 * Loads: what somebody carries, pushes or pulls, as capsules of the same body.
 *
 * What is carried rides on the trunk, as an infant on the arm does. What rolls rides on the carriage: a part that goes
 * as far as the trunk, but neither sways nor bobs. It turns with the trunk.
 */
import type { Limb } from '../../geometry/limbs.js';
import {
  LAUNDRY_BASKET,
  PRAM,
  PULLING,
  ROLLATOR,
  RUCKSACK,
  SUITCASE,
  TRAY,
  TROLLEY,
  WHEELCHAIR,
} from '../figures/loads.js';
import { PART, UPRIGHT_HIP } from '../gait/parts.js';
import type { Person } from '../person.js';
import type { Load } from '../schema.js';
import { elbowHeight, pushing } from './arms.js';
import type { Place } from './shapes.js';
import { block, tube, tubes, wheels } from './shapes.js';
import { chair, passenger, sitter } from './wheelchair.js';

/** The capsules of a load. @param trunkRadius_m half the depth of the trunk @param shoulder_m the right shoulder's place */
export function loadLimbs(load: Load, person: Person, trunkRadius_m: number, shoulder_m: number): Limb[] {
  const unit_m = person.leg_unit_m;
  const carried: Place = { part: PART.trunk, unit_m, zero_m: UPRIGHT_HIP * unit_m };
  const rolling: Place = { part: PART.carriage, unit_m, zero_m: 0 };
  // Blocks are rounded: what is held against the trunk begins within it, so that no light falls between.
  const elbow_m = elbowHeight(person);
  // Hands on the handles: what is pushed begins where the forearms end.
  const ahead = pushing(person, load).forward * person.forearm_m;
  switch (load) {
    case 'rucksack': {
      const { across, along, height } = RUCKSACK.value;
      const top = person.shoulder_height_m;
      return block(carried, 0, across, [-trunkRadius_m - along, 0], [top - height, top]);
    }
    case 'laundry-basket': {
      const { across, along, height } = LAUNDRY_BASKET.value;
      return block(carried, 0, across, [0, trunkRadius_m + along], [elbow_m - height, elbow_m]);
    }
    case 'tray': {
      const { across, along, height } = TRAY.value;
      return block(carried, 0, across, [0, trunkRadius_m + along], [elbow_m, elbow_m + height]);
    }
    case 'suitcase':
      return suitcase(rolling, person, shoulder_m);
    case 'trolley':
      return trolley(rolling, ahead);
    case 'pram':
      return pram(rolling, ahead);
    case 'rollator':
      return rollator(rolling);
    case 'wheelchair': {
      const hips_m = ahead + WHEELCHAIR.value.handle_behind;
      return [...chair(rolling, hips_m), ...sitter(rolling, hips_m, passenger(person))];
    }
  }
}

/** Two leaning columns, a handle up to the hand, two wheels. */
function suitcase(place: Place, person: Person, shoulder_m: number): Limb[] {
  const { across, along, height, behind, lean, wheel } = SUITCASE.value;
  const r = along / 2;
  const foot = -behind;
  const low = wheel + r;
  const high = low + height - 2 * r;
  const top = foot + lean * (high - low);
  const hand = person.shoulder_height_m - person.upper_arm_m - person.forearm_m;
  const half = across / 2 - r;
  return [
    ...[1, -1].map((s, i) =>
      tube(place, [shoulder_m + s * half, foot, low], [shoulder_m + s * half, top, high], r, i === 1),
    ),
    tube(
      place,
      [shoulder_m, top, high],
      [shoulder_m, PULLING.value.forward * person.forearm_m, Math.max(high, hand)],
      0.012,
    ),
    ...[1, -1].map((s, i) =>
      tube(place, [shoulder_m + s * half, foot, wheel], [shoulder_m + s * half, foot, wheel], wheel, i === 1),
    ),
  ];
}

function trolley(place: Place, ahead: number): Limb[] {
  const { across, along, height, wheel, tube: r, shelf, low_shelf } = TROLLEY.value;
  const w: readonly [number, number] = [ahead, ahead + along];
  const post = across / 2 - wheel;
  return [
    ...block(place, 0, across, w, [height - shelf, height]),
    ...block(place, 0, across, w, [low_shelf - shelf, low_shelf]),
    ...[w[0] + wheel, w[1] - wheel].flatMap((at) => [
      ...tubes(place, post, [at, 2 * wheel], [at, height - shelf], r),
      ...wheels(place, across, at, wheel),
    ]),
  ];
}

function pram(place: Place, ahead: number): Limb[] {
  const { across, along, height, wheel, tube: r, bed, bed_across, bed_low, bed_high } = PRAM.value;
  const front = ahead + along;
  const hoodAt = front - bed / 2;
  const rear = front - bed;
  return [
    // The bed with the infant in it, and the hood above its far end.
    ...block(place, 0, bed_across, [rear, front], [bed_low, bed_high]),
    ...block(place, 0, bed_across, [hoodAt, front], [bed_high - 0.05, height]),
    ...tubes(place, bed_across / 2 - r, [ahead, height - r], [rear + 0.1, bed_high - 0.1], r),
    ...tubes(place, across / 2 - wheel, [rear + 0.1, bed_low], [front - wheel, wheel], r),
    ...tubes(place, across / 2 - wheel, [front - 0.1, bed_low], [rear, wheel], r),
    ...wheels(place, across, front - wheel, wheel),
    ...wheels(place, across, rear, wheel),
  ];
}

function rollator(place: Place): Limb[] {
  const { across, along, height, ahead, wheel, tube: r } = ROLLATOR.value;
  const front = ahead + along;
  const side = across / 2 - wheel;
  return [
    ...wheels(place, across, ahead + wheel, wheel),
    ...wheels(place, across, front - wheel, wheel),
    // From the wheels up to the handles, and the seat between.
    ...tubes(place, side, [ahead + wheel, wheel], [ahead + 0.2, height / 2], r),
    ...tubes(place, side, [front - wheel, wheel], [ahead + 0.15, height - r], r),
    ...tubes(place, side, [ahead + 0.02, height - r], [ahead + 0.17, height - r], r),
    ...block(place, 0, 2 * side, [ahead + 0.18, front - 0.12], [height / 2, height / 2 + 0.06]),
  ];
}
