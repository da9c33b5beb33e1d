/** Sound in air: how fast, and how much of it the air swallows. ISO 9613-1:1993 (formulas as restated publicly). */
import { exp, pow } from '../../engine/arithmetic.js';
import { LN10 } from './decibel.js';

/** Air as ISO 9613-1 describes it. */
export interface Air {
  readonly temperature_c: number;
  readonly humidity_percent: number;
  readonly pressure_kpa: number;
}

const REFERENCE_KPA = 101.325;
const T0 = 293.15;
/** Triple point of water, K. */
const T01 = 273.16;
const KELVIN = 273.15;

/** Speed of sound, m/s: 343.2·√(T/293.15 K), the speed that goes with ISO 9613-1. Humidity adds at most 0.5 %; left out. */
export function speedOfSound(temperature_c: number): number {
  return 343.2 * Math.sqrt((temperature_c + KELVIN) / T0);
}

/**
 * Absorption of a pure tone, dB/m: ISO 9613-1:1993 equations (3) to (5). The standard claims ±10 % from −20 to 50 °C,
 * 0.05 to 5 % of water vapour and frequency over pressure up to 10 Hz/Pa (40 kHz: 0.4 Hz/Pa).
 */
export function absorption(frequency_hz: number, { temperature_c, humidity_percent, pressure_kpa }: Air): number {
  const kelvin = temperature_c + KELVIN;
  const p = pressure_kpa / REFERENCE_KPA;
  const t = kelvin / T0;
  // Molar concentration of water vapour, %.
  const h = (humidity_percent / p) * exp(LN10 * (-6.8346 * pow(T01 / kelvin, 1.261) + 4.6151));
  const oxygen = p * (24 + (4.04e4 * h * (0.02 + h)) / (0.391 + h));
  const nitrogen = (p / Math.sqrt(t)) * (9 + 280 * h * exp(-4.17 * (pow(t, -1 / 3) - 1)));
  const f2 = frequency_hz * frequency_hz;
  const classical = (1.84e-11 / p) * Math.sqrt(t);
  const relaxing =
    (0.01275 * exp(-2239.1 / kelvin)) / (oxygen + f2 / oxygen) +
    (0.1068 * exp(-3352 / kelvin)) / (nitrogen + f2 / nitrogen);
  return 8.686 * f2 * (classical + pow(t, -2.5) * relaxing);
}
