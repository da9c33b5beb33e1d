/** Built-in figures about sensors: the defaults a scenario may leave out. */
import type { Figure } from '../engine/figure.js';
import { controllerSchema } from './controllers/schema.js';
import { lightBarrierSchema } from './light-barrier/schema.js';
import { timeOfFlightFigures } from './time-of-flight/figures.js';
import { triangulationFigures } from './triangulation/figures.js';
import { ultrasonicFigures } from './ultrasonic/figures.js';

const CONTROLLER = controllerSchema.parse({ name: 'main' });
const DEFAULTS = lightBarrierSchema.parse({ kind: 'light-barrier' });

export function sensorFigures(): Figure[] {
  return [
    {
      id: 'sensor.light_barrier.beam_diameter',
      value: DEFAULTS.beam_diameter_m,
      unit: 'm',
      used_in: 'effective beam of a light barrier that states none: the disc that must be covered',
      citation: 'no source',
      status: 'assumption',
    },
    {
      id: 'sensor.light_barrier.covered_share',
      value: DEFAULTS.covered_share,
      unit: 'share of the beam’s area',
      used_in: 'how much of the beam must be covered to break it',
      citation: 'no source: a barrier whose gain is set to switch at half the light',
      status: 'assumption',
    },
    {
      id: 'sensor.light_barrier.response',
      value: DEFAULTS.response_ms,
      unit: 'ms',
      used_in: 'response time of a light barrier that states none',
      citation: 'no source; modulated receivers need some 7–15 cycles of a 30–56 kHz carrier, 0.2–0.4 ms, and a margin',
      status: 'common practice',
    },
    {
      id: 'sensor.light_barrier.half_angle',
      value: DEFAULTS.half_angle_deg,
      unit: 'deg',
      used_in: 'half-angle of emitter and receiver: whether one barrier dazzles the other',
      citation: 'no source',
      status: 'assumption',
    },
    {
      id: 'sensor.controller.restart',
      value: CONTROLLER.restart_s,
      unit: 's',
      used_in: 'how long a controller that restarts is blind, where the scenario does not say',
      citation: 'no source',
      status: 'assumption',
    },
    ...ultrasonicFigures(),
    ...triangulationFigures(),
    ...timeOfFlightFigures(),
  ];
}
