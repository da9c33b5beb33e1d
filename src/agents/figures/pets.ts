/** Dogs and cats: how big they are, how they walk, how they sit. Lengths of the body are shares of the height at the withers. */
import type { Figure } from '../../engine/figure.js';
import {
  AKC,
  ALEXANDER,
  CATS_WALKING,
  CAT_SIZE,
  FAHIE,
  FCI166,
  HILDEBRAND,
  LABRADORS,
  NO_SOURCE,
  PREFERRED_GAIT,
  USHERWOOD,
} from './sources.js';

type Size = {
  readonly withers_low: number;
  readonly withers_high: number;
  readonly mass_low: number;
  readonly mass_high: number;
};
export type DogSize = 'small' | 'medium' | 'large' | 'giant';

function dogSize(size: DogSize, value: Size, breeds: string): Figure<Size> {
  return {
    id: `pets.size.dog.${size}`,
    value,
    unit: 'm at the withers, kg',
    used_in: `a ${size} dog: height drawn evenly between, mass as far up its range as the height`,
    citation: `heights: ${breeds} (${AKC}); limits of mass between classes: ${FAHIE}`,
    status: 'second-hand',
    note: 'the breeds that stand for a class are chosen by this project',
  };
}

export const DOG_SIZES: Readonly<Record<DogSize, Figure<Size>>> = {
  small: dogSize(
    'small',
    { withers_low: 0.178, withers_high: 0.381, mass_low: 3.2, mass_high: 10 },
    'Yorkshire Terrier to Beagle',
  ),
  medium: dogSize(
    'medium',
    { withers_low: 0.343, withers_high: 0.559, mass_low: 10, mass_high: 25 },
    'Cocker Spaniel to Border Collie',
  ),
  large: dogSize(
    'large',
    { withers_low: 0.546, withers_high: 0.66, mass_low: 25, mass_high: 40 },
    'Labrador Retriever to German Shepherd',
  ),
  giant: dogSize(
    'giant',
    { withers_low: 0.711, withers_high: 0.813, mass_low: 47.6, mass_high: 79.4 },
    'Great Dane and Irish Wolfhound',
  ),
};

export const CAT: Figure<Size> = {
  id: 'pets.size.cat',
  value: { withers_low: 0.23, withers_high: 0.25, mass_low: 4, mass_high: 5 },
  unit: 'm at the withers, kg',
  used_in: 'a cat: height drawn evenly between, mass as far up its range as the height',
  citation: CAT_SIZE,
  status: 'second-hand',
};

export const DOG_TRUNK: Figure<number> = {
  id: 'pets.trunk.dog',
  value: 1.135,
  unit: 'share of the height at the withers',
  used_in: 'length of every dog’s trunk, from the point of the shoulder to the buttock',
  citation: FCI166,
  status: 'published',
  note: 'middle of 1.10 to 1.17; that other breeds are alike is an assumption',
};

export const CAT_TRUNK: Figure<number> = {
  id: 'pets.trunk.cat',
  value: 1.45,
  unit: 'share of the height at the withers',
  used_in: 'length of every cat’s trunk',
  citation: `${NO_SOURCE}; head and body together are 0.46 m at 0.24 m (${CAT_SIZE})`,
  status: 'assumption',
};

export const CHEST_DEPTH: Figure<number> = {
  id: 'pets.chest_depth',
  value: 0.465,
  unit: 'share of the height at the withers',
  used_in: 'depth of every pet’s chest, which is as broad as it is deep',
  citation: FCI166,
  status: 'from memory',
  note: 'middle of 0.45 to 0.48; that cats and other breeds are alike, and the breadth, are assumptions',
};

export const LOIN: Figure<{ readonly dog_depth: number; readonly cat_depth: number; readonly croup_below: number }> = {
  id: 'pets.loin',
  value: { dog_depth: 0.34, cat_depth: 0.4, croup_below: 0.03 },
  unit: 'share of the height at the withers',
  used_in: 'depth and breadth of the hinder half of the trunk; how far its top is below the withers',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const HEAD_LENGTH: Figure<number> = {
  id: 'pets.head.length',
  value: 0.4,
  unit: 'share of the height at the withers',
  used_in: 'length of every pet’s head',
  citation: FCI166,
  status: 'published',
  note: 'about 0.40; that cats and other breeds are alike is an assumption',
};

type Head = {
  readonly radius: number;
  readonly ahead: number;
  readonly height: number;
  readonly neck_radius: number;
};
export const DOG_HEAD: Figure<Head> = {
  id: 'pets.head.dog',
  value: { radius: 0.1, ahead: 0.42, height: 1.08, neck_radius: 0.12 },
  unit: 'share of the height at the withers',
  used_in:
    'head of every dog: radius, how far the nose is ahead of the trunk, how high the skull’s middle is; the neck',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const CAT_HEAD: Figure<Head> = {
  id: 'pets.head.cat',
  value: { radius: 0.18, ahead: 0.42, height: 1.02, neck_radius: 0.14 },
  unit: 'share of the height at the withers',
  used_in: 'head of every cat',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const PET_LEGS: Figure<{
  readonly shoulder_height: number;
  readonly upper_arm: number;
  readonly forearm: number;
  readonly shoulder_glides: number;
  readonly shoulder_in: number;
  readonly hip_height: number;
  readonly thigh: number;
  readonly shank: number;
  readonly hip_glides: number;
  readonly hip_in: number;
  readonly aside: number;
  readonly upper_radius: number;
  readonly lower_radius: number;
}> = {
  id: 'pets.legs',
  value: {
    shoulder_height: 0.74,
    upper_arm: 0.3,
    forearm: 0.53,
    shoulder_glides: 0.35,
    shoulder_in: 0.2,
    hip_height: 0.76,
    thigh: 0.36,
    shank: 0.55,
    hip_glides: 0.2,
    hip_in: 0.15,
    aside: 0.11,
    upper_radius: 0.075,
    lower_radius: 0.045,
  },
  unit: 'share of the height at the withers; of the paw’s way for what glides',
  used_in:
    'all four legs, two parts each down to the paw: joints’ heights and their distance from the ends of the trunk, lengths, radii; shoulder and hip glide along with the paw, as blades and pelvis turn',
  citation: `${NO_SOURCE}; fore and hind legs are about equally long, 0.47 and 0.46 m in ${USHERWOOD}`,
  status: 'assumption',
};

export const DOG_TAIL_LENGTH: Figure<number> = {
  id: 'pets.tail.length.dog',
  value: 0.45,
  unit: 'share of the height at the withers',
  used_in: 'length of every dog’s tail: nearly to the hock',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const CAT_TAIL_LENGTH: Figure<number> = {
  id: 'pets.tail.length.cat',
  value: 1.25,
  unit: 'share of the height at the withers',
  used_in: 'length of every cat’s tail',
  citation: CAT_SIZE,
  status: 'second-hand',
  note: '0.30 m at the middle height of 0.24 m',
};

type Tail = {
  readonly radius: number;
  readonly up_deg: number;
  readonly hanging_deg: number;
  readonly swing_deg: number;
  readonly per_stride: number;
  readonly hertz: number;
};
export const DOG_TAIL: Figure<Tail> = {
  id: 'pets.tail.dog',
  value: { radius: 0.03, up_deg: 50, hanging_deg: -65, swing_deg: 30, per_stride: 2, hertz: 2 },
  unit: 'share of the height at the withers; deg above the level; deg to each side; wags a stride; Hz standing',
  used_in: 'a dog’s tail: up or hanging, wagging',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const CAT_TAIL: Figure<Tail> = {
  id: 'pets.tail.cat',
  value: { radius: 0.04, up_deg: 75, hanging_deg: -35, swing_deg: 8, per_stride: 1, hertz: 0.5 },
  unit: 'share of the height at the withers; deg above the level; deg to each side; swings a stride; Hz standing',
  used_in: 'a cat’s tail: up or hanging, swaying a little',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const TAIL_UP: Figure<number> = {
  id: 'pets.tail.up_share',
  value: 0.5,
  unit: 'share',
  used_in: 'pets that carry the tail up; all others let it hang',
  citation: NO_SOURCE,
  status: 'assumption',
};

type Pace = { readonly froude_speed: number; readonly sd_share: number };
export const DOG_SPEED: Figure<Pace> = {
  id: 'pets.speed.dog',
  value: { froude_speed: 0.3635, sd_share: 0.1 },
  unit: 'v / √(g × height at the withers); standard deviation as a share',
  used_in: 'preferred walking speed of a dog',
  citation: `0.78 and 0.96 m/s: ${LABRADORS}; 0.546 to 0.622 m: ${AKC}`,
  status: 'computed',
  note: 'middle of both speeds over the breed’s middle height; that it holds for all sizes is dynamic similarity, an assumption, and so is the scatter; dogs of about 6.5 kg trot at 0.9-1.1 m/s (W. T. Kano et al., BMC Vet. Res. 12:2, 2016, abstract)',
};

export const CAT_SPEED: Figure<Pace> = {
  id: 'pets.speed.cat',
  value: { froude_speed: 0.417, sd_share: 0.05 },
  unit: 'v / √(g × height at the withers); standard deviation as a share',
  used_in: 'preferred walking speed of a cat',
  citation: `0.54 to 0.74 m/s: ${CATS_WALKING}; 0.24 m: ${CAT_SIZE}`,
  status: 'computed',
  note: 'middle of the accepted speeds, their limits taken for three standard deviations',
};

export const PET_STRIDE_RATE: Figure<{ readonly hertz: number; readonly exponent: number }> = {
  id: 'pets.gait.stride_rate',
  value: { hertz: 1.62, exponent: -0.15 },
  unit: 'Hz at 1 kg; power of the mass in kg',
  used_in: 'strides a second at the preferred speed',
  citation: PREFERRED_GAIT,
  status: 'published',
};

export const PET_DUTY: Figure<{ readonly share: number; readonly exponent: number }> = {
  id: 'pets.gait.duty',
  value: { share: 0.62, exponent: 0.02 },
  unit: 'share of the stride at 1 kg; power of the mass in kg',
  used_in: 'how long a paw stands, at the preferred speed',
  citation: PREFERRED_GAIT,
  status: 'published',
};

export const PET_OTHER_SPEEDS: Figure<{
  readonly stride_exponent: number;
  readonly duty_exponent: number;
  readonly least_duty: number;
  readonly most_duty: number;
}> = {
  id: 'pets.gait.other_speeds',
  value: { stride_exponent: 0.68, duty_exponent: -0.28, least_duty: 0.55, most_duty: 0.8 },
  unit: 'powers of the speed over the preferred speed; shares of the stride',
  used_in: 'how length of stride and duty factor change with speed, and the ends of what is called a walk here',
  citation: `λ/h = 2.4 F^0.34 and duty factor 0.52 F^-0.14, F the square of a relative speed: ${ALEXANDER}`,
  status: 'from memory',
};

export const PET_LAG: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'pets.gait.lag',
  value: { low: 0.15, high: 0.25 },
  unit: 'share of the stride',
  used_in:
    'how much later the forepaw lands than the hind paw of its side, drawn evenly; right and left are half a stride apart',
  citation: HILDEBRAND,
  status: 'from memory',
};

export const PET_LIFT: Figure<number> = {
  id: 'pets.gait.lift',
  value: 0.1,
  unit: 'share of the height at the withers',
  used_in: 'how high a paw is swung',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const PET_STILL: Figure<{ readonly sit_down_s: number; readonly turn_s: number; readonly paws_ahead: number }> =
  {
    id: 'pets.still',
    value: { sit_down_s: 0.9, turn_s: 1.4, paws_ahead: 0.4 },
    unit: 's; share of the height at the withers',
    used_in:
      'sitting down or standing up; half a turn on the spot, in four steps of each paw; how far a sitting pet’s hind paws are ahead of its hips',
    citation: NO_SOURCE,
    status: 'assumption',
  };
