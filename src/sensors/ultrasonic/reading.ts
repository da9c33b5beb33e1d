/** From what a ranger hears to the number its controller works with. */
import { normalQuantile } from '../../engine/distribution-functions.js';
import { NO_ECHO } from '../ranger.js';
import { speedOfSound } from './air.js';
import type { Hearing } from './hearing.js';
import type { UltrasonicRanger } from './schema.js';

/**
 * A reading: noise on the echo, its time counted in whole ticks (the nearest), and that turned back into distance by
 * the speed of sound at the temperature the controller takes for granted.
 *
 * What every reading is too long by comes on top, as if it were the controller's.
 *
 * An echo that noise carries into the blind zone comes at its end; one carried beyond the reach is none.
 *
 * @param seen_m Infinity for no echo @param u uniform on (0, 1) @returns whole micrometres or NO_ECHO
 */
export function readingOf(hearing: Hearing, sensor: UltrasonicRanger, seen_m: number, u: number): number {
  if (!(seen_m < Infinity)) return NO_ECHO;
  const noisy = seen_m + normalQuantile(u, 0, 1) * (sensor.noise_m + sensor.noise_per_m * seen_m);
  if (noisy > hearing.reach_m) return NO_ECHO;
  const distance = noisy < hearing.blind_m ? hearing.blind_m : noisy;
  const ticks = Math.round((2e6 * distance) / hearing.speed_mps / sensor.tick_us);
  const taken_um = (ticks * sensor.tick_us * speedOfSound(sensor.assumed_temperature_c)) / 2;
  return Math.max(0, Math.round(taken_um + 1e6 * sensor.bias_m));
}
