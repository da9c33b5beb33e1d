/** Built-in figures about ultrasonic rangers: what a scenario may leave out, and what it can't set. */
import type { Figure } from '../../engine/figure.js';
import { DEAF_SHARE } from './ear.js';
import { ultrasonicSchema } from './schema.js';
import { FRAME_REACH_M } from './walls.js';

const DEFAULTS = ultrasonicSchema.parse({ kind: 'ultrasonic-ranger' });

export function ultrasonicFigures(): Figure[] {
  return [
    {
      id: 'sensor.ultrasonic.frequency',
      value: DEFAULTS.frequency_khz,
      unit: 'kHz',
      used_in: 'wavelength, width of the cone, absorption in air',
      citation: 'no source looked up: the usual frequency of small airborne rangers',
      status: 'from memory',
    },
    {
      id: 'sensor.ultrasonic.piston_radius',
      value: DEFAULTS.piston_radius_m,
      unit: 'm',
      used_in: 'width of the cone: half power one way at 18.4° in air of 20 °C',
      citation: 'no source: somewhat less than the radius of a usual housing, 8 mm',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.shading',
      value: DEFAULTS.shading_db,
      unit: 'dB at 90°, one way',
      used_in: 'how much weaker than a piston in an endless wall a transducer is sideways',
      citation: 'obliquity factor (1 + cos θ)/2 of diffraction theory, 6.02 dB at right angles',
      status: 'from memory',
    },
    {
      id: 'sensor.ultrasonic.source_level',
      value: DEFAULTS.source_level_db,
      unit: 'dB re 20 µPa at 1 m',
      used_in: 'level of every echo',
      citation: 'no source: only its difference to the threshold counts',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.threshold',
      value: DEFAULTS.threshold_db,
      unit: 'dB re 20 µPa',
      used_in: 'which echo is heard',
      citation:
        'no source: set so that a jamb is heard from 4 m, most trunks from 2 m, a child’s forearm and a leg 25° off the axis from 0.8 m',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.blind',
      value: DEFAULTS.blind_m,
      unit: 'm',
      used_in: 'nearest echo that is heard',
      citation: 'ranges of small airborne rangers, 0.02–4 m; no source',
      status: 'common practice',
    },
    {
      id: 'sensor.ultrasonic.range',
      value: DEFAULTS.range_m,
      unit: 'm',
      used_in: 'furthest echo that is waited for',
      citation: 'ranges of small airborne rangers, 0.02–4 m; no source',
      status: 'common practice',
    },
    {
      id: 'sensor.ultrasonic.time_out',
      value: DEFAULTS.time_out_ms,
      unit: 'ms',
      used_in: 'how long a turn without echo keeps the controller',
      citation: 'no source looked up: the echo of 4 m takes 23.3 ms in air of 20 °C, and a margin',
      status: 'from memory',
    },
    {
      id: 'sensor.ultrasonic.assumed_temperature',
      value: DEFAULTS.assumed_temperature_c,
      unit: '°C',
      used_in: 'the speed of sound by which the controller turns time into distance',
      citation: 'no source: 343 m/s is what programs have',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.tick',
      value: DEFAULTS.tick_us,
      unit: 'µs',
      used_in: 'step of a reading: 0.17 mm',
      citation: 'clocks of small controllers count microseconds; no source',
      status: 'common practice',
    },
    {
      id: 'sensor.ultrasonic.bias',
      value: DEFAULTS.bias_m,
      unit: 'm',
      used_in: 'what every reading is too long by',
      citation: 'no source: a ranger that was set right',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.noise',
      value: { constant: DEFAULTS.noise_m, per_metre: DEFAULTS.noise_per_m },
      unit: 'm and m per m, standard deviation',
      used_in: 'scatter of readings',
      citation: 'no source: about a tenth of a wave, and moving air over longer ways',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.clothing',
      value: { least: DEFAULTS.clothing_least_db, most: DEFAULTS.clothing_most_db },
      unit: 'dB',
      used_in: 'what a body’s clothing takes off its echo, evenly between both',
      citation: 'no source: no published figure was found for clothed people at 40 kHz; thick soft cloth takes more',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.diffuse',
      value: DEFAULTS.diffuse_db,
      unit: 'dB below a mirror',
      used_in: 'echo of a limb or the frame in the middle of the beam that doesn’t face the ranger',
      citation: 'no source: folds of cloth and roughness below the wavelength, 8.6 mm',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.bounce_loss',
      value: DEFAULTS.bounce_loss_db,
      unit: 'dB',
      used_in: 'what a reflection at a jamb, lintel or floor takes off',
      citation:
        'no source: surfaces smoother than the wavelength reflect nearly all, but a jamb is narrower than the sound that falls on it, and never quite parallel to the other',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.frame_reach',
      value: FRAME_REACH_M,
      unit: 'm',
      used_in: 'how far either side of a ranger along the walk the frame gives a diffuse echo',
      citation: 'no source: about the depth of a frame in a thick wall',
      status: 'assumption',
    },
    {
      id: 'sensor.ultrasonic.deaf_share',
      value: DEAF_SHARE,
      unit: 'share of the frequency',
      used_in: 'how far apart in frequency two rangers don’t hear each other',
      citation: 'no source: transducers of this kind resonate, and hear little besides',
      status: 'assumption',
    },
  ];
}
