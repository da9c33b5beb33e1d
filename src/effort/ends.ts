/** What of a door's sensors has a cable, and where in the frame it sits. */
import type { Mount } from '../geometry/schema.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import type { Sensor } from '../sensors/schema.js';

/** How a sensor is put up; light barriers by their layout. */
export type Sort = 'through_beam' | 'reflector' | 'ultrasonic' | 'triangulation' | 'time_of_flight';

export interface CabledEnd {
  readonly door: string;
  readonly beam: string;
  /** The emitter or the ranger; the receiver of a through-beam barrier. */
  readonly end: 'near' | 'far';
  readonly mount: Mount;
  /** From the left jamb to the right, as seen walking forward. */
  readonly across_m: number;
  readonly height_m: number;
}

export function sortOf(sensor: Sensor): Sort {
  switch (sensor.kind) {
    case 'light-barrier':
      return sensor.layout === 'reflector' ? 'reflector' : 'through_beam';
    case 'ultrasonic-ranger':
      return 'ultrasonic';
    case 'triangulation-ranger':
      return 'triangulation';
    case 'time-of-flight-ranger':
      return 'time_of_flight';
  }
}

/** Ends in the order of the door's beams, the near one first. A reflector has no cable. */
export function cabledEnds(design: Design, door: DesignDoor): CabledEnd[] {
  return door.beams.flatMap((beam) => {
    const { mount, height_m } = beam;
    const left = mount === 'left-jamb';
    const near_m = mount === 'lintel' ? (beam.across_m ?? door.width_m / 2) : left ? 0 : door.width_m;
    const common = { door: door.name, beam: beam.name };
    const near: CabledEnd = { ...common, end: 'near', mount, across_m: near_m, height_m };
    if (sortOf(sensorNamed(design, beam.sensor)) !== 'through_beam') return [near];
    const far: CabledEnd = {
      ...common,
      end: 'far',
      mount: left ? 'right-jamb' : 'left-jamb',
      across_m: door.width_m - near_m,
      height_m: beam.far_height_m ?? height_m,
    };
    return [near, far];
  });
}
