/** What runs straight along each beam's own line: a barrier's beam, a ranger's axis. */
import type { BeamPath } from './door-sensors.js';
import { clearanceOf } from './light-barrier/covered-share.js';
import type { MountedBeam } from './mounted.js';
import { isBarrier } from './mounted.js';

/** One path per beam. A ranger's axis is a thin line that any touch breaks: what stands in it, not what the ranger says. */
export function axisPaths(beams: readonly MountedBeam[]): BeamPath[] {
  return beams.map((beam) => ({
    line: beam.line,
    emitter: beam.index,
    receiver: beam.index,
    clearance: isBarrier(beam) ? clearanceOf(beam.sensor.beam_diameter_m, beam.sensor.covered_share) : () => 0,
  }));
}
