/** The temperature of air by its speed of sound: the way back of {@link speedOfSound}. */
import { speedOfSound } from '../sensors/ultrasonic/air.js';

const AT_20_C = speedOfSound(20);
const KELVIN = 273.15;

/** °C at which sound has this speed, m/s. */
export function airTemperature(speed_mps: number): number {
  const ratio = speed_mps / AT_20_C;
  return (20 + KELVIN) * ratio * ratio - KELVIN;
}

/** How fast {@link airTemperature} grows with speed, °C per m/s. */
export function temperatureSlope(speed_mps: number): number {
  return (2 * (20 + KELVIN) * speed_mps) / (AT_20_C * AT_20_C);
}
