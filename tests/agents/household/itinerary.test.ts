/**
 * A day's plan, asked for directly. Laws that the draws must follow are those of the models page: shares against binomial
 * limits, stays against the law of large numbers, wakings against the Poisson distribution; bounds are 99.9 %, seeds fixed.
 */
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { STAY_SPREAD } from '../../../src/agents/figures/household.js';
import { Calendar } from '../../../src/agents/household/calendar.js';
import { Itinerary } from '../../../src/agents/household/itinerary.js';
import { Places } from '../../../src/agents/household/places.js';
import { Routes } from '../../../src/agents/household/route.js';
import { type Weekday, habitsSchema } from '../../../src/agents/household/schema.js';
import { Stream } from '../../../src/engine/stream.js';
import { DAY_US, HOUR_US, MINUTE_US } from '../../../src/engine/time.js';

const NAMES = ['hall', 'kitchen', 'living', 'bathroom', 'bedroom'];
const [HALL, KITCHEN, LIVING, BATHROOM, BEDROOM] = [0, 1, 2, 3, 4] as const;
const Z = 3.29;

interface Asked {
  readonly activity?: number;
  readonly starts_at_h?: number;
  readonly starts_on?: Weekday;
  readonly seed?: string;
  readonly rooms?: readonly string[];
}
type Written = z.input<typeof habitsSchema>;

function itinerary(
  habits: Written,
  { activity = 1, starts_at_h = 0, starts_on = 'monday', seed = 's', rooms = NAMES }: Asked = {},
) {
  const doors = rooms.map((_, i) => (i === 0 ? { from: OUTSIDE, to: 0 } : { from: 0, to: i }));
  const routes = new Routes(rooms.length, doors);
  const places = new Places(
    rooms.map((name) => ({ name, use: name })),
    routes,
  );
  const calendar = new Calendar(starts_at_h, starts_on);
  return new Itinerary(
    habitsSchema.parse(habits),
    places,
    rooms.indexOf('bedroom'),
    calendar,
    activity,
    Stream.root(seed),
  );
}

/** Where an itinerary has somebody at a moment who goes at once wherever it says, and when they went there. */
function lived(one: Itinerary, hours: number, from = BEDROOM as number) {
  const stays: { room: number; from_us: number; until_us: number; asleep: boolean }[] = [];
  let [now_us, room] = [0, from];
  while (now_us < hours * HOUR_US) {
    const stay = one.next(now_us, room);
    expect(stay.until_us).toBeGreaterThan(now_us);
    stays.push({ room: stay.room, from_us: now_us, until_us: stay.until_us, asleep: stay.asleep });
    [now_us, room] = [stay.until_us, stay.room];
  }
  return stays;
}
const at = (stays: ReturnType<typeof lived>, hour: number) =>
  stays.find(({ from_us, until_us }) => from_us <= hour * HOUR_US && until_us > hour * HOUR_US)!;

const FREE = [
  {
    from: '00:00',
    go: [
      { to: 'living', share: 0.5, stay_min: 20 },
      { to: 'kitchen', share: 0.5, stay_min: 20 },
    ],
  },
];
const DAY: Written = {
  sleep: { from: '22:30', to: '06:30', wakes_per_night: 0 },
  away: [{ from: '08:00', to: '17:00', days: 'workdays' }],
  meals: [{ at: '07:00', lasts_min: 20, in: 'kitchen' }],
  spread_min: 5,
  moves: FREE,
};

describe('a working week', () => {
  const stays = lived(itinerary(DAY), 7 * 24);

  test('asleep in the bedroom at night, from 22:30 to 06:30 within four spreads', () => {
    for (let day = 0; day < 6; day++)
      for (const hour of [23, 24 + 3, 24 + 6])
        expect(at(stays, 24 * day + hour)).toMatchObject({ room: BEDROOM, asleep: true });
    for (const { from_us, asleep } of stays.filter(({ asleep: sleeps, from_us: t }) => sleeps && t > 0))
      if (asleep) expect(Math.abs(((from_us / HOUR_US) % 24) - 22.5)).toBeLessThan((4 * 5) / 60);
    expect(stays.filter(({ asleep }) => asleep).length).toBe(8);
  });

  test('away from nine to half past four on workdays only', () => {
    for (let day = 0; day < 7; day++)
      for (const hour of [9, 12, 16.5]) expect(at(stays, 24 * day + hour).room === OUTSIDE).toBe(day < 5);
  });

  test('at breakfast from seven, every day', () => {
    for (let day = 0; day < 7; day++) {
      const meal = stays.find(
        ({ room, from_us, until_us }) =>
          room === KITCHEN &&
          Math.abs(from_us - (24 * day + 7) * HOUR_US) < 20 * MINUTE_US &&
          until_us - from_us === 20 * MINUTE_US,
      );
      expect(meal).toBeDefined();
    }
  });
});

test('without spread the day is to the minute, and every day the same; with it, days differ with that spread', () => {
  const starts = (spread_min: number, days: number) =>
    lived(itinerary({ ...DAY, spread_min, away: [], meals: [] }), 24 * days)
      .filter(({ asleep, from_us }) => asleep && from_us > 0)
      .map(({ from_us }) => (from_us % DAY_US) / MINUTE_US - 22.5 * 60);
  expect(new Set(starts(0, 5))).toEqual(new Set([0]));
  const drawn = starts(10, 400);
  const mean = drawn.reduce((sum, x) => sum + x, 0) / drawn.length;
  const sd = Math.sqrt(drawn.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (drawn.length - 1));
  expect(Math.abs(mean)).toBeLessThan((Z * 10) / Math.sqrt(drawn.length));
  // Standard error of a normal sample's standard deviation: σ/√(2n).
  expect(Math.abs(sd - 10)).toBeLessThan((Z * 10) / Math.sqrt(2 * drawn.length));
});

test('a clock that starts at three at night or on a Saturday finds people where they then are', () => {
  expect(itinerary(DAY, { starts_at_h: 3 }).next(0, HALL)).toMatchObject({ room: BEDROOM, asleep: true });
  expect(itinerary(DAY, { starts_at_h: 11 }).next(0, HALL).room).toBe(OUTSIDE);
  expect(itinerary(DAY, { starts_at_h: 11, starts_on: 'saturday' }).next(0, HALL).room).not.toBe(OUTSIDE);
});

test('who has to leave gets up from the table: of two that overlap the one that ranks higher holds', () => {
  const late: Written = { ...DAY, spread_min: 0, meals: [{ at: '07:45', lasts_min: 60, in: 'kitchen' }] };
  const stays = lived(itinerary(late), 12);
  expect(at(stays, 7.9).room).toBe(KITCHEN);
  expect(at(stays, 8.01).room).toBe(OUTSIDE);
});

describe('free moves', () => {
  const go = (hall: number, kitchen: number, living: number, stay_min = 10) => [
    { to: 'hall', share: hall, stay_min },
    { to: 'kitchen', share: kitchen, stay_min },
    { to: 'living', share: living, stay_min },
  ];
  /** Moves drawn at one moment by somebody in a room. */
  const drawn = (moves: Written['moves'], hour: number, room: number, n = 4000, activity = 1) => {
    const one = itinerary({ moves }, { activity });
    return Array.from({ length: n }, () => one.next(hour * HOUR_US, room));
  };
  const within = (seen: ReturnType<typeof drawn>, room: number, share: number) => {
    const n = seen.length;
    const hits = seen.filter((stay) => stay.room === room).length;
    expect(Math.abs(hits / n - share)).toBeLessThan(Z * Math.sqrt((share * (1 - share)) / n));
  };

  test('follow the row’s shares; whoever is in one of its rooms chooses among the others', () => {
    const rows = [{ from: '00:00', go: go(0.2, 0.3, 0.5) }];
    const fromBed = drawn(rows, 10, BEDROOM);
    within(fromBed, HALL, 0.2);
    within(fromBed, KITCHEN, 0.3);
    within(fromBed, LIVING, 0.5);
    const fromLiving = drawn(rows, 10, LIVING);
    within(fromLiving, HALL, 0.4);
    within(fromLiving, KITCHEN, 0.6);
  });

  test('the row is the one of the hour, in whatever order they are written; before the first the day’s last holds', () => {
    const rows = [
      { from: '18:00', go: go(0, 0, 1) },
      { from: '09:00', go: go(1, 0, 0) },
      { from: '12:00', go: go(0, 1, 0) },
    ];
    const rooms = (hour: number) => new Set(drawn(rows, hour, BEDROOM, 50).map(({ room }) => room));
    expect(rooms(9)).toEqual(new Set([HALL]));
    expect(rooms(11.99)).toEqual(new Set([HALL]));
    expect(rooms(12)).toEqual(new Set([KITCHEN]));
    expect(rooms(23)).toEqual(new Set([LIVING]));
    expect(rooms(3)).toEqual(new Set([LIVING]));
  });

  test('`after` is for those who are in that room, and the other rows for all others', () => {
    const rows = [
      { from: '00:00', go: go(0, 0, 1) },
      { from: '00:00', after: 'bathroom', go: go(1, 0, 0) },
      { from: '20:00', after: 'bathroom', go: go(0, 1, 0) },
    ];
    const rooms = (hour: number, room: number) => new Set(drawn(rows, hour, room, 50).map((stay) => stay.room));
    expect(rooms(10, BATHROOM)).toEqual(new Set([HALL]));
    expect(rooms(21, BATHROOM)).toEqual(new Set([KITCHEN]));
    expect(rooms(21, BEDROOM)).toEqual(new Set([LIVING]));
  });

  test.each([0.5, 1, 2])('stays are log-normal about their stated mean; activity %s divides it', (activity) => {
    const n = 20_000;
    const seen = drawn([{ from: '00:00', go: go(0, 0, 1, 40) }], 10, BEDROOM, n, activity).map(
      ({ until_us }) => until_us / MINUTE_US - 600,
    );
    const mean = 40 / activity;
    // Of a log-normal: variance = mean² (exp(σ²) − 1), P(X < median) = ½ with median = mean · exp(−σ²/2).
    const { sigma } = STAY_SPREAD.value;
    const se = Math.sqrt((mean * mean * (Math.exp(sigma * sigma) - 1)) / n);
    expect(Math.abs(seen.reduce((sum, x) => sum + x, 0) / n - mean)).toBeLessThan(Z * se);
    const below = seen.filter((x) => x < mean * Math.exp((-sigma * sigma) / 2)).length / n;
    expect(Math.abs(below - 0.5)).toBeLessThan(Z * Math.sqrt(0.25 / n));
  });

  test('what the day has next cuts a stay short', () => {
    const one = itinerary({
      moves: [{ from: '00:00', go: go(0, 0, 1, 1440) }],
      meals: [{ at: '12:00', lasts_min: 20 }],
      spread_min: 0,
    });
    for (let n = 0; n < 20; n++) expect(one.next(11.9 * HOUR_US, BEDROOM).until_us).toBeLessThanOrEqual(12 * HOUR_US);
  });

  test('a row that leads nowhere else leaves one where one is', () => {
    expect(drawn([{ from: '00:00', go: go(0, 0, 1) }], 10, LIVING, 3).map(({ room }) => room)).toEqual([
      LIVING,
      LIVING,
      LIVING,
    ]);
  });
});

describe('getting up at night', () => {
  const sleepy = (wakes_per_night: number): Written => ({
    ...DAY,
    away: [],
    meals: [],
    spread_min: 0,
    sleep: { from: '22:00', to: '06:00', wakes_per_night },
  });
  const nights = 500;

  test.each([0.4, 1.5])('%s times a night, Poisson: mean and variance', (rate) => {
    const stays = lived(itinerary(sleepy(rate)), 24 * nights + 12);
    const up = Array.from({ length: nights }, (_, day) =>
      stays.filter(
        ({ room, from_us, until_us }) =>
          room === BATHROOM && from_us >= (24 * day + 22) * HOUR_US && until_us <= (24 * day + 30) * HOUR_US,
      ),
    );
    const counts = up.map((list) => list.length);
    const mean = counts.reduce((sum, x) => sum + x, 0) / nights;
    const variance = counts.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (nights - 1);
    // Five minutes up in eight hours, and one too late to come back from, take up to rate/96 each off the rate.
    const most = rate;
    const least = rate * (1 - (1 + rate) / 96);
    const se = Math.sqrt(rate / nights);
    expect(mean).toBeGreaterThan(least - Z * se);
    expect(mean).toBeLessThan(most + Z * se);
    // Variance of a Poisson sample's variance: (λ + 2λ²)/n.
    const slack = Z * Math.sqrt((rate + 2 * rate * rate) / nights);
    expect(variance).toBeGreaterThan(least - rate / 48 - slack);
    expect(variance).toBeLessThan(most + slack);
  });

  test('a house without a bathroom: nobody wanders about at night for want of it', () => {
    const rooms = ['hall', 'kitchen', 'living', 'study', 'bedroom'];
    const stays = lived(itinerary(sleepy(8), { rooms }), 24 * 5);
    const night = stays.filter(({ from_us }) => (from_us / HOUR_US) % 24 < 6 && from_us > 0);
    expect(night.filter(({ room }) => room !== BEDROOM)).toEqual([]);
  });
});

test('the same stream gives the same days, whenever they are asked for', () => {
  const [one, other] = [itinerary(DAY), itinerary(DAY)];
  lived(one, 40);
  const [late, early] = [one.isFree(60 * HOUR_US), other.isFree(60 * HOUR_US)];
  expect(late).toBe(early);
  for (const hour of [80, 81, 90.3, 100]) expect(one.isAway(hour * HOUR_US)).toBe(other.isAway(hour * HOUR_US));
});

test('brought home before its time, one stays at home', () => {
  const one = itinerary({ ...DAY, spread_min: 0 });
  expect(one.isAway(16.5 * HOUR_US)).toBe(true);
  one.fetched(16.5 * HOUR_US);
  expect(one.isAway(16.6 * HOUR_US)).toBe(false);
  expect(one.next(16.6 * HOUR_US, HALL).room).not.toBe(OUTSIDE);
  expect(one.isAway((24 + 12) * HOUR_US)).toBe(true);
});
