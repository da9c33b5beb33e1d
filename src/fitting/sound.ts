/**
 * Speed of sound in air by its temperature, and back: c = 343.2 √(T/293.15 K).
 *
 * Source: ISO 9613-1:1993, second-hand.
 */
const AT_20_C = 343.2;
const KELVIN = 273.15;

/** m/s at °C. */
export function soundSpeed(temperature_c: number): number {
  return AT_20_C * Math.sqrt((temperature_c + KELVIN) / (20 + KELVIN));
}

/** °C at which sound has this speed, m/s. */
export function airTemperature(speed_mps: number): number {
  const ratio = speed_mps / AT_20_C;
  return (20 + KELVIN) * ratio * ratio - KELVIN;
}

/** How fast {@link airTemperature} grows with speed, °C per m/s. */
export function temperatureSlope(speed_mps: number): number {
  return (2 * (20 + KELVIN) * speed_mps) / (AT_20_C * AT_20_C);
}
