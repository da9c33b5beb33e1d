/** Levels and what they are as plain ratios of power. */
import { exp, ln } from '../../engine/arithmetic.js';

export const LN10 = 2.302585092994046;

/** Ratio of powers that a level difference in dB stands for. */
export function powerOf(level_db: number): number {
  return exp((level_db * LN10) / 10);
}

/** Level difference in dB that a ratio of powers makes; −Infinity for none. */
export function levelOf(power: number): number {
  return power > 0 ? (10 * ln(power)) / LN10 : -Infinity;
}
