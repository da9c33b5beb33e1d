/** What figures.json says of rooms and doors over the clock agrees with what else a run says of itself. */
import { describe, expect, test } from 'vitest';
import type { Visit } from '../../src/agents/visit.js';
import type { Outcome } from '../../src/simulate/outcome.js';
import { simulate } from '../../src/simulate/simulate.js';
import { figuresSchema } from '../../src/cli/figures-schema.js';
import { doorDesign } from './designs.js';

const design = {
  ...doorDesign({ height_m: 0.45, logics: '[four-level, first-broken]' }),
  replicates: 5,
  hours: 30,
  starts_at: '21:30',
};
const visits: Visit[] = [];
const { metrics, figures }: Outcome = simulate(design, { passage: (_, visit) => visits.push(visit) });

test('figures have their published shape, also as a file', () => {
  expect(figuresSchema.parse(JSON.parse(JSON.stringify(figures)))).toEqual(figures);
});

test('the drift of a room in a single replicate is what its trace shows at even points of the clock', () => {
  // Short enough for a trace that keeps every step.
  const alone = simulate({ ...design, replicates: 1, hours: 15 }).figures;
  expect(alone.room_drift.map(({ room, logic, ledger }) => [room, logic, ledger])).toEqual([
    ['hall', 'four-level', 'raw'],
    ['hall', 'four-level', 'floor'],
  ]);
  for (const bands of alone.room_drift) {
    const trace = alone.rooms.find(({ logic, ledger }) => logic === bands.logic && ledger === bands.ledger)!;
    const errors = bands.clock_h.map((h) => {
      const at = trace.time_h.findLastIndex((time_h) => time_h <= h);
      return trace.counted[at]! - trace.truth[at]!;
    });
    expect(errors).toHaveLength(49);
    expect(new Set(errors).size).toBeGreaterThan(3);
    expect(bands.q50).toEqual(errors);
    expect(bands.q95).toEqual(errors);
  }
});

test('every hour of a night, a day and a night has its people, both ways', () => {
  const [hourly] = figures.hourly;
  expect(hourly).toMatchObject({ door: 'front' });
  // From 21:30 on for 30 hours: parts of 31 clock hours, all of them together five times 30.
  expect(hourly!.hour).toHaveLength(31);
  expect(hourly!.covered_h.reduce((sum, h) => sum + h, 0)).toBeCloseTo(150, 9);
  const counted = (hour: number, day: number, direction: Visit['direction']) =>
    visits.filter(({ cross_us, direction: way }) => {
      if (cross_us === null || cross_us >= 30 * 3.6e9 || way !== direction) return false;
      const clock_h = 21.5 + cross_us / 3.6e9;
      return Math.floor(clock_h / 24) === day && Math.floor(clock_h) % 24 === hour;
    }).length;
  hourly!.hour.forEach((hour, i) => {
    expect(hourly!.forward[i]).toBe(counted(hour, hourly!.day[i]!, 'forward'));
    expect(hourly!.backward[i]).toBe(counted(hour, hourly!.day[i]!, 'backward'));
  });
});

describe('the share of replicates whose room was not wrong yet', () => {
  test('begins with all, never rises, and ends with the clock', () => {
    expect(figures.survival).toHaveLength(4);
    for (const { time_h, share, low, high } of figures.survival) {
      expect([time_h[0], share[0], time_h.at(-1)]).toEqual([0, 1, 30]);
      share.forEach((value, i) => {
        if (i > 0) expect(value).toBeLessThanOrEqual(share[i - 1]!);
        expect(low[i]).toBeLessThanOrEqual(value);
        expect(high[i]).toBeGreaterThanOrEqual(value);
      });
    }
  });

  test('is down to a half at the median that the metrics name', () => {
    for (const curve of figures.survival) {
      const room = metrics.rooms.find(({ logic, ledger }) => logic === curve.logic && ledger === curve.ledger)!;
      const half = curve.time_h[curve.share.findIndex((share) => share <= 0.5)];
      expect(room.first_wrong_h.value).toBe(half);
    }
  });
});

test('a house of one room is right when that room is', () => {
  metrics.houses.forEach((house, i) => {
    const room = metrics.rooms[i]!;
    expect([house.logic, house.ledger]).toEqual([room.logic, room.ledger]);
    expect(house.exact_share).toEqual(room.exact_share);
    expect(house.persons_absolute_error).toEqual(room.mean_absolute_error);
    expect(house.first_wrong_h).toEqual(room.first_wrong_h);
  });
});
