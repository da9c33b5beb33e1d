/** The same house, calmer and busier. */
import { expect, test } from 'vitest';
import { activityAsked, activityDesigns } from '../../src/simulate/activity-runs.js';
import { simulate } from '../../src/simulate/simulate.js';
import { runReplicate } from '../../src/simulate/replicate.js';
import { doorDesign } from './designs.js';

const day = { ...doorDesign({ height_m: 0.45 }), replicates: 4, hours: 24 };
const crossingsOf = (design: typeof day) => runReplicate(design, 1, {}).record.doors[0]!.logics[0]!.total.crossings;

test('is asked for with four replicates of a day or more', () => {
  expect(activityAsked(day)).toBe(true);
  expect(activityAsked({ ...day, hours: 23 })).toBe(false);
  expect(activityAsked({ ...day, replicates: 3 })).toBe(false);
  expect(simulate({ ...day, replicates: 2, hours: 1 }).figures).not.toHaveProperty('activity');
});

test('half and double the parties come, whether the rate is one number or follows the clock', () => {
  const [front] = day.doors;
  const rows = [
    { from: '00:00', per_hour: 40 },
    { from: '12:00', per_hour: 10 },
  ];
  const byClock = { ...day, doors: [{ ...front!, traffic: { ...front!.traffic, arrivals_per_hour: rows } }] };
  for (const design of [day, byClock]) {
    const { half, double } = activityDesigns(design);
    const n = crossingsOf(design);
    // Poisson counts of a few hundred parties, each of them twice through the door: five standard errors.
    const within = 5 * Math.sqrt(2 * n);
    expect(n).toBeGreaterThan(500);
    expect(Math.abs(crossingsOf(half) - n / 2)).toBeLessThan(within);
    expect(Math.abs(crossingsOf(double) - 2 * n)).toBeLessThan(2 * within);
  }
});

test('the run in the middle is the run itself; in a busier house the rooms are wrong sooner and longer', () => {
  const { metrics, figures } = simulate(day);
  expect(figures.activity!.map(({ what, replicates }) => [what, replicates])).toEqual([
    ['half', 4],
    ['as assumed', 4],
    ['double', 4],
  ]);
  const [half, middle, double] = figures.activity!;
  expect(middle!.wrong_per_100).toEqual(metrics.house.wrong_per_100);
  expect(middle!.exact_share).toEqual(metrics.houses[0]!.exact_share);
  expect(middle!.first_wrong_h).toEqual(metrics.houses[0]!.first_wrong_h);
  expect(half!.exact_share!.value).toBeGreaterThan(double!.exact_share!.value!);
  expect(half!.first_wrong_h!.value).toBeGreaterThan(double!.first_wrong_h!.value!);
});

test('a house without rooms has no share to tell', () => {
  const yard = { ...day, rooms: [], doors: [{ ...day.doors[0]!, to: 'outside' }] };
  for (const run of simulate(yard).figures.activity!)
    expect(Object.keys(run)).toEqual(['what', 'replicates', 'wrong_per_100']);
});
