/**
 * The optical time-of-flight ranger: light into a cone, and the time until it comes back.
 *
 * - A reading gathers light over its timing budget; the pose in the middle of it counts.
 * - Return strength: share of the cone, times reflectance, over the square of the distance. What can be told from the
 *   noise is set by the range in the dark: it grows with the square root of the budget, and daylight divides the range
 *   by 1 + light / (light that halves it).
 * - Targets nearer to each other than {@link MERGE} blur into one, at their mean weighted by strength; of groups apart
 *   the nearest that is strong enough wins. What is nearer than the blind zone takes its share of the light and gives
 *   nothing; neither does what is further than the range, however strong.
 */
import { DEG, cos, sin } from '../../engine/arithmetic.js';
import { normalQuantile } from '../../engine/distribution-functions.js';
import { slabOf, spotAlong } from '../optics/spot.js';
import { Targets } from '../optics/targets.js';
import type { Ranger, RangerPlace, Scene } from '../ranger.js';
import { NO_ECHO, micrometres } from '../ranger.js';
import { MERGE, RANGE_BUDGET, RANGE_REFLECTANCE } from './figures.js';
import type { TimeOfFlightRanger } from './schema.js';

export function makeTimeOfFlight({ mounted, surroundings }: RangerPlace): Ranger {
  const { sensor, line } = mounted;
  if (sensor.kind !== 'time-of-flight-ranger') throw new TypeError('makeTimeOfFlight: not a time-of-flight ranger');
  const half = sensor.half_angle_deg * DEG;
  const spot = spotAlong(line, 0, sin(half) / cos(half));
  const slab = slabOf(spot);
  const targets = new Targets();
  const least = leastStrength(sensor, surroundings.sunlight_klx);
  const { blind_m, range_m, reflectance_least, reflectance_most, jamb_reflectance } = sensor;
  // Nothing is divided by the square of nothing.
  const near_m = Math.max(blind_m, LEAST_M);
  const budget_us = Math.round(sensor.timing_budget_ms * 1000);
  const noise = Math.sqrt(RANGE_BUDGET.value / sensor.timing_budget_ms);

  return {
    near_m: slab.along_m,
    heights_m: slab.heights_m,
    latest_us: budget_us >> 1,
    held_us: 0,
    poseTime: (start_us) => start_us + (budget_us >> 1),
    sees(scene: Scene): number {
      targets.find(scene, spot);
      // What is behind everybody is the last target.
      const { count } = targets;
      for (let first = 0; first <= count; first++) {
        const from = first < count ? targets.distance_m[first]! : spot.behind_m;
        if (from < near_m) continue;
        let strength = 0;
        let sum = 0;
        for (let i = first; i <= count; i++) {
          const last = i === count;
          const distance = last ? spot.behind_m : targets.distance_m[i]!;
          if (distance > from + MERGE.value) break;
          const share = last ? targets.left : targets.share[i]!;
          const reflectance = last ? jamb_reflectance : clothOf(scene.clothing[targets.capsule[i]!]!);
          const own = (share * reflectance) / (distance * distance);
          strength += own;
          sum += own * distance;
        }
        if (strength < least) continue;
        const seen_m = sum / strength;
        return seen_m <= range_m ? seen_m : Infinity;
      }
      return Infinity;
    },
    busy_us: () => budget_us,
    reading(seen_m, u) {
      if (seen_m === Infinity) return NO_ECHO;
      const sd_m = (sensor.noise_m + sensor.noise_per_m * seen_m) * noise;
      const metres = seen_m + sensor.bias_m + (u === 0.5 ? 0 : sd_m * normalQuantile(u, 0, 1));
      if (metres > range_m) return NO_ECHO;
      const steps = Math.round(Math.max(blind_m, metres) / sensor.step_m);
      return micrometres(steps * sensor.step_m);
    },
    strays_m: [blind_m, range_m],
    ear: null,
  };

  function clothOf(drawn: number): number {
    return reflectance_least + drawn * (reflectance_most - reflectance_least);
  }
}

const LEAST_M = 1e-4;

/** Strength from which a target is told from the noise, 1/m². */
function leastStrength(sensor: TimeOfFlightRanger, sunlight_klx: number): number {
  const range_m = sensor.range_m / (1 + sunlight_klx / sensor.sunlight_halves_at_klx);
  return (RANGE_REFLECTANCE.value / (range_m * range_m)) * Math.sqrt(RANGE_BUDGET.value / sensor.timing_budget_ms);
}
