/** How long a controller's turn takes: waiting for what is measured, its loop, and the serial line. Whole microseconds. */
import type { Controller } from './schema.js';

/** From the start of one turn to the start of the next when nothing is said about it. */
const DEFAULT_CYCLE_MS = 30;
/** Start bit, eight data bits, stop bit; no parity. Common practice, no source. */
const BITS_PER_CHARACTER = 10;

/**
 * What a turn needs before anything is waited for: reading, loop, and writing to the serial line, one after another.
 *
 * @param members how many rangers are read in the turn, at least 1
 * @param busy_us how long the slowest of them keeps the controller: whole microseconds
 */
export function turnNeeds_us(controller: Controller, members: number, busy_us: number): number {
  const bits = members * controller.serial_characters * BITS_PER_CHARACTER;
  return busy_us + microseconds(controller.loop_ms) + Math.round((bits * 1e6) / controller.serial_baud);
}

/** The cycle that a turn is to keep, microseconds; undefined with `wait_ms`, which goes by the echo instead. */
export function cycle_us(controller: Controller): number | undefined {
  return controller.wait_ms === undefined ? microseconds(controller.cycle_ms ?? DEFAULT_CYCLE_MS) : undefined;
}

/**
 * From the start of a turn to the start of the next, or to the end of the round: at least 1 µs, so that time goes on.
 * A cycle that is too short for what the turn needs is stretched.
 *
 * @param members how many rangers are read in the turn, at least 1
 * @param busy_us how long the slowest of them keeps the controller: whole microseconds
 */
export function turnLength_us(controller: Controller, members: number, busy_us: number): number {
  const needs_us = turnNeeds_us(controller, members, busy_us);
  const cycle = cycle_us(controller);
  const whole_us = cycle === undefined ? needs_us + microseconds(controller.wait_ms ?? 0) : Math.max(cycle, needs_us);
  return Math.max(1, whole_us);
}

/** What is done once after each round: microseconds. */
export function per_round_us(controller: Controller): number {
  return microseconds(controller.per_round_ms);
}

function microseconds(ms: number): number {
  return Math.round(ms * 1000);
}
