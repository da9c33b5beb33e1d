/**
 * The ultrasonic ranger: a burst of sound on demand, and the time until its first echo that is loud enough.
 *
 * - The burst goes out as the turn starts; where bodies are at that instant counts. A walker moves 3 cm while sound
 *   goes 4 m and back, a twentieth of a step.
 * - The first echo at or above the threshold wins, however weak against a later one. Its time is that of its front.
 * - An echo nearer than the blind zone is not heard, the next one is. What stands there still hides the walls.
 * - Further away than the furthest echo of the empty frame nothing is listened for: what is heard while a body hides
 *   that echo is a body nearer than it, or nothing.
 */
import type { Ranger, RangerPlace, Scene } from '../ranger.js';
import { earOf } from './ear.js';
import { nearestEcho } from './echo.js';
import { hearingOf } from './hearing.js';
import { audibleOf, heightsOf, nearOf } from './near.js';
import { readingOf } from './reading.js';
import type { UltrasonicRanger } from './schema.js';
import { openWall, wallEchoes } from './walls.js';

export function makeUltrasonic(place: RangerPlace): Ranger {
  const { line } = place.mounted;
  const sensor = ultrasonicOf(place);
  const hearing = hearingOf(line, sensor, place.surroundings);
  const walls = wallEchoes(hearing, line, sensor, place.opening);
  const limit_m = walls.at(-1)?.distance_m ?? hearing.reach_m;
  const timeOut_us = Math.round(sensor.time_out_ms * 1000);
  const audible = audibleOf(hearing, limit_m);
  const near_m = nearOf(hearing, audible, walls);
  return {
    near_m,
    heights_m: heightsOf(hearing, audible, walls),
    poseTime: (start_us) => start_us,
    latest_us: 0,
    held_us: 0,
    sees(scene: Scene): number {
      const wall = openWall(walls, hearing, scene);
      const limit = wall < limit_m ? wall : limit_m;
      const nearest = nearestEcho(scene, hearing, audible, limit);
      return nearest < limit ? nearest : wall;
    },
    busy_us: (seen_m) => Math.min(timeOut_us, Math.round((2e6 * seen_m) / hearing.speed_mps)),
    reading: (seen_m, u) => readingOf(hearing, sensor, seen_m, u),
    strays_m: [hearing.blind_m, hearing.reach_m],
    ear: earOf(hearing, sensor, near_m, place),
  };
}

function ultrasonicOf({ mounted }: RangerPlace): UltrasonicRanger {
  if (mounted.sensor.kind !== 'ultrasonic-ranger') throw new TypeError('makeUltrasonic: not an ultrasonic ranger');
  return mounted.sensor;
}
