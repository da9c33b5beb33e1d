/** Differences between runs as a reader sees them. */
import type { Estimate } from '../../score/metrics-schema.js';
import { type EstimateWords, estimateWords, joined, plural } from '../words.js';
import type { RunDifference } from './differences.js';
import { type CompareRun, labelWords } from './runs.js';

/** A difference of shares is in percentage points. */
export function differenceWords(e: Estimate, as: 'number' | 'share'): EstimateWords {
  if (as === 'number') return estimateWords(e);
  const points = (x: number | null): number | null => (x === null ? null : 100 * x);
  return estimateWords({ ...e, value: points(e.value), low: points(e.low), high: points(e.high) });
}

/** 'percentage points', or nothing. */
export const pointsWords = (as: 'number' | 'share'): string => (as === 'share' ? ' percentage points' : '');

/** '2.1 (1.4 to 2.8)': how large it is, whichever way it goes. @param interval what the range is called, if anything */
export function sizeWords(e: Estimate, as: 'number' | 'share', interval = ''): string {
  const flipped = (e.value ?? 0) < 0;
  const minus = (x: number | null): number | null => (x === null ? null : -x + 0);
  const size = flipped ? { ...e, value: minus(e.value), low: minus(e.high), high: minus(e.low) } : e;
  const { value, range } = differenceWords(size, as);
  return `${value ?? 'an unknown amount'}${pointsWords(as)} (${range === null ? 'no interval' : `${interval}${range}`})`;
}

/** '+2.1', with the sign of the change. */
export function signedWords(e: Estimate, as: 'number' | 'share'): EstimateWords {
  const words = differenceWords(e, as);
  return {
    ...words,
    value:
      words.value === null ? null : `${(e.value ?? 0) > 0 && !words.value.startsWith('<') ? '+' : ''}${words.value}`,
  };
}

/** 'paired', or how it is not. */
export function pairingWords({ apart, replicates: [a, b] }: Pick<RunDifference, 'apart' | 'replicates'>): string {
  if (apart === null) return `paired, ${plural(a, 'replicate')}`;
  if (apart === 'old') return 'no replicates kept';
  return `not paired, ${a === b ? `${plural(a, 'replicate')} each` : `${b} and ${plural(a, 'replicate')}`}`;
}

export const labels = (runs: readonly CompareRun[]): string => joined(runs.map(labelWords));
