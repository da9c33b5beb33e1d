/** Carrying things about, and a robot on its round. */
import { describe, expect, test } from 'vitest';
import { DOORS, type HouseText, ROOMS, crossingsOf, live } from './houses.js';

const HOUR_US = 3.6e9;
const TOM = { name: 'tom', age_y: 44, sex: 'man', habits: 'at-home', bedroom: 'bedroom' };
const still = { turn_back_share: 0, linger_share: 0, reach_share: 0 };
const text = (household: object, hours = 24, more: Partial<HouseText> = {}): HouseText => ({
  rooms: ROOMS,
  doors: DOORS,
  household: { ...still, ...household },
  hours,
  ...more,
});

describe('the laundry', () => {
  const laundry = { name: 'laundry', load: 'laundry-basket', from: 'bathroom', to: 'nursery', per_week: 70 };

  test('goes from where it is to where it belongs, and nowhere else', () => {
    const laden = crossingsOf(live(text({ people: [TOM], errands: [laundry] }, 48), 'laundry')).filter(
      ({ visit }) => visit.who === 'tom-laundry-basket',
    );
    expect(laden.length).toBeGreaterThan(10);
    // Bathroom to hall, hall to nursery, time and again.
    expect(laden.map(({ from, to }) => `${ROOMS[from]}-${ROOMS[to]}`)).toEqual(
      laden.map((_, i) => (i % 2 === 0 ? 'bathroom-hall' : 'hall-nursery')),
    );
  });

  test('so many a week, Poisson, within its hours, and more with more activity', () => {
    const weeks = 40;
    // Somebody who never sleeps, leaves or eats, so that none is left undone for want of hands.
    const habits = {
      idle: {
        away: [],
        meals: [],
        spread_min: 0,
        moves: [{ from: '00:00', go: [{ to: 'living', share: 1, stay_min: 600 }] }],
      },
    } as unknown as NonNullable<HouseText['habits']>;
    const few = { ...laundry, per_week: 7, earliest: '10:00', latest: '12:00' };
    for (const activity of [1, 2]) {
      const lived = live(
        text({ people: [{ ...TOM, habits: 'idle' }], errands: [few], activity }, 168 * weeks, { habits }),
        'weeks',
      );
      const starts = lived.visits.filter(({ who, door }) => who === 'tom-laundry-basket' && door === 3);
      const mean = 7 * activity * weeks;
      // Two that fall into one are one: by at most λ·(a minute) of each, half a percent here.
      expect(starts.length).toBeGreaterThan(mean * 0.985 - 3.29 * Math.sqrt(mean));
      expect(starts.length).toBeLessThan(mean + 3.29 * Math.sqrt(mean));
      for (const { enter_us } of starts) {
        const hour = (enter_us / HOUR_US) % 24;
        expect(hour).toBeGreaterThan(10);
        expect(hour).toBeLessThan(12.1);
      }
    }
  });

  test('nobody who pushes a rollator carries it', () => {
    const old = { ...TOM, load: 'rollator' };
    const lived = live(text({ people: [old], errands: [laundry] }), 'rollator');
    expect(lived.visits.filter(({ who }) => who.includes('laundry'))).toEqual([]);
    expect(lived.visits.length).toBeGreaterThan(10);
  });
});

describe('a robot', () => {
  const robot = {
    name: 'dusty',
    docks_in: 'hall',
    at: '10:00',
    rooms: ['living', 'kitchen', 'nursery'],
    minutes_per_room: 10,
  };

  test('visits its rooms in order, so long each, and goes home; it counts as nobody', () => {
    const crossings = crossingsOf(live(text({ robots: [robot] }), 'robot'));
    expect(crossings.map(({ to }) => ROOMS[to])).toEqual(['living', 'hall', 'kitchen', 'hall', 'nursery', 'hall']);
    expect(new Set(crossings.map(({ visit }) => visit.persons))).toEqual(new Set([0]));
    for (const i of [0, 2, 4]) {
      const stay_min = (crossings[i + 1]!.at_us - crossings[i]!.at_us) / 60e6;
      expect(stay_min).toBeGreaterThan(10);
      expect(stay_min).toBeLessThan(11.5);
    }
  });

  test('on its days only', () => {
    const weekly = { ...robot, days: ['saturday'] };
    expect(live(text({ robots: [weekly] }), 'robot').visits).toEqual([]);
    expect(live(text({ robots: [weekly] }, 24, { starts_on: 'saturday' }), 'robot').visits).toHaveLength(6);
  });

  test('does not pass a shut leaf', () => {
    expect(live(text({ robots: [robot] }, 24, { leaf: { shut_share: 1 } }), 'robot').visits).toEqual([]);
  });

  test('a leaf shut on it keeps it where it is; when it gets out, it is for its dock that it makes in the end', () => {
    let [kept, home] = [0, 0];
    for (let n = 0; n < 16; n++) {
      const lived = live(
        text({ people: [TOM], robots: [robot], activity: 3 }, 144, { leaf: { shut_share: 0.4 } }),
        `kept ${n}`,
      );
      const mine = crossingsOf(lived).filter(({ visit }) => visit.who === 'dusty');
      let room = ROOMS.indexOf('hall');
      for (let day = 0; day < 6; day++) {
        const start = room;
        const round = mine.filter(({ at_us }) => Math.floor(at_us / (24 * HOUR_US)) === day);
        for (const { from, to } of round) {
          expect(from).toBe(room);
          room = to;
        }
        if (ROOMS[start] === 'hall' || round.length === 0) continue;
        kept++;
        if (ROOMS[room] === 'hall') home++;
      }
    }
    expect(kept).toBeGreaterThan(5);
    expect(home / kept).toBeGreaterThan(0.5);
  });
});
