/** A ranger of any kind in its place: the one list of kinds that read distances. */
import type { Ranger, RangerPlace } from './ranger.js';
import { makeTimeOfFlight } from './time-of-flight/ranger.js';
import { makeTriangulation } from './triangulation/ranger.js';
import { makeUltrasonic } from './ultrasonic/ranger.js';

export function makeRanger(place: RangerPlace): Ranger {
  switch (place.mounted.sensor.kind) {
    case 'ultrasonic-ranger':
      return makeUltrasonic(place);
    case 'triangulation-ranger':
      return makeTriangulation(place);
    case 'time-of-flight-ranger':
      return makeTimeOfFlight(place);
  }
}
