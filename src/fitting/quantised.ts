/**
 * What rounding to a step does to noise.
 *
 * Of a normal value with standard deviation σ rounded to a step h, seen over distances that fall anywhere in a step:
 * the whole mean square error is σ² + h²/12 (Sheppard's correction). A part of it, τ², is the same for all readings at
 * one distance, because they all begin at one place in the step; only the rest scatters at that distance. From the
 * Fourier series of the rounding error, τ² = h²/(2π²) Σ exp(−4π²k²σ²/h²)/k². Without noise τ² = h²/12 and nothing
 * scatters; from σ = h/2 on, τ is below 0.3 % of h. (Series: worked out here; the limits are checked in the tests.)
 */
const { PI } = Math;
/** Below this 2πσ/h the series is slow; little noise shows only near the edge between two steps, as hσ/√π. */
const SLOW = 0.03;

/** Mean square that all readings of one distance share. */
export function sharedVariance(sd: number, step: number): number {
  if (step === 0) return 0;
  const x = (2 * PI * sd) / step;
  if (x < SLOW) return sd * sd + (step * step) / 12 - scatterVariance(sd, step);
  let sum = 0;
  for (let k = 1; k <= 400; k++) {
    const term = Math.exp(-x * x * k * k) / (k * k);
    sum += term;
    if (term < 1e-14) break;
  }
  return (step * step * sum) / (2 * PI * PI);
}

/** Variance of readings at one distance, on average over places in the step. */
export function scatterVariance(sd: number, step: number): number {
  if (step === 0) return sd * sd;
  if ((2 * PI * sd) / step < SLOW) return (step * sd) / Math.sqrt(PI);
  return sd * sd + (step * step) / 12 - sharedVariance(sd, step);
}

/** How fast {@link scatterVariance} grows with the standard deviation. */
export function scatterSlope(sd: number, step: number): number {
  const small = Math.max(sd * 1e-4, step * 1e-6, 1e-12);
  const from = Math.max(0, sd - small);
  return (scatterVariance(sd + small, step) - scatterVariance(from, step)) / (sd + small - from);
}
