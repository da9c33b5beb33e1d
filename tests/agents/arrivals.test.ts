/** Parties come at the rate the clock asks for: a Poisson process by thinning. */
import { expect, test } from 'vitest';
import { Arrivals } from '../../src/agents/arrivals.js';
import { trafficSchema } from '../../src/agents/schema.js';
import { Stream } from '../../src/engine/stream.js';

const HOUR_US = 3_600_000_000;

test('a rate by clock time: each span of the day gets its own share, over midnight too', () => {
  const traffic = trafficSchema.parse({
    arrivals_per_hour: [
      { from: '17:00', per_hour: 6 },
      { from: '07:00', per_hour: 30 },
      { from: '22:00', per_hour: 0 },
      { from: '09:00', per_hour: 2 },
    ],
  });
  const days = 200;
  const arrivals = new Arrivals(traffic, 20, Stream.root('rush hour'));
  const byHour = Array.from({ length: 24 }, () => 0);
  for (;;) {
    const time_us = arrivals.next(days * 24 * HOUR_US);
    if (time_us === Infinity) break;
    const hour = Math.floor(20 + time_us / HOUR_US) % 24;
    byHour[hour] = byHour[hour]! + 1;
  }
  // Nobody at night; elsewhere a Poisson count, within four standard deviations: one seed, fixed.
  const expected = (hour: number) => (hour < 7 || hour >= 22 ? 0 : hour < 9 ? 30 : hour < 17 ? 2 : 6) * days;
  byHour.forEach((count, hour) => {
    expect(Math.abs(count - expected(hour)), `${hour} h`).toBeLessThanOrEqual(4 * Math.sqrt(expected(hour)));
  });
});
