/** Kaplan and Meier's estimate against a published worked example, a second package, and what it must be by hand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Wait, kaplanMeier, medianOf, medianWait } from '../../src/score/survival.js';

const waits = (text: string): Wait[] =>
  text.split(' ').map((word) => ({ time: Number.parseInt(word, 10), happened: !word.endsWith('+') }));

// E. J. Freireich et al., "The effect of 6-mercaptopurine on the duration of steroid-induced remissions in acute
// leukemia", Blood 21, 1963, 699–716: weeks of remission; + still in remission when last seen.
const TREATED = waits('6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+');
const PLACEBO = waits('1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23');

describe('remissions under 6-mercaptopurine', () => {
  const steps = kaplanMeier(TREATED);

  // S as published with the data in textbooks, three decimals; Greenwood's error as in G. Rodríguez, "Survival models"
  // (lecture notes, Princeton), four decimals. Ten digits and limits computed with R's survival package 3.5-3
  // (survfit, conf.type = "log-log").
  test.each([
    [6, 21, 3, 0.857, 0.0764, 0.8571428571, 0.0763603548, 0.619718, 0.9515517],
    [7, 17, 1, 0.807, 0.0869, 0.8067226891, 0.0869352852, 0.5631466, 0.922809],
    [10, 15, 1, 0.753, 0.0963, 0.7529411765, 0.096349653, 0.5031995, 0.8893618],
    [13, 12, 1, 0.69, 0.1068, 0.6901960784, 0.1068147078, 0.4316102, 0.849066],
    [16, 11, 1, 0.627, 0.1141, 0.6274509804, 0.1140538653, 0.3675109, 0.8049122],
    [22, 7, 1, 0.538, 0.1282, 0.5378151261, 0.1282337517, 0.2677789, 0.7467907],
    [23, 6, 1, 0.448, 0.1346, 0.4481792717, 0.1345914568, 0.188052, 0.6801426],
  ])('week %i', (time, at_risk, events, published, publishedError, share, error, low, high) => {
    const step = steps.find((one) => one.time === time)!;
    // Who is censored in week 6 or 10 is still at risk in it.
    expect(step).toMatchObject({ at_risk, events });
    expect(Math.abs(step.share - published)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(step.error - publishedError)).toBeLessThanOrEqual(0.00005);
    expect(step.share).toBeCloseTo(share, 9);
    expect(step.error).toBeCloseTo(error, 9);
    expect(step.low).toBeCloseTo(low, 6);
    expect(step.high).toBeCloseTo(high, 6);
  });

  test('seven steps and no more; the median is week 23', () => {
    expect(steps).toHaveLength(7);
    // The low end is where the low limit of the table above first falls to a half; the high limit never does.
    expect(medianOf(steps)).toEqual({ value: 23, low: 13, high: null });
    expect(medianWait(TREATED)).toMatchObject({ value: 23, low: 13, high: null, method: 'kaplan-meier', n: 21 });
  });
});

test('under placebo, without censoring: the plain share with the binomial error', () => {
  const steps = kaplanMeier(PLACEBO);
  const eighth = steps.find(({ time }) => time === 8)!;
  // S(8) and its error computed with R's survival package; the closed form is sqrt(S (1 − S) / n).
  expect(eighth.share).toBeCloseTo(0.3809524, 7);
  expect(eighth.error).toBeCloseTo(0.1059712, 7);
  expect(eighth.error).toBeCloseTo(Math.sqrt((eighth.share * (1 - eighth.share)) / 21), 12);
  // The 11th of 21 values is the median of any textbook.
  expect(medianOf(steps).value).toBe(8);
  expect(steps.at(-1)).toMatchObject({ time: 23, share: 0, low: 0 });
});

test('where nobody is censored the estimate is the share of those still waiting, whatever the times', () => {
  const times = fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 30 });
  fc.assert(
    fc.property(times, (drawn) => {
      for (const step of kaplanMeier(drawn.map((time) => ({ time, happened: true })))) {
        expect(step.share).toBeCloseTo(drawn.filter((time) => time > step.time).length / drawn.length, 12);
        expect(step.low).toBeLessThanOrEqual(step.share);
        expect(step.high).toBeGreaterThanOrEqual(step.share);
      }
    }),
    { seed: 3, numRuns: 300 },
  );
});

test('a median that is not reached is no number, and says how often it happened', () => {
  const reason = (k: number, n: number) => `it happened in ${k} of ${n} replicates: the median is not reached`;
  const none = { value: null, low: null, high: null, method: 'none', n: 4, reason: reason(0, 4) };
  expect(medianWait(waits('8+ 8+ 8+ 8+'))).toEqual(none);
  // One of four: S = 0.75 with z · sqrt(1/12) = 0.5658 on −log S = 0.2877, factor exp(1.9667) = 7.147, low 0.75^7.147 = 0.128.
  expect(medianWait(waits('5 8+ 8+ 8+'))).toEqual({ ...none, low: 5, method: 'kaplan-meier', reason: reason(1, 4) });
  expect(medianWait([])).toMatchObject({ value: null });
  expect(medianWait(waits('5'))).toMatchObject({ value: 5, low: null, method: 'none' });
});

test('half and half: the median is the time at which half are left', () => {
  expect(medianOf(kaplanMeier(waits('1 2 3 4')))).toMatchObject({ value: 2 });
  expect(medianOf(kaplanMeier(waits('1 2 3 4 5 6')))).toMatchObject({ value: 3 });
});
