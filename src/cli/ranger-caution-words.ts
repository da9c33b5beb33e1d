/** Cautions about rangers in words. The key each is about: ranger-caution-keys.ts. */
import { decimal, metres, plain, joined } from '../report/words.js';
import { FACT_ROD } from '../simulate/ranger-facts-rod.js';
import type { RangerCaution } from '../simulate/ranger-caution-types.js';
import { shareWords, walkersWords } from './lines.js';
import { heardWords, needsWords, othersWords, takenWords } from './ranger-words.js';
import { centimetres, degrees, millimetres, preciseMs, speed } from './unit-words.js';

export interface CautionWords {
  readonly message: string;
  readonly hint: string;
}

export function rangerCautionWords(caution: RangerCaution): CautionWords {
  switch (caution.code) {
    case 'scan_stretched':
      return {
        message: `cycle_ms of ${preciseMs(caution.cycle_ms)} is too short for ${joined(caution.turn.map(plain))} and is stretched to ${needsWords(caution)}`,
        hint: 'the interval grows by that; shorten what takes longest, or write the cycle it really has',
      };
    case 'scan_slow': {
      const { first, second, spacing_m, scan } = caution;
      return {
        message: `each of ${plain(first)} and ${plain(second)} is read every ${preciseMs(scan.interval.idle_ms)}: over ${metres(spacing_m)} the order is sure only up to ${speed(scan.sure_to_mps)}; ${walkersWords(scan.unsure)} are faster`,
        hint: 'shorten cycle_ms, read fewer rangers with one controller, or set the two further apart',
      };
    }
    case 'cones_overlap':
      return {
        message: `over ${shareWords(caution.overlap)} of the width ${plain(caution.first)} and ${plain(caution.second)}, ${metres(caution.spacing_m)} apart, see a rod half-way between them at once; ${walkersWords(caution.same_scan)} begin to break both within one interval`,
        hint: 'set them further apart, turn them outwards, or take narrower cones',
      };
    case 'wrong_order':
      return {
        message: `${walkersWords(caution.wrong)} are seen by the further one of ${plain(caution.first)} and ${plain(caution.second)} first: cones widen away from their sensors`,
        hint: 'put both into one jamb, set them further apart, or take narrower cones',
      };
    case 'no_background':
      return backgroundWords(caution);
    case 'idle_broken':
      return {
        message:
          caution.reads_m === null
            ? `${names(caution.beams)} read nothing of the idle door, and no_echo takes that for broken: always broken`
            : `${names(caution.beams)} read ${metres(round3(caution.reads_m))} of the idle door, nearer than the switching point of ${metres(round3(caution.point_m))}: always broken`,
        hint:
          caution.reads_m === null
            ? 'no_echo: clear, or a frame within the range'
            : 'the switching point must be nearer than what the idle door reads',
      };
    case 'never_broken':
      return {
        message: `the switching point of ${names(caution.beams)}, ${metres(round3(caution.point_m))}, is nearer than the ${metres(caution.nearest_m)} they can tell: nobody breaks them`,
        hint: caution.learnt ? 'a smaller margin_m' : 'a greater nearer_than_m',
      };
    case 'margin_noise':
      return {
        message: `noise alone breaks ${names(caution.beams)} ${perHour(caution.per_hour)}: the margin of ${millimetres(caution.margin_m)} stands against ${millimetres(caution.noise_m)} for three standard deviations`,
        hint: `${caution.learnt ? 'a greater margin_m' : 'a nearer nearer_than_m'}, median_of, or minimum_samples`,
      };
    case 'near_gap':
      return {
        message: `an upright rod ${millimetres(2 * FACT_ROD.radius_m)} thick nearer than ${centimetres(caution.gap_m)} to ${names(caution.beams)} breaks nothing (what they can tell begins at ${metres(caution.nearest_m)})`,
        hint: 'set the sensor back into the frame, or let the other jamb see who brushes past',
      };
    case 'heard': {
      const { heard, idle_m } = caution;
      const own = idle_m === null ? '' : ` instead of ${metres(round3(idle_m))}`;
      const breaks = heard.breaks
        ? `; it breaks the idle door in ${shareWords({ value: heard.share })} of readings`
        : '';
      const learns = heard.background ? '; it learns that for its background, and nobody behind it is seen' : '';
      return {
        message: `${heardWords(heard)}, and takes it for ${takenWords(heard)}${own}${breaks}${learns}${othersWords(caution.others)}`,
        hint: 'give them turns of their own and time for echoes to die away, or frequencies apart',
      };
    }
    case 'temperature':
      return {
        message: `at ${degrees(caution.real_c)} taken for ${degrees(caution.assumed_c)} ${names(caution.beams)} read the idle door ${millimetres(caution.off_m)} too ${caution.off_m < 0 ? 'short' : 'long'}, more than half of the ${millimetres(caution.margin_m)} between it and the switching point`,
        hint: 'assumed_temperature_c as it really is, or a learnt background instead of nearer_than_m',
      };
    case 'unseen': {
      const { ever, read, broken } = caution.crossings;
      return {
        message:
          `${shareWords({ value: 1 - broken.value })} of this door's walkers never switch ${names(caution.beams)}: ` +
          `${shareWords(ever)} come near enough, ${shareWords(read)} are caught by a reading every ${preciseMs(caution.interval_ms)}`,
        hint: 'mind height, switching point, interval, median_of and minimum_samples',
      };
    }
    case 'flicker':
      return {
        message: `read every ${preciseMs(caution.interval_ms)}, ${plain(caution.beam)} breaks ${decimal(caution.breaks, 2)} times on average while one walker passes: legs and arms one by one, or echoes that fail to come`,
        hint: 'off_delay_ms bridges what is short; or take another height',
      };
    case 'echo_lost':
      return {
        message: `${shareWords(caution.lost)} of ${plain(caution.beam)}'s readings with somebody in its axis come back without echo`,
        hint: 'no_echo: broken or keep, an off_delay_ms that bridges them, or a sensor that minds clothes less',
      };
  }
}

function backgroundWords({
  beams,
  background,
  axis_m,
  nearest_m,
  range_m,
}: RangerCaution & { readonly code: 'no_background' }): CautionWords {
  const frame = `${names(beams)} have no background: the frame is ${centimetres(axis_m)} away along the axis`;
  if (background === 'too-near')
    return {
      message: `${frame}, nearer than the ${metres(nearest_m)} they can tell`,
      hint: 'take a wider opening or a sensor for shorter distances',
    };
  const hint = 'who walks beyond the range is not seen, and nothing tells a dead sensor from an idle door';
  if (background === 'beyond') return { message: `${frame}, beyond their range of ${metres(range_m)}`, hint };
  return { message: `${frame}, but its echo is too faint`, hint: 'point the axis squarely at the frame' };
}

function names(beams: readonly string[]): string {
  return joined(beams.map(plain));
}

function perHour(times: number): string {
  return times >= 1 ? `${decimal(times, times < 10 ? 1 : 0)} times an hour` : `${decimal(24 * times, 1)} times a day`;
}

function round3(x: number): number {
  return Math.round(x * 1000) / 1000;
}
