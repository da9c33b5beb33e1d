/**
 * How long until it happens, where some have not seen it yet: Kaplan and Meier's estimate over replicates.
 *
 * Sources: E. L. Kaplan, P. Meier, "Nonparametric estimation from incomplete observations", Journal of the American
 * Statistical Association 53, 1958, 457–481; the variance is Greenwood's (1926); limits are formed for log(−log S), so
 * that they stay between 0 and 1 (J. D. Kalbfleisch, R. L. Prentice, "The statistical analysis of failure time data",
 * 1980); the median's interval is that of R. Brookmeyer, J. Crowley, "A confidence interval for the median survival
 * time", Biometrics 38, 1982, 29–41, with the same limits.
 */
import { exp, ln, pow } from '../engine/arithmetic.js';
import { normalQuantile } from '../engine/distribution-functions.js';
import { LEVEL } from './jackknife.js';
import type { Estimate } from './metrics-schema.js';
import { FEW_REPLICATES, bare, unknown } from './estimates.js';

/** One replicate's wait: until it happened, or until nobody looked any more. */
export interface Wait {
  readonly time: number;
  /** False: censored, it had not happened until then. */
  readonly happened: boolean;
}

/** From `time` on, `share` have not seen it. */
export interface SurvivalStep {
  readonly time: number;
  /** Those who had not seen it just before; who is censored at this very time is still among them. */
  readonly at_risk: number;
  readonly events: number;
  readonly share: number;
  /** Greenwood's standard error of the share. */
  readonly error: number;
  /** 95 % limits of the share. Once nobody is left the method has none: the high one stays, the low one is 0. */
  readonly low: number;
  readonly high: number;
}

/** One step for each time at which it happened, ascending. */
export function kaplanMeier(waits: readonly Wait[]): SurvivalStep[] {
  const sorted = [...waits].sort((a, b) => a.time - b.time);
  const z = normalQuantile((1 + LEVEL) / 2, 0, 1);
  const steps: SurvivalStep[] = [];
  let share = 1;
  let high = 1;
  /** Greenwood's sum of d / (n · (n − d)). */
  let spread = 0;
  for (let i = 0; i < sorted.length; ) {
    const { time } = sorted[i]!;
    const at_risk = sorted.length - i;
    let events = 0;
    for (; i < sorted.length && sorted[i]!.time === time; i++) if (sorted[i]!.happened) events++;
    if (events === 0) continue;
    if (events === at_risk) {
      steps.push({ time, at_risk, events, share: 0, error: 0, low: 0, high });
      continue;
    }
    share *= (at_risk - events) / at_risk;
    spread += events / (at_risk * (at_risk - events));
    // A longer exponent on a share below 1 is a smaller share.
    const factor = exp((z * Math.sqrt(spread)) / -ln(share));
    high = pow(share, 1 / factor);
    steps.push({ time, at_risk, events, share, error: share * Math.sqrt(spread), low: pow(share, factor), high });
  }
  return steps;
}

/** Products of fractions miss a half that is exact by a last bit. */
const HALF = 0.5 + 1e-12;

/** The first time at which no more than half are left, with its interval; an end that is never reached is null. */
export function medianOf(steps: readonly SurvivalStep[]): Pick<Estimate, 'value' | 'low' | 'high'> {
  const firstBelow = (value: (step: SurvivalStep) => number) => steps.find((step) => value(step) <= HALF)?.time ?? null;
  return {
    value: firstBelow(({ share }) => share),
    low: firstBelow(({ low }) => low),
    high: firstBelow(({ high }) => high),
  };
}

const OPEN_END = 'the interval has no high end: too few waited long enough';

/**
 * The median wait over replicates as an estimate. Where the median is not reached there is no value, and a reason; of the
 * interval what there is.
 */
export function medianWait(waits: readonly Wait[]): Estimate {
  const n = waits.length;
  const { value, low, high } = medianOf(kaplanMeier(waits));
  const happened = waits.filter((wait) => wait.happened).length;
  const missing = `it happened in ${happened} of ${n} replicates: the median is not reached`;
  if (value !== null && n < 2) return bare(value, n, FEW_REPLICATES);
  if (low === null) return unknown(missing, n);
  const estimate = { value, low, high, method: 'kaplan-meier', n } as const;
  if (value === null) return { ...estimate, reason: missing };
  return high === null ? { ...estimate, reason: OPEN_END } : estimate;
}
