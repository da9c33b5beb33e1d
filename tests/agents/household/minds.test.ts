/** Guests, pets and robots: until when, where to, and what is due at night. */
import { describe, expect, test } from 'vitest';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { Calendar } from '../../../src/agents/household/calendar.js';
import { GuestMind, PetMind, roomShares } from '../../../src/agents/household/minds.js';
import { Stream } from '../../../src/engine/stream.js';
import { HOUR_US } from '../../../src/engine/time.js';
import { DOORS, ROOMS, crossingsOf, live } from './houses.js';

const Z = 3.29;
const stream = Stream.root('minds');

describe('a guest', () => {
  const shares = roomShares([
    [1, 0.6],
    [2, 0.3],
    [3, 0.1],
  ]);

  test('stays first in the room they came to, and leaves when their time is up', () => {
    const mind = new GuestMind(shares, 2, 3 * HOUR_US, stream.child('first'));
    expect(mind.next(0, 2)).toMatchObject({ room: 2, asleep: false });
    expect(mind.next(3 * HOUR_US, 2)).toBeNull();
  });

  test('without moves sits until then', () => {
    const mind = new GuestMind(shares, 0, 3 * HOUR_US, stream.child('sits'));
    expect(mind.next(HOUR_US, 2)).toEqual({ room: 2, until_us: 3 * HOUR_US, asleep: false });
  });

  test('moves so often an hour, to the other rooms by their shares', () => {
    const n = 5000;
    const mind = new GuestMind(shares, 4, 1e15, stream.child('moves'));
    mind.next(0, 1);
    const seen = Array.from({ length: n }, () => mind.next(0, 1)!);
    // From room 1, rooms 2 and 3 are left: three to one.
    const second = seen.filter(({ room }) => room === 2).length / n;
    expect(Math.abs(second - 0.75)).toBeLessThan(Z * Math.sqrt((0.75 * 0.25) / n));
    expect(seen.every(({ room }) => room === 2 || room === 3)).toBe(true);
    // Exponential stays: standard deviation is the mean.
    const mean_h = seen.reduce((sum, { until_us }) => sum + until_us / HOUR_US, 0) / n;
    expect(Math.abs(mean_h - 0.25)).toBeLessThan((Z * 0.25) / Math.sqrt(n));
  });
});

describe('a pet that is up from seven to eleven at night', () => {
  const awake = { from: '07:00', to: '23:00' };
  const pet = (rooms: readonly number[], name = 'pet') =>
    new PetMind(rooms, 0, awake, 2, new Calendar(0, 'monday'), stream.child(name));

  test('sleeps where it sleeps until morning', () => {
    expect(pet([0, 1, 2]).next(5 * HOUR_US, 2)).toEqual({ room: 0, until_us: 7 * HOUR_US, asleep: true });
    expect(pet([0, 1, 2]).next(23.5 * HOUR_US, 2)).toEqual({ room: 0, until_us: 31 * HOUR_US, asleep: true });
  });

  test('by day is in its rooms, one after the other, and off to bed at eleven at the latest', () => {
    const mind = pet([0, 1, 2], 'day');
    for (let n = 0; n < 200; n++) {
      const stay = mind.next(12 * HOUR_US, 1);
      expect([0, 2]).toContain(stay.room);
      expect(stay.until_us).toBeLessThanOrEqual(23 * HOUR_US);
    }
  });

  test('a night owl is awake over midnight', () => {
    const owl = new PetMind([0], 0, { from: '20:00', to: '04:00' }, 2, new Calendar(0, 'monday'), stream);
    expect([1, 5, 12, 21].map((hour) => owl.isFree(hour * HOUR_US))).toEqual([true, false, false, true]);
  });
});

describe('pets in a house', () => {
  const cat = { name: 'tiger', animal: 'cat', sleeps_in: 'living', rooms: ['living', 'kitchen'], moves_per_hour: 6 };

  test('a cat keeps to its rooms and the way between, and counts as nobody', () => {
    const lived = live({ rooms: ROOMS, doors: DOORS, household: { pets: [cat] }, hours: 24 }, 'cat');
    expect(lived.visits.length).toBeGreaterThan(50);
    expect(new Set(lived.visits.map(({ persons }) => persons))).toEqual(new Set([0]));
    expect(new Set(lived.visits.map(({ door }) => door))).toEqual(new Set([1, 2]));
    // Its day is 06:30 to 22:30 unless said otherwise; the way to bed takes a little.
    const hours = lived.visits.map(({ enter_us }) => enter_us / HOUR_US);
    expect(Math.min(...hours)).toBeGreaterThan(6.5);
    expect(Math.max(...hours)).toBeLessThan(22.6);
  });

  test('out of doors only if it goes by itself', () => {
    const out = (by_itself_outside: boolean) =>
      crossingsOf(
        live({ rooms: ROOMS, doors: DOORS, household: { pets: [{ ...cat, by_itself_outside }] }, hours: 24 }, 'out'),
      ).some(({ to }) => to === OUTSIDE);
    expect([out(false), out(true)]).toEqual([false, true]);
  });

  test('before a shut leaf it stays where it is', () => {
    const text = { rooms: ROOMS, doors: DOORS, household: { pets: [cat] }, hours: 24 };
    expect(live({ ...text, leaf: { shut_share: 1 } }, 'cat').visits).toEqual([]);
    expect(live({ ...text, leaf: { shut_share: 0 } }, 'cat').visits.length).toBeGreaterThan(50);
  });
});

describe('guests with luggage', () => {
  const lodgers = {
    name: 'lodger',
    per_day: 12,
    from: '08:00',
    to: '12:00',
    rooms: [
      { room: 'bedroom', share: 0.5 },
      { room: 'living', share: 0.5 },
    ],
    moves_per_hour: 4,
    stay_min: 120,
    load: 'suitcase',
  };
  const lived = live({ rooms: ROOMS, doors: DOORS, household: { visitors: [lodgers] }, hours: 48 }, 'lodgers');

  test('bring it in and take it out, through every door on the way, and move about without it', () => {
    const journeys = new Map<number, string[]>();
    for (const { visit } of crossingsOf(lived))
      journeys.set(visit.body, [...(journeys.get(visit.body) ?? []), `${visit.door} ${visit.who}`]);
    // All who came before the first day's end and have left: in by two doors laden, out by two laden.
    const whole = [...journeys.values()].filter((doors) => doors.at(-1)?.startsWith('0 ') && doors.length > 2);
    expect(whole.length).toBeGreaterThan(5);
    for (const doors of whole) {
      const laden = doors.map((one) => one.endsWith('-suitcase'));
      expect([laden[0], laden[1], laden.at(-2), laden.at(-1)]).toEqual([true, true, true, true]);
      expect(laden.slice(2, -2)).toEqual(laden.slice(2, -2).map(() => false));
    }
  });
});
