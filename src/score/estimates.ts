/** From counts per replicate to estimates with intervals, and honest words where there is none. */
import { ln } from '../engine/arithmetic.js';
import { chiSquareQuantile } from '../engine/distribution-functions.js';
import { jackknifeHalfWidth, LEVEL } from './jackknife.js';
import type { Estimate } from './metrics-schema.js';

export const FEW_REPLICATES = 'an interval needs at least two replicates';
const ZERO_EVENTS = 'none seen: the bound takes events as independent and is optimistic where they come in clusters';
const NO_WIDTH = 'every replicate gave the same value: the interval has no width and is optimistic';
const ALL_ALIKE =
  'every replicate gave the same value, so the interval is that of a Poisson count: it takes events as independent';

export interface RatioOptions {
  /** What the ratio is multiplied by: 100 for "per 100". Default 1. */
  readonly scale?: number;
  /** What the ratio rests on; default the sum of the exposures. */
  readonly n?: number;
  /** Said when the exposures sum to 0: `no crossings`. */
  readonly nothing: string;
  /** The ratio may be negative: a low end below 0 stays. */
  readonly signed?: boolean;
  /** Events are counted, so that none at all has an exact bound. Shares of time are not. Default true unless signed. */
  readonly counted?: boolean;
  /** Largest value that makes sense, after scaling: 1 for a share. */
  readonly max?: number;
}

/**
 * Sum of events over sum of exposures, with its 95 % interval over replicates.
 *
 * @param events one number per replicate
 * @param exposures one number per replicate, none negative
 */
export function ratioEstimate(
  events: readonly number[],
  exposures: readonly number[],
  options: RatioOptions,
): Estimate {
  const { scale = 1, signed = false, counted = !signed, max = Infinity } = options;
  const allEvents = sum(events);
  const allExposure = sum(exposures);
  const n = options.n ?? allExposure;
  if (allExposure === 0) return unknown(options.nothing);
  if (counted && allEvents === 0) return zeroEstimate(allExposure, { ...options, n });
  const value = (scale * allEvents) / allExposure;
  if (events.length < 2) return bare(value, n, FEW_REPLICATES);
  if (exposures.some((exposure) => exposure === allExposure)) {
    return bare(value, n, `${options.nothing} in all replicates but one`);
  }
  const leaveOneOut = events.map((event, i) => (scale * (allEvents - event)) / (allExposure - exposures[i]!));
  const estimate = jackknifeEstimate(value, leaveOneOut, n, signed ? -Infinity : 0, max);
  return counted && estimate.low === estimate.high
    ? poissonEstimate(allEvents, allExposure, { ...options, n })
    : estimate;
}

/**
 * Events of which replicates say nothing about their scatter: exact limits of a Poisson count, ½χ²(α/2; 2k) and
 * ½χ²(1 − α/2; 2k + 2). Source: F. Garwood, "Fiducial limits for the Poisson distribution", Biometrika 28, 1936, 437–442.
 *
 * @param events how many, at least 1
 */
function poissonEstimate(events: number, exposure: number, options: RatioOptions): Estimate {
  const per = (options.scale ?? 1) / exposure;
  return {
    value: events * per,
    low: (chiSquareQuantile((1 - LEVEL) / 2, 2 * events) / 2) * per,
    high: Math.min((chiSquareQuantile((1 + LEVEL) / 2, 2 * events + 2) / 2) * per, options.max ?? Infinity),
    method: 'poisson-exact',
    n: options.n ?? exposure,
    reason: ALL_ALIKE,
  };
}

/**
 * No event in an exposure: 0, with the exact upper bound of a Poisson count of 0, −ln(α/2) = 3.689.
 * Source: F. Garwood, "Fiducial limits for the Poisson distribution", Biometrika 28, 1936, 437–442.
 */
export function zeroEstimate(exposure: number, options: RatioOptions): Estimate {
  const bound = ((options.scale ?? 1) * -ln((1 - LEVEL) / 2)) / exposure;
  return {
    value: 0,
    low: options.signed ? -bound : 0,
    high: Math.min(bound, options.max ?? Infinity),
    method: 'poisson-zero',
    n: options.n ?? exposure,
    reason: ZERO_EVENTS,
  };
}

/** An estimate with its interval from the values with each replicate left out; ends beyond `min` and `max` are cut. */
export function jackknifeEstimate(
  value: number,
  leaveOneOut: readonly number[],
  n: number,
  min: number,
  max = Infinity,
): Estimate {
  const half = jackknifeHalfWidth(leaveOneOut);
  const estimate: Estimate = {
    value,
    low: Math.max(min, value - half),
    high: Math.min(max, value + half),
    method: 'jackknife-t',
    n,
  };
  return half === 0 ? { ...estimate, reason: NO_WIDTH } : estimate;
}

/** A value without an interval, and why. */
export function bare(value: number, n: number, reason: string): Estimate {
  return { value, low: null, high: null, method: 'none', n, reason };
}

/** No value at all, and why. */
export function unknown(reason: string, n = 0): Estimate {
  return { value: null, low: null, high: null, method: 'none', n, reason };
}

export function sum(values: readonly number[]): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
