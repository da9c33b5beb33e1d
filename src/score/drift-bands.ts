/** How the error of a door's count spreads over the clock: quantiles over replicates at even points in time. */
import { quantileSorted } from 'simple-statistics';
import { HOUR_US } from '../engine/time.js';

/** Stretches the clock is divided into; there is a point at the start of each, and one at the end. */
export const STRETCHES = 48;

/** Quantiles over replicates, at even points of the clock. */
export interface Bands {
  readonly clock_h: readonly number[];
  readonly q05: readonly number[];
  readonly q25: readonly number[];
  readonly q50: readonly number[];
  readonly q75: readonly number[];
  readonly q95: readonly number[];
}

/** Counted minus true net flow through a door over the clock. */
export interface DriftBands extends Bands {
  readonly door: string;
  readonly logic: string;
}

/** Error of one logic at one door in one replicate. Feed in any order: memory is one number a point. */
export class DriftTrack {
  private readonly steps: number[] = Array.from({ length: STRETCHES + 1 }, () => 0);

  /** @param span_us length of the clock, microseconds */
  constructor(private readonly span_us: number) {}

  /** A visit with `net` persons forward (backward negative) crossed. */
  crossed(time_us: number, net: number): void {
    this.add(time_us, -net);
  }

  /** A tally: +1 forward, −1 backward. */
  tallied(time_us: number, sign: number): void {
    this.add(time_us, sign);
  }

  /** Counted minus true net flow at each point. */
  errors(): number[] {
    let error = 0;
    return this.steps.map((step) => (error += step));
  }

  private add(time_us: number, step: number): void {
    const point = Math.ceil((time_us * STRETCHES) / this.span_us);
    if (point <= STRETCHES) this.steps[point] = this.steps[point]! + step;
  }
}

/** Bands of one door and logic from the {@link DriftTrack.errors} of each replicate. */
export function driftBands(
  door: string,
  logic: string,
  span_us: number,
  replicates: readonly (readonly number[])[],
): DriftBands {
  return { door, logic, ...bands(span_us, replicates) };
}

/** Quantiles over replicates of what was read at the even points of the clock. */
export function bands(span_us: number, replicates: readonly (readonly number[])[]): Bands {
  const sorted = Array.from({ length: STRETCHES + 1 }, (_, point) =>
    replicates.map((errors) => errors[point]!).sort((a, b) => a - b),
  );
  const band = (share: number) => sorted.map((errors) => quantileSorted(errors, share));
  return {
    clock_h: sorted.map((_, point) => (point * span_us) / STRETCHES / HOUR_US),
    q05: band(0.05),
    q25: band(0.25),
    q50: band(0.5),
    q75: band(0.75),
    q95: band(0.95),
  };
}
