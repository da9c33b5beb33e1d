/** Built-in figures: complete, and those marked `computed` computed again here from what they cite. */
import { linearRegression } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { BREADTHS, SURVEYED_STATURE } from '../../src/agents/figures/breadths.js';
import { agentFigures } from '../../src/agents/figures/index.js';
import { ADULT_SPEED, HOME_PACE, LEG_LENGTH, STEP_AGE_FACTOR, STEP_LAW } from '../../src/agents/figures/pace.js';
import { ADULT_STATURE } from '../../src/agents/figures/stature.js';
import { trafficSchema } from '../../src/agents/schema.js';
import { figureValueText } from '../../src/engine/figure.js';

const figures = agentFigures();

test('each figure has a name of its own, a unit, a use, a citation', () => {
  expect(new Set(figures.map((figure) => figure.id)).size).toBe(figures.length);
  for (const figure of figures) {
    expect(figure.id).toMatch(/^[a-z_]+(\.[a-z_]+)+$/);
    for (const text of [figure.unit, figure.used_in, figure.citation, figureValueText(figure.value)]) {
      expect(text.length, figure.id).toBeGreaterThan(0);
    }
    expect(figureValueText(figure.value)).not.toMatch(/NaN|undefined|object/);
  }
});

test('an assumption says that it has no source, nothing else says so', () => {
  for (const figure of figures) {
    expect(figure.citation.startsWith('no source'), figure.id).toBe(figure.status === 'assumption');
  }
});

test('the default pace of a home is the figure that is listed', () => {
  expect(trafficSchema.parse({ arrivals_per_hour: 1 }).home_pace).toBe(HOME_PACE.value);
});

describe('the law of steps', () => {
  test('is the power law through the published slow, free and fast rows', () => {
    // Schwartz 2008: v* and s* at three paces; least squares on logarithms.
    const rows = [
      [0.29, 0.64],
      [0.429, 0.76],
      [0.56, 0.85],
    ];
    const line = linearRegression(rows.map((row) => row.map((x) => Math.log(x))));
    expect(line.m).toBeCloseTo(STEP_LAW.value.exponent, 3);
    expect(Math.exp(line.b)).toBeCloseTo(STEP_LAW.value.factor, 3);
  });
});

/** Gouelle's rows: age in the middle of the band, cadence and step length with their SDs. */
const GAIT_ROWS = [
  { age_y: 23.5, man: [106.1, 7.0, 0.752, 0.077], woman: [115.7, 8.6, 0.708, 0.057] },
  { age_y: 34.5, man: [106.3, 7.9, 0.767, 0.066], woman: [118.3, 7.9, 0.688, 0.079] },
  { age_y: 54.5, man: [106.0, 6.7, 0.777, 0.075], woman: [116.5, 8.7, 0.691, 0.069] },
  { age_y: 64.5, man: [107.4, 9.1, 0.729, 0.075], woman: [114.1, 8.1, 0.666, 0.077] },
  { age_y: 72, man: [102, 8, 0.69, 0.08], woman: [113, 20, 0.61, 0.09] },
  { age_y: 82, man: [103, 8, 0.65, 0.08], woman: [110, 9, 0.55, 0.07] },
  { age_y: 87, man: [102, 11, 0.59, 0.1], woman: [108, 10, 0.54, 0.09] },
] as const;

describe.each(GAIT_ROWS)('adults of $age_y years', ({ age_y, ...rows }) => {
  test('walk at cadence times step length, scattered by both', () => {
    for (const sex of ['man', 'woman'] as const) {
      const [cadence, cadenceSd, step, stepSd] = rows[sex];
      const row = ADULT_SPEED[sex].value.find((entry) => entry.age_y === age_y);
      expect(row?.mps).toBeCloseTo((cadence * step) / 60, 2);
      // From 70 years the scatter of speed itself is published and used.
      if (age_y < 70)
        expect(row?.sd_share).toBeCloseTo(Math.sqrt((cadenceSd / cadence) ** 2 + (stepSd / step) ** 2), 3);
    }
  });

  test('step longer than the law by the age factor', () => {
    const factor = (sex: 'man' | 'woman') => {
      const [cadence, , step] = rows[sex];
      const leg = LEG_LENGTH.value * ADULT_STATURE[sex].value.mean;
      const speed = (cadence * step) / 60 / Math.sqrt(9.81 * leg);
      return step / (STEP_LAW.value.factor * speed ** STEP_LAW.value.exponent * leg);
    };
    const row = STEP_AGE_FACTOR.value.find((entry) => entry.age_y === age_y);
    expect(row?.factor).toBeCloseTo((factor('man') + factor('woman')) / 2, 3);
  });
});

test('from 70 years the published scatter of speed', () => {
  // Hollman 2011 in Gouelle: speed mean ± SD, m/s, at 70-74, 80-84, 85-89.
  for (const [sex, rows] of [
    ['man', [0.16 / 1.17, 0.17 / 1.12, 0.22 / 1.01]],
    ['woman', [0.2 / 1.16, 0.15 / 1.01, 0.2 / 0.98]],
  ] as const) {
    rows.forEach((share, i) => expect(ADULT_SPEED[sex].value[4 + i]?.sd_share).toBeCloseTo(share, 3));
  }
});

test('hip breadth follows stature as its scatter over stature says', () => {
  // ANSUR: SD of the ratio hip breadth over stature 0.0129 of 0.1970 (men), 0.0153 of 0.2174 (women).
  for (const [sex, ratio] of [
    ['man', 0.0129 / 0.197],
    ['woman', 0.0153 / 0.2174],
  ] as const) {
    const hips = BREADTHS.hip_breadth[sex].value;
    const stature = SURVEYED_STATURE[sex].value;
    const [a, b] = [hips.sd / hips.mean, stature.sd / stature.mean];
    expect(hips.r).toBeCloseTo((a * a + b * b - ratio * ratio) / (2 * a * b), 1);
  }
});
