/** Speeds, times, short lengths and temperatures as a terminal shows them. */
import { decimal, metres } from '../report/words.js';
import { rounded } from './lines.js';

/** Between number and unit, so that they stay on one line. */
const NBSP = '\u00a0';

export function speed(mps: number): string {
  return `${mps.toFixed(2)}${NBSP}m/s`;
}

/** Of people: whole milliseconds, but for very few. */
export function milliseconds(ms: number): string {
  return `${rounded(ms, ms < 10 ? 1 : 0)}${NBSP}ms`;
}

/** Of machines: to a tenth where it has one. */
export function preciseMs(ms: number): string {
  return `${rounded(ms, 1)}${NBSP}ms`;
}

/** Without sign. */
export function millimetres(m: number): string {
  const mm = Math.abs(1000 * m);
  return `${rounded(mm, mm < 10 ? 1 : 0)}${NBSP}mm`;
}

/** For what is known to the centimetre. */
export function centimetres(m: number): string {
  return metres(Math.round(m * 100) / 100);
}

export function degrees(celsius: number): string {
  return `${decimal(celsius, 1)}${NBSP}°C`;
}
