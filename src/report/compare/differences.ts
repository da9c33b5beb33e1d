/**
 * How far two runs are apart in one number. Where they met the same crowds the difference is taken replicate by replicate,
 * so what the crowds did falls out; otherwise it carries the chance of both (see `contrast` in src/study/judge/samples.ts).
 */
import type { Estimate } from '../../score/metrics-schema.js';
import { moreReplicates } from '../../score/targets.js';
import { type Contrast, contrast, sampleOf } from '../../study/judge/samples.js';
import { simultaneous } from '../../study/judge/simultaneous.js';
import type { CompareMeasure } from './measures.js';
import { type Apart, type CompareRun, apart, samplesOf } from './runs.js';

export interface RunDifference {
  /** a − b with its 95 % interval, for itself. */
  readonly own: Estimate;
  /** The same with an interval that holds for a whole family of differences at once; of a family of one the same. */
  readonly atOnce: Estimate;
  /** Null: paired, replicate by replicate. */
  readonly apart: Apart | null;
  /** Replicates it rests on: those that both have where it is paired, else those of each. */
  readonly replicates: readonly [number, number];
}

/** Errors smaller than this beside the values come from rounding, not from replicates. */
const ROUNDING = 1e-12;

const ONE_REPLICATE = 'an interval needs at least two replicates of each';
const OLD = 'no interval: one of the runs did not keep its replicates; run it again';
const NO_SCATTER = 'nothing scatters in either';
const NO_WIDTH = 'the same in every replicate, so the interval has no width and is optimistic';

/** @param family how many differences are looked at together */
export function difference(measure: CompareMeasure, a: CompareRun, b: CompareRun, family: number): RunDifference {
  const why = apart(a, b);
  const [all, others] = [samplesOf(a), samplesOf(b)];
  if (all === null || others === null) return ofValues(measure, a, b);
  const common = Math.min(all.length, others.length);
  const replicates: [number, number] = why === null ? [common, common] : [all.length, others.length];
  const sample = (run: CompareRun, n: number) =>
    sampleOf(
      samplesOf(run)!
        .slice(0, n)
        .map((one) => measure.ratio(run, one)),
      { options: { scale: measure.scale, nothing: '' } },
    );
  const [first, second] = [sample(a, replicates[0]), sample(b, replicates[1])];
  if (first === null || second === null)
    return { ...nothing('too few crossings in one of them'), apart: why, replicates };
  const change = withoutRounding(contrast(first, second, why === null), Math.abs(first.value) + Math.abs(second.value));
  // Where two crowds differ and still nothing scatters, nothing says how far chance reaches.
  if (why !== null && change.error === 0) {
    const own: Estimate = { value: change.value, low: null, high: null, method: 'none', n: 0, reason: NO_SCATTER };
    return { own, atOnce: own, apart: why, replicates };
  }
  const estimate = (of: number): Estimate => {
    const { value, low, high } = simultaneous(change, of);
    const reason = low === null ? ONE_REPLICATE : low === high ? NO_WIDTH : undefined;
    const method = low === null ? 'none' : 'jackknife-t';
    return { value, low, high, method, n: Math.min(...replicates), ...(reason !== undefined && { reason }) };
  };
  return { own: estimate(1), atOnce: estimate(family), apart: why, replicates };
}

/** Of equal designs nothing is left of a difference, not a last bit of a sum. */
function withoutRounding({ value, error, freedom }: Contrast, size: number): Contrast {
  const clean = (x: number): number => (Math.abs(x) <= ROUNDING * size ? 0 : x);
  return { value: clean(value), error: clean(error), freedom };
}

function ofValues(measure: CompareMeasure, a: CompareRun, b: CompareRun): RunDifference {
  const [first, second] = [measure.estimate(a)?.value ?? null, measure.estimate(b)?.value ?? null];
  const replicates = [a.metrics.replicates, b.metrics.replicates] as const;
  if (first === null || second === null)
    return { ...nothing('one of the runs has no such number'), apart: 'old', replicates };
  const own: Estimate = { value: first - second, low: null, high: null, method: 'none', n: 0, reason: OLD };
  return { own, atOnce: own, apart: 'old', replicates };
}

function nothing(reason: string): Pick<RunDifference, 'own' | 'atOnce'> {
  const own: Estimate = { value: null, low: null, high: null, method: 'none', n: 0, reason };
  return { own, atOnce: own };
}

export type Told = 'more' | 'less' | 'alike' | 'unsure';

/** Whether a difference is told from chance, and which way; `alike` where it is nothing in every replicate. */
export function toldOf({ value, low, high }: Estimate): Told {
  if (value === null || low === null || high === null) return 'unsure';
  // An interval without width tells nothing of chance.
  if (low === high) return value === 0 ? 'alike' : 'unsure';
  if (low > 0) return 'more';
  return high < 0 ? 'less' : 'unsure';
}

/** How a is beside b; of what should be near nothing neither is better. */
export function judged(measure: CompareMeasure, estimate: Estimate): 'better' | 'worse' | 'other' | 'alike' | 'unsure' {
  const told = toldOf(estimate);
  if (told === 'unsure' || told === 'alike') return told;
  if (measure.best === 'zero') return 'other';
  return (told === 'less') === (measure.best === 'less') ? 'better' : 'worse';
}

/** Roughly how many replicates each run would need in all for the interval to leave out nothing, to two digits; null where none would do. */
export function enoughReplicates({ atOnce, replicates }: RunDifference): number | null {
  const now = Math.min(...replicates);
  if (toldOf(atOnce) !== 'unsure' || atOnce.low === null) return null;
  const more = moreReplicates(atOnce, 0, now);
  if (more === null) return null;
  const digits = 10 ** Math.max(0, String(now + more).length - 2);
  return Math.ceil((now + more) / digits) * digits;
}
