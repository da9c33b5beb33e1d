/** A household through its days: who sleeps when, who goes out together, who carries whom, and that nobody gets lost. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { ABREAST_LAG, CLOSE_BEHIND_LAG } from '../../../src/agents/figures/manner.js';
import { BUILT_IN_HABITS } from '../../../src/agents/household/schema.js';
import type { Visit } from '../../../src/agents/visit.js';
import { DOORS, type HouseText, ROOMS, crossingsOf, live, personsIn } from './houses.js';
import { howMany } from '../../how-many.js';

const HOUR_US = 3.6e9;
const RUNS = howMany(15, 400);

const FAMILY = {
  people: [
    { name: 'ida', age_y: 41, sex: 'woman', habits: 'commuter', bedroom: 'bedroom' },
    { name: 'tom', age_y: 44, sex: 'man', habits: 'at-home', bedroom: 'bedroom' },
    { name: 'mia', age_y: 9, sex: 'woman', habits: 'pupil', bedroom: 'nursery' },
  ],
};
const house = (household: HouseText['household'], hours = 24, more: Partial<HouseText> = {}): HouseText => ({
  rooms: ROOMS,
  doors: DOORS,
  household,
  hours,
  ...more,
});

describe('over random houses and households', () => {
  const plans = fc
    .record({
      rooms: fc.integer({ min: 1, max: 7 }),
      joins: fc.array(fc.nat(1e6), { minLength: 7, maxLength: 7 }),
      people: fc.array(
        fc.record({ age_y: fc.integer({ min: 0, max: 90 }), habits: fc.constantFrom(...BUILT_IN_HABITS) }),
        {
          maxLength: 6,
        },
      ),
      guests: fc.integer({ min: 0, max: 40 }),
      moves: fc.integer({ min: 0, max: 30 }),
      dogs: fc.integer({ min: 0, max: 2 }),
      start: fc.integer({ min: 0, max: 23 }),
      infants: fc.integer({ min: 0, max: 2 }),
      shut: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: undefined }),
      seed: fc.string(),
    })
    .map(({ rooms, joins, people, guests, moves, dogs, start, infants, shut, seed }) => {
      const names = ['hall', 'living', 'kitchen', 'bathroom', 'bedroom', 'study', 'storage'].slice(0, rooms);
      // A random tree: each room hangs on one before it, the first on the outside; now and then a second way.
      const doors = names.map((name, i): readonly [string, string] => [
        i === 0 ? 'outside' : (names[(joins[i] as number) % i] as string),
        name,
      ]);
      const second: readonly [string, string][] =
        (joins[0] as number) % 2 === 0 && rooms > 2 ? [['outside', names[2] as string]] : [];
      return {
        seed,
        house: house(
          {
            people: [
              ...people.map((person, i) => ({ name: `p${i}`, sex: i % 2 ? 'man' : 'woman', ...person })),
              ...Array.from({ length: infants }, (_, i) => ({
                name: `baby${i}`,
                age_y: 1,
                sex: 'woman',
                habits: 'infant',
              })),
            ],
            pets: Array.from({ length: dogs }, (_, i) => ({
              name: `dog${i}`,
              animal: 'dog-medium',
              sleeps_in: names[0],
              by_itself_outside: i > 0,
            })),
            robots: [{ name: 'robot', docks_in: names[0], at: '11:00', rooms: names }],
            visitors: [
              {
                name: 'guest',
                per_day: guests,
                group_of: [1, 4],
                rooms: names.map((room) => ({ room, share: 1 / names.length })),
                moves_per_hour: moves,
                stay_min: 30,
              },
            ],
            outings:
              people.length > 1
                ? [{ name: 'walk', who: ['p0', 'p1'], takes: dogs > 0 ? ['dog0'] : [], at: '15:00', lasts_min: 40 }]
                : [],
            errands: [{ name: 'things', load: 'tray', from: names[0], to: names.at(-1), per_week: 40 }],
            activity: 1 + dogs,
            turn_back_share: 0.1,
            linger_share: 0.1,
            reach_share: 0.05,
          },
          20,
          {
            rooms: names,
            doors: [...doors, ...second],
            starts_at_h: start,
            ...(shut !== undefined && { leaf: { shut_share: shut, draught_per_hour: 20 * shut } }),
          },
        ),
      };
    });

  test('every room holds at least nobody at every event, people are conserved, visits come in order', () => {
    fc.assert(
      fc.property(plans, ({ house: text, seed }) => {
        const lived = live(text, seed);
        const rooms = [...lived.start];
        let outside = 0;
        const total = rooms.reduce((sum, n) => sum + n, 0);
        for (const { visit, from, to } of crossingsOf(lived)) {
          if (from === OUTSIDE) outside -= visit.persons;
          else rooms[from]! -= visit.persons;
          if (to === OUTSIDE) outside += visit.persons;
          else rooms[to]! += visit.persons;
          expect(Math.min(...rooms)).toBeGreaterThanOrEqual(0);
          expect(rooms.reduce((sum, n) => sum + n, 0) + outside).toBe(total);
        }
        const enters = lived.visits.map(({ enter_us }) => enter_us);
        expect(enters).toEqual(enters.toSorted((a, b) => a - b));
        expect(lived.visits.map(({ number }) => number)).toEqual(enters.map((_, i) => i + 1));
      }),
      { seed: 23, numRuns: RUNS },
    );
  });

  test('nobody is in two doorways at once, and each goes on from the room they came to', () => {
    fc.assert(
      fc.property(plans, ({ house: text, seed }) => {
        const lived = live(text, seed);
        const last = new Map<number, { leave_us: number; room: number }>();
        for (const visit of lived.visits.filter(({ kind }) => kind !== 'swing')) {
          const door = lived.plan.doors[visit.door]!;
          const [from, to] = visit.direction === 'forward' ? [door.from, door.to] : [door.to, door.from];
          const before = last.get(visit.body);
          if (before) {
            expect(visit.enter_us).toBeGreaterThanOrEqual(before.leave_us);
            expect(from).toBe(before.room);
          }
          last.set(visit.body, { leave_us: visit.leave_us, room: visit.cross_us === null ? from : to });
        }
      }),
      { seed: 29, numRuns: RUNS },
    );
  });
});

test('whoever arrives and goes on at once with the dog at heel has it with them: it doesn’t set out by itself meanwhile', () => {
  // Trays to and fro all day, and a dog that comes along whenever it can.
  const { visits } = live(
    house(
      {
        people: [{ name: 'ada', sex: 'woman', age_y: 70, habits: 'retired' }],
        pets: [{ name: 'dog', animal: 'dog-medium', sleeps_in: 'hall', follows_share: 1 }],
        errands: [{ name: 'things', load: 'tray', from: 'hall', to: 'living', per_week: 400 }],
        activity: 3,
      },
      7 * 24,
      {
        rooms: ['hall', 'living'],
        doors: [
          ['outside', 'hall'],
          ['hall', 'living'],
        ],
      },
    ),
    'trays',
  );
  const dogs = visits.filter(({ who }) => who === 'dog');
  expect(dogs.length).toBeGreaterThan(1000);
  const before = new Map<number, Visit>();
  for (const visit of dogs) {
    const last = before.get(visit.body);
    if (last) expect(visit.enter_us).toBeGreaterThanOrEqual(last.leave_us);
    before.set(visit.body, visit);
  }
});

describe('a family of three on a Monday', () => {
  const lived = live(house(FAMILY), 'monday');
  const at = (hour: number, room: string): number => personsIn(lived, ROOMS.indexOf(room), hour * HOUR_US);

  test('all sleep in their bedrooms at night', () => {
    expect(at(0, 'bedroom')).toBe(2);
    expect(at(0, 'nursery')).toBe(1);
  });

  test('school and work: from mid-morning to the afternoon one is at home', () => {
    for (const hour of [10, 11.5, 14]) expect(ROOMS.reduce((sum, room) => sum + at(hour, room), 0)).toBe(1);
    expect(ROOMS.reduce((sum, room) => sum + at(21, room), 0)).toBe(3);
  });

  test('most of the doors’ traffic is by day, and a little at night', () => {
    const hours = lived.visits.map(({ enter_us }) => enter_us / HOUR_US);
    const night = hours.filter((hour) => hour >= 1 && hour < 5).length;
    const day = hours.filter((hour) => hour >= 7 && hour < 9).length;
    expect(night).toBeLessThan(day / 4);
  });

  test('the same seed gives the same day, another seed another', () => {
    expect(live(house(FAMILY), 'monday').visits).toEqual(lived.visits);
    expect(live(house(FAMILY), 'another').visits).not.toEqual(lived.visits);
  });
});

describe('together', () => {
  const run = { name: 'school-run', who: ['tom', 'mia'], at: '07:20', spread_min: 0, lasts_min: 20 };
  const early = { ...FAMILY.people[2]!, habits: 'small-child' };

  test('parent and child leave by the front door side by side or one behind the other, and come home so', () => {
    const kinds = new Set<string>();
    for (let day = 0; day < 12; day++) {
      const { visits } = live(
        house(
          { people: [FAMILY.people[1], early], outings: [run], linger_share: 0, turn_back_share: 0, reach_share: 0 },
          9,
          { doors: [['outside', 'hall', 1.3], ...DOORS.slice(1)] },
        ),
        `run ${day}`,
      );
      const front = visits.filter(
        ({ door, enter_us }) => door === 0 && enter_us > 7 * HOUR_US && enter_us < 8.2 * HOUR_US,
      );
      const leaving = front.filter(({ direction }) => direction === 'backward');
      expect(leaving.map(({ who }) => who).sort()).toEqual(expect.arrayContaining(['mia', 'tom']));
      const [one, other] = leaving.slice(0, 2);
      expect(other!.enter_us - one!.enter_us).toBeLessThan(10e6);
      kinds.add(one!.kind);
    }
    expect([...kinds].sort()).toEqual(['abreast', 'close-behind']);
  });

  describe('groups of three and four through a wide door', () => {
    const group = { name: 'group', per_day: 60, group_of: [3, 4], rooms: [{ room: 'hall', share: 1 }], stay_min: 20 };
    const doors = DOORS.map(([from, to], i) => [from, to, i === 0 ? 2 : 0.85] as const);
    const { visits } = live(house({ visitors: [group] }, 24, { doors }), 'group');
    // Who comes in: bodies of a group are numbered one after the other, and groups are minutes apart.
    const coming = visits.filter(({ direction }) => direction === 'forward').sort((a, b) => a.body - b.body);
    const groups: Visit[][] = [];
    for (const visit of coming) {
      const last = groups.at(-1)?.at(-1);
      if (last?.body === visit.body - 1 && visit.enter_us - last.enter_us < 10e6) groups.at(-1)!.push(visit);
      else groups.push([visit]);
    }
    const whole = groups.filter(({ length }) => length === 3 || length === 4);
    const { low } = CLOSE_BEHIND_LAG.value;

    test('about half of the groups walk in twos, the others in single file', () => {
      expect(whole.length).toBeGreaterThan(30);
      const inTwos = whole.filter(([first]) => first!.kind === 'abreast');
      expect(Math.abs(inTwos.length / whole.length - 0.5)).toBeLessThan(0.25);
      for (const members of inTwos) {
        const twos = members.slice(0, members.length - (members.length % 2));
        expect(twos.every(({ kind }) => kind === 'abreast')).toBe(true);
        for (let i = 0; i < twos.length; i += 2)
          expect(twos[i + 1]!.enter_us - twos[i]!.enter_us).toBeLessThanOrEqual(ABREAST_LAG.value.high * 1e6 + 1);
      }
    });

    test('each rank keeps its distance from the one before, and nobody overtakes it', () => {
      for (const members of whole) {
        const step = members[0]!.kind === 'abreast' ? 2 : 1;
        for (let i = step; i < members.length; i += step)
          for (const before of members.slice(i - step, i)) {
            expect(members[i]!.enter_us - before.enter_us).toBeGreaterThanOrEqual(low * 1e6 - 1);
            for (const behind of members.slice(i, i + step))
              expect(behind.leave_us).toBeGreaterThanOrEqual(before.leave_us);
          }
      }
    });
  });

  test('through a narrow door nobody walks abreast', () => {
    const doors = DOORS.map(([from, to]) => [from, to, 0.7] as const);
    for (let day = 0; day < 6; day++) {
      const { visits } = live(house({ people: [FAMILY.people[1], early], outings: [run] }, 9, { doors }), `run ${day}`);
      expect(visits.filter(({ kind, door }) => kind === 'abreast' && door === 0)).toEqual([]);
    }
  });

  test('an infant goes where its carer goes: two persons, one body; it is never left alone awake', () => {
    const household = {
      people: [FAMILY.people[1], { name: 'baby', age_y: 1, sex: 'man', habits: 'infant', bedroom: 'nursery' }],
    };
    const lived2 = live(house(household), 'baby');
    expect(lived2.start[ROOMS.indexOf('nursery')]).toBe(1);
    const carried = lived2.visits.filter(({ who }) => who === 'tom-infant' || who === 'tom-pram');
    expect(carried.length).toBeGreaterThan(4);
    expect(new Set(carried.map(({ persons }) => persons))).toEqual(new Set([2]));
    // By day tom never leaves a room without it: all his crossings from the morning's first carrying on are carried.
    const first = carried[0]!.enter_us;
    const evening = 18.5 * HOUR_US;
    const alone = lived2.visits.filter(({ who, enter_us }) => who === 'tom' && enter_us > first && enter_us < evening);
    expect(alone).toEqual([]);
  });
});

test('a party shows as such: thirty come within the half hour, run to and fro, and go', () => {
  const party = {
    name: 'birthday',
    day: 'saturday',
    from: '15:00',
    to: '18:00',
    guests: 30,
    who: [
      { who: 'child', share: 0.8 },
      { who: 'adult', share: 0.2 },
    ],
    group_of: [1, 4],
    rooms: [
      { room: 'living', share: 0.7 },
      { room: 'kitchen', share: 0.3 },
    ],
    moves_per_hour: 6,
  };
  const lived = live(house({ parties: [party] }, 24, { starts_on: 'saturday' }), 'party');
  const inside = (hour: number) => ROOMS.reduce((sum, _, room) => sum + personsIn(lived, room, hour * HOUR_US), 0);
  expect(inside(14.9)).toBe(0);
  expect(inside(16)).toBe(30);
  expect(inside(19.5)).toBe(0);
  const hourly = (from: number, to: number) =>
    lived.visits.filter(({ enter_us }) => enter_us >= from * HOUR_US && enter_us < to * HOUR_US).length;
  expect(hourly(16, 17)).toBeGreaterThan(100);
  expect(hourly(20, 24)).toBe(0);
  expect(live(house({ parties: [party] }, 24), 'party').visits).toEqual([]);
});

test('half the activity, fewer passages; double, more', () => {
  const passages = (activity: number) => live(house({ ...FAMILY, activity }, 48), 'activity').visits.length;
  const [half, one, double] = [passages(0.5), passages(1), passages(2)];
  expect(half).toBeLessThan(0.8 * one);
  expect(double).toBeGreaterThan(1.3 * one);
});

describe('when the clock starts in the middle of a day', () => {
  const starting = (seed: string, person: object = {}) =>
    live(house({ people: [{ ...FAMILY.people[1]!, ...person }] }, 3, { starts_at_h: 10 }), seed);
  const firsts = (person: object = {}) =>
    Array.from({ length: 60 }, (_, n) => starting(`start ${n}`, person).visits[0]?.enter_us ?? Infinity);

  test('nobody jumps up at once: where they are they stay for a while', () => {
    // Stays of a minute and more, log-normal: next to none ends within the first ten seconds.
    expect(firsts().filter((enter_us) => enter_us < 10e6).length).toBeLessThan(6);
  });

  test('nor does whoever is said to start somewhere', () => {
    const person = { starts_in: 'nursery' };
    expect(starting('start', person).start[ROOMS.indexOf('nursery')]).toBe(1);
    expect(firsts(person).filter((enter_us) => enter_us < 10e6).length).toBeLessThan(6);
  });
});

describe('with a leaf in every door', () => {
  const lived = live(house(FAMILY, 24, { leaf: { shut_share: 0.7, draught_per_hour: 3 } }), 'leaves');
  const swings = lived.visits.filter(({ kind }) => kind === 'swing');

  test('leaves swing, in order with the people, and are nobody', () => {
    expect(swings.length).toBeGreaterThan(100);
    expect(swings.every(({ persons, cross_us }) => persons === 0 && cross_us === null)).toBe(true);
    const enters = lived.visits.map(({ enter_us }) => enter_us);
    expect(enters).toEqual(enters.toSorted((a, b) => a - b));
  });

  test('whoever comes to a shut leaf enters when it stands open: no swing of that door is under way then', () => {
    for (const visit of lived.visits.filter(({ persons }) => persons > 0)) {
      // Draughts stir a leaf that stands open, a little: they last otherwise than a swing.
      const opening = swings.filter(
        ({ door, enter_us, leave_us }) =>
          door === visit.door &&
          enter_us < visit.enter_us &&
          leave_us > visit.enter_us + 1000 &&
          leave_us - enter_us < 1.3e6,
      );
      expect(opening).toEqual([]);
    }
  });

  test('the same people mean to do the same as without: everybody is in bed at night', () => {
    expect(personsIn(lived, ROOMS.indexOf('bedroom'), 0.1 * HOUR_US)).toBe(2);
    expect(personsIn(lived, ROOMS.indexOf('nursery'), 23 * HOUR_US)).toBe(1);
  });
});
