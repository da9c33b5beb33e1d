/** What a user writes about an ultrasonic ranger. */
import { z } from 'zod';
import { quantity } from '../../engine/quantity.js';
import { rangerCommon } from '../ranger-schema.js';

export const ultrasonicSchema = z.strictObject({
  kind: z
    .literal('ultrasonic-ranger')
    .meta({ description: 'An ultrasonic ranger: a burst of sound on demand, and the time until its first echo.' }),
  frequency_khz: quantity(20, 200, 'kHz', 'Frequency of the burst.').default(40),
  piston_radius_m: quantity(
    0.001,
    0.05,
    'm',
    'Radius of the transducer, a circular piston: with the frequency it decides how wide the cone is.',
  ).default(0.007),
  shading_db: quantity(
    0,
    40,
    'dB',
    'What the housing takes off at right angles to the axis beyond a bare piston, one way; growing from nothing on the axis.',
  ).default(6),
  source_level_db: quantity(
    60,
    140,
    'dB',
    'Sound pressure level of the burst on the axis at 1 m, dB re 20 µPa.',
  ).default(105),
  threshold_db: quantity(20, 120, 'dB', 'Level from which an echo is heard, dB re 20 µPa.').default(68),
  blind_m: quantity(0.002, 0.5, 'm', 'Blind zone: nearer than this the ringing of the burst hides every echo.').default(
    0.02,
  ),
  range_m: quantity(0.1, 20, 'm', 'Echoes from further away than this are not waited for.').default(4),
  time_out_ms: quantity(
    1,
    500,
    'ms',
    'How long the controller waits when no echo comes; no less than the range takes.',
  ).default(38),
  assumed_temperature_c: quantity(
    -20,
    50,
    '°C',
    'Temperature the controller takes for granted when it turns echo time into distance.',
  ).default(20),
  tick_us: quantity(0.01, 1000, 'µs', 'Step of the clock that measures the echo time.').default(1),
  bias_m: quantity(-0.5, 0.5, 'm', 'What every reading is too long by; below 0: too short.').default(0),
  noise_m: quantity(0, 0.5, 'm', 'Standard deviation of a reading, whatever the distance.').default(0.001),
  noise_per_m: quantity(0, 0.5, 'm/m', 'Standard deviation that grows with distance, per metre of it.').default(0.002),
  clothing_least_db: quantity(
    0,
    60,
    'dB',
    "Least that a body's clothing takes off its echo; each body draws its own between least and most.",
  ).default(0),
  clothing_most_db: quantity(0, 60, 'dB', "Most that a body's clothing takes off its echo.").default(12),
  diffuse_db: quantity(
    -60,
    0,
    'dB',
    'Diffuse echo of a limb in the middle of the beam, against a mirror-like one from the same place.',
  ).default(-15),
  bounce_loss_db: quantity(0, 60, 'dB', 'What a reflection at a jamb, lintel or floor takes off.').default(6),
  ...rangerCommon,
});
export type UltrasonicRanger = z.infer<typeof ultrasonicSchema>;
