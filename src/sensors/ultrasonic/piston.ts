/** How a transducer favours sounds along its axis: a circular piston. */
import { besselj1, PI } from '../../engine/arithmetic.js';
import { powerOf } from './decibel.js';
import { Table, keptTable } from './table.js';

/**
 * Far-field pressure of a circular piston in a rigid wall against that on its axis: 2·J1(x)/x, x = k·a·sin θ
 * (Kinsler, Frey, Coppens, Sanders, Fundamentals of Acoustics, ch. 7, from memory).
 */
export function piston(x: number): number {
  return x < 1e-6 ? 1 : (2 * besselj1(x)) / x;
}

/** k·a: piston's circumference in wavelengths. */
export function sizeInWaves(frequency_hz: number, piston_radius_m: number, speed_mps: number): number {
  return (2 * PI * frequency_hz * piston_radius_m) / speed_mps;
}

/**
 * One-way directivity as a ratio of powers, 1 on the axis.
 *
 * A piston in an endless wall sends too much sideways for one in a small housing. So pressure falls further with the
 * angle, evenly in 1 − cos θ, by `shading_db` at right angles: 6.02 dB is the obliquity factor (1 + cos θ)/2 of a
 * piston without a wall, 0 the bare piston.
 *
 * @param ka see {@link sizeInWaves} @param sin2 sin² of the angle from the axis, 0 to 1, in front of the piston
 */
export function directivity(ka: number, shading_db: number, sin2: number): number {
  const shade = 1 - (1 - Math.sqrt(powerOf(-shading_db))) * (1 - Math.sqrt(1 - sin2));
  const pressure = piston(ka * Math.sqrt(sin2)) * shade;
  return pressure * pressure;
}

/** {@link directivity} over sin². Wrong by less than 0.003 of the power on the axis. */
export function directivityTable(ka: number, shading_db: number): Table {
  const cells = Math.min(65_536, Math.max(2048, Math.ceil(32 * ka * ka)));
  return keptTable(
    `beam ${ka} ${shading_db}`,
    () => new Table(1, cells, (sin2) => directivity(ka, shading_db, Math.min(1, sin2))),
  );
}
