/** From what a time-of-flight ranger sees to the number it gives: when it looks, noise by budget, bias, steps. */
import fc from 'fast-check';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { NO_ECHO, type Ranger } from '../../../src/sensors/ranger.js';
import { EMPTY, timeOfFlight } from '../optics/building.js';

function many(ranger: Ranger, seen_m: number, n = 4000): number[] {
  const stream = Stream.root('time-of-flight-readings');
  return Array.from({ length: n }, (_, i) => ranger.reading(seen_m, stream.at(i)) / 1e6);
}

test('it gathers light for its budget, and the pose in the middle of that counts', () => {
  const ranger = timeOfFlight({ timing_budget_ms: 33 });
  expect(ranger.poseTime(1000)).toBe(17_500);
  expect(ranger.latest_us).toBe(16_500);
  for (const seen of [0.1, 2, Infinity]) expect(ranger.busy_us(seen)).toBe(33_000);
  const odd = timeOfFlight({ timing_budget_ms: 20.001 });
  expect([odd.poseTime(0), odd.latest_us, odd.busy_us(1)]).toEqual([10_000, 10_000, 20_001]);
});

describe('a wall at 0.8 m', () => {
  // 3 mm + 0.8 · 5 mm at 33 ms; a quarter of the budget doubles it, four times the budget halves it.
  test.each([
    [33, 0.007],
    [8.25, 0.014],
    [132, 0.0035],
  ])('%d ms: right but for its bias, scattering by %d m', (timing_budget_ms, sd_m) => {
    const ranger = timeOfFlight({ timing_budget_ms, noise_m: 0.003, noise_per_m: 0.005, bias_m: 0.02 });
    const readings = many(ranger, ranger.sees(EMPTY));
    expect(Math.abs(mean(readings) - 0.82)).toBeLessThan((3.29 * sd_m) / Math.sqrt(readings.length));
    // Steps of 1 mm add 1/12 of their square: nothing here.
    expect(Math.abs(sampleStandardDeviation(readings) - sd_m)).toBeLessThan(
      (3.29 * sd_m) / Math.sqrt(2 * readings.length),
    );
  });

  test('at the end of its range it is lost as often as noise carries it beyond: 0.79 m, 10 mm more is 1.438 sd', () => {
    // 0.01/(0.003 + 0.79 · 0.005) = 1.4388: 7.511 % of the normal curve is beyond.
    const lost = many(timeOfFlight({ range_m: 0.8 }), 0.79).filter((reading) => reading < 0).length / 4000;
    expect(Math.abs(lost - 0.07511)).toBeLessThan(3.29 * Math.sqrt((0.07511 * 0.92489) / 4000));
  });
});

test('readings are whole steps', () => {
  const ranger = timeOfFlight({ step_m: 0.005 });
  for (const reading of many(ranger, 0.5, 200)) expect(Math.round(reading * 1e6) % 5000).toBe(0);
  expect(ranger.reading(0.5024, 0.5)).toBe(500_000);
  expect(ranger.reading(0.5026, 0.5)).toBe(505_000);
});

test('noise carries nothing into the blind zone, and nothing back from beyond the range', () => {
  const ranger = timeOfFlight({ blind_m: 0.03, range_m: 3, noise_m: 0.1 });
  expect(ranger.reading(0.05, 0.001)).toBe(30_000);
  expect(ranger.reading(2.95, 0.5)).toBe(2_950_000);
  expect(ranger.reading(2.95, 0.99)).toBe(NO_ECHO);
  expect(ranger.reading(Infinity, 1e-9)).toBe(NO_ECHO);
  expect(ranger.strays_m).toEqual([0.03, 3]);
});

test('a reading never falls as its uniform grows, no echo counting as furthest', () => {
  const uniform = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });
  fc.assert(
    fc.property(
      fc.double({ min: 0.03, max: 3, noNaN: true }),
      fc.array(uniform, { minLength: 2, maxLength: 8 }),
      fc.constantFrom(
        timeOfFlight(),
        timeOfFlight({ bias_m: -0.3, noise_per_m: 0.3, step_m: 0.05 }),
        timeOfFlight({ timing_budget_ms: 1, noise_m: 0.3, bias_m: 0.2 }),
      ),
      (seen, uniforms, ranger) => {
        const order = [...uniforms].sort((a, b) => a - b).map((u) => ranger.reading(seen, u));
        for (const reading of order) expect(Number.isInteger(reading) && reading >= NO_ECHO).toBe(true);
        const asDistance = order.map((reading) => (reading === NO_ECHO ? Infinity : reading));
        expect(asDistance).toEqual([...asDistance].sort((a, b) => a - b));
      },
    ),
    { seed: 24, numRuns: 500 },
  );
});
