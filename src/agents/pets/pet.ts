/** One drawn dog or cat: its size and how it walks. */
import { standardWithin3, uniform } from '../../engine/distributions.js';
import { pow } from '../../engine/arithmetic.js';
import type { Stream } from '../../engine/stream.js';
import { GRAVITY } from '../figures/pace.js';
import {
  CAT,
  CAT_SPEED,
  DOG_SIZES,
  DOG_SPEED,
  PET_DUTY,
  PET_LAG,
  PET_OTHER_SPEEDS,
  PET_STRIDE_RATE,
  TAIL_UP,
} from '../figures/pets.js';
import type { PetWalker } from '../schema.js';
import { longestStride } from './leg.js';

export interface Pet {
  readonly species: 'dog' | 'cat';
  /** Height at the withers, metres: the model unit. */
  readonly withers_m: number;
  readonly mass_kg: number;
  readonly speed_mps: number;
  /** Way from one landing of a paw to the next, in heights at the withers. */
  readonly stride: number;
  /** Share of the stride in which a paw stands. */
  readonly duty: number;
  /** How much later the forepaw lands than the hind paw of its side, share of the stride. */
  readonly lag: number;
  readonly tail_up: boolean;
}

/** Draw numbers in a pet's stream. Never renumber: only add. */
const DRAW = { withers: 0, speed: 1, lag: 2, tail: 3 } as const;

/**
 * One pet of `walker`, a pure function of the stream.
 *
 * @param homePace as for people: a share of the preferred pace; a speed the walker states is taken as it is
 */
export function drawPet(walker: PetWalker, chance: Stream, homePace: number): Pet {
  const species = walker.kind;
  const size = walker.kind === 'dog' ? DOG_SIZES[walker.size].value : CAT.value;
  const withers_m = walker.withers_m ?? uniform(chance.at(DRAW.withers), size.withers_low, size.withers_high);
  const share = (withers_m - size.withers_low) / (size.withers_high - size.withers_low);
  const mass_kg = size.mass_low + (size.mass_high - size.mass_low) * Math.min(1, Math.max(0, share));
  const pace = (species === 'dog' ? DOG_SPEED : CAT_SPEED).value;
  const preferred = pace.froude_speed * Math.sqrt(GRAVITY.value * withers_m);
  const speed_mps =
    walker.speed_mps ?? homePace * preferred * (1 + pace.sd_share * standardWithin3(chance.at(DRAW.speed)));

  // Strides are longer and paws stand shorter at a quicker walk; both laws hold at the preferred speed.
  const { stride_exponent, duty_exponent, least_duty, most_duty } = PET_OTHER_SPEEDS.value;
  const relative = speed_mps / preferred;
  const duty = Math.min(
    most_duty,
    Math.max(least_duty, PET_DUTY.value.share * pow(mass_kg, PET_DUTY.value.exponent) * pow(relative, duty_exponent)),
  );
  const rate = PET_STRIDE_RATE.value.hertz * pow(mass_kg, PET_STRIDE_RATE.value.exponent);
  const stride = ((preferred / rate) * pow(relative, stride_exponent)) / withers_m;
  return {
    species,
    withers_m,
    mass_kg,
    speed_mps,
    stride: Math.min(stride, longestStride(duty)),
    duty,
    lag: uniform(chance.at(DRAW.lag), PET_LAG.value.low, PET_LAG.value.high),
    tail_up: chance.at(DRAW.tail) < TAIL_UP.value,
  };
}
