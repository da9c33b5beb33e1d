/**
 * The infrared triangulation ranger: the angle at which a light spot comes back, given out as a voltage.
 *
 * - It measures all the time, one measurement after another, and holds the output of the last one that is complete; its
 *   middle is the instant that counts. Read twice within one measurement it gives the same pose; the noise is that of
 *   the reading.
 * - Where the spot lies half on a limb, the detector's centroid is pulled: places are weighted by the share of the spot
 *   and the return, which falls with the square of the distance. Clothing is taken to be as bright as the wall.
 * - Nearer than the fold a body reads as further away. Beyond the range the return drops below the noise of the
 *   detector, and the output fades with it to the base: taken as in proportion to the return. The noise grows
 *   meanwhile, to twice as much with nothing left.
 */
import { normalQuantile } from '../../engine/distribution-functions.js';
import { slabOf, spotAlong } from '../optics/spot.js';
import { Targets } from '../optics/targets.js';
import type { Ranger, RangerPlace, Scene } from '../ranger.js';
import { distanceAt, placeOf, voltsAt } from './curve.js';
import { countOf, lineariserOf } from './linearise.js';

export function makeTriangulation({ mounted, surroundings, phase }: RangerPlace): Ranger {
  const { sensor, line } = mounted;
  if (sensor.kind !== 'triangulation-ranger') throw new TypeError('makeTriangulation: not a triangulation ranger');
  const spot = spotAlong(line, sensor.spot_diameter_m / 2, sensor.spot_growth_m_per_m / 2);
  const slab = slabOf(spot);
  const targets = new Targets();
  const { range_m } = sensor;
  // A curve with an offset below 0 has no volts nearer than that.
  const fold_m = Math.max(sensor.fold_m, LEAST_M - sensor.offset_m);
  const period_us = Math.max(1, Math.round(sensor.measure_ms * 1000));
  const first_us = Math.floor(phase * period_us);
  const conversion_us = Math.round(sensor.conversion_ms * 1000);
  const { sunlight_klx } = surroundings;
  const sd_v = sensor.noise_v + sensor.sunlight_noise_v_per_klx * sunlight_klx;
  const shift_v = sensor.sunlight_shift_v_per_klx * sunlight_klx;
  const distanceOf = lineariserOf(sensor);

  /** Weight of a target, 1 for all of the spot at the end of the range. */
  const weightOf = (share: number, distance_m: number): number => {
    const d = Math.max(distance_m, LEAST_M);
    return (share * range_m * range_m) / (d * d);
  };

  return {
    near_m: slab.along_m,
    heights_m: slab.heights_m,
    latest_us: 0,
    // The middle of a measurement that was completed nearly a whole one ago.
    held_us: period_us + (period_us >> 1),
    poseTime(start_us) {
      const complete = Math.floor((start_us - first_us) / period_us);
      return first_us + complete * period_us - (period_us >> 1);
    },
    sees(scene: Scene): number {
      targets.find(scene, spot);
      let weight = weightOf(targets.left, spot.behind_m);
      let place = weight * placeOf(sensor, fold_m, spot.behind_m);
      for (let i = 0; i < targets.count; i++) {
        const distance = targets.distance_m[i]!;
        const own = weightOf(targets.share[i]!, distance);
        weight += own;
        place += own * placeOf(sensor, fold_m, distance);
      }
      return distanceAt(sensor, (place / weight) * Math.min(1, weight));
    },
    busy_us: () => conversion_us,
    reading(seen_m, u) {
      const faded = seen_m > range_m ? 2 - range_m / seen_m : 1;
      const noise_v = u === 0.5 ? 0 : sd_v * faded * normalQuantile(u, 0, 1);
      return distanceOf(countOf(sensor, voltsAt(sensor, seen_m) + shift_v - noise_v));
    },
    strays_m: [fold_m, range_m],
    ear: null,
  };
}
/** Nearer than this the return grows no more, metres. */
const LEAST_M = 0.01;
