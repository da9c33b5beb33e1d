/** Small helpers to tell stories in bits: `10` is A broken, B clear. */
import fc from 'fast-check';
import { LogicHost } from '../../src/counter/host.js';
import type { Direction, Level, Logic } from '../../src/counter/logic.js';

export function levelsFromBits(bits: string): readonly Level[] {
  return bits.split('').map((bit) => (bit === '1' ? 1 : 0));
}

export function maskFromBits(bits: string): number {
  return bits.split('').reduce((mask, bit, i) => mask | (bit === '1' ? 1 << i : 0), 0);
}

/** Plays `00-10-11-01-00`, one pattern every `every_us`, and lists the tallies. */
export function playBits(logic: Logic, sequence: string, every_us = 100_000): Direction[] {
  const tallies: Direction[] = [];
  const host = new LogicHost(logic, { onTally: (_time, direction) => tallies.push(direction) });
  for (const [i, bits] of sequence.split('-').entries()) host.input(i * every_us, levelsFromBits(bits));
  host.finish(Number.MAX_SAFE_INTEGER);
  return tallies;
}

export interface Instant {
  readonly time_us: number;
  readonly mask: number;
}

/** All tallies with their times, wakes included. */
export function playInstants(logic: Logic, instants: readonly Instant[]): [number, Direction][] {
  const tallies: [number, Direction][] = [];
  const host = new LogicHost(logic, { onTally: (time_us, direction) => tallies.push([time_us, direction]) });
  for (const { time_us, mask } of instants) host.inputMask(time_us, mask);
  host.finish(Number.MAX_SAFE_INTEGER);
  return tallies;
}

/**
 * Instants with gaps from nothing to beyond every timeout, on a grid coarse enough that changes fall exactly on
 * timeouts often.
 */
export function instants(maxLength = 60): fc.Arbitrary<Instant[]> {
  const gap_us = fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min: 1, max: 8 }).map((n) => n * 50_000) },
    { weight: 2, arbitrary: fc.constantFrom(200_000, 400_000, 600_000, 1_000_000) },
    { weight: 1, arbitrary: fc.integer({ min: 1, max: 5_000_000 }) },
  );
  return fc.array(fc.tuple(gap_us, fc.integer({ min: 0, max: 3 })), { minLength: 1, maxLength }).map((steps) => {
    let time_us = 0;
    return steps.map(([gap, mask]) => ({ time_us: (time_us += gap), mask }));
  });
}
