/** Leaving the house together: who goes, with which dog, who comes home with whom. */
import { describe, expect, test } from 'vitest';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { DOORS, type HouseText, ROOMS, crossingsOf, live } from './houses.js';

const HOUR_US = 3.6e9;
const IDA = { name: 'ida', age_y: 41, sex: 'woman', habits: 'at-home', bedroom: 'bedroom' };
const TOM = { name: 'tom', age_y: 44, sex: 'man', habits: 'at-home', bedroom: 'bedroom' };
const BRUNO = { name: 'bruno', animal: 'dog-medium', sleeps_in: 'hall', moves_per_hour: 0.5, follows_share: 0 };
const still = { turn_back_share: 0, linger_share: 0, reach_share: 0 };
const text = (household: object, hours = 24, more: Partial<HouseText> = {}): HouseText => ({
  rooms: ROOMS,
  doors: DOORS,
  household: { ...still, ...household },
  hours,
  ...more,
});
/** Crossings of the front door within hours of the clock. */
const front = (lived: ReturnType<typeof live>, from: number, to: number) =>
  crossingsOf(lived).filter(({ visit, at_us }) => visit.door === 0 && at_us >= from * HOUR_US && at_us < to * HOUR_US);

describe('a walk with the dog', () => {
  const walk = {
    name: 'walk',
    who: ['tom', 'ida'],
    choose: 'one',
    takes: ['bruno'],
    at: '10:00',
    spread_min: 0,
    lasts_min: 30,
  };

  test('one of them goes, the dog at heel; both come home', () => {
    for (let n = 0; n < 10; n++) {
      const seen = front(live(text({ people: [IDA, TOM], pets: [BRUNO], outings: [walk] }), `walk ${n}`), 10, 11);
      const dog = seen.filter(({ visit }) => visit.who === 'bruno');
      expect(dog.map(({ to }) => to === OUTSIDE)).toEqual([true, false]);
      for (const { visit, at_us } of dog) {
        expect(visit.kind).toBe('at-heel');
        const human = seen.find((one) => one.visit.who !== 'bruno' && Math.abs(one.at_us - at_us) < 5e6)!;
        expect(human.visit.kind).toBe('at-heel');
        expect(human.to).toBe(seen.find((one) => one.visit === visit)!.to);
      }
    }
  });

  test('while nobody is at home to take it, the dog stays in', () => {
    for (const habits of ['at-home', 'commuter']) {
      const lived = live(text({ people: [{ ...TOM, habits }], pets: [BRUNO], outings: [walk] }), 'nobody');
      const out = front(lived, 10, 11).filter(({ visit }) => visit.who === 'bruno');
      expect(out).toHaveLength(habits === 'at-home' ? 2 : 0);
    }
  });

  test('while it is out by itself, nobody goes', () => {
    // A cat flap of a dog: it is out half of the time.
    const roaming = { ...BRUNO, rooms: ['hall'], moves_per_hour: 4, by_itself_outside: true };
    const habits = {
      idle: {
        away: [],
        meals: [],
        spread_min: 0,
        moves: [{ from: '00:00', go: [{ to: 'living', share: 1, stay_min: 1000 }] }],
      },
    } as unknown as NonNullable<HouseText['habits']>;
    const seen = new Set<boolean>();
    for (let n = 0; n < 12; n++) {
      const lived = live(
        text({ people: [{ ...TOM, habits: 'idle' }], pets: [roaming], outings: [walk] }, 12, { habits }),
        `roams ${n}`,
      );
      const before = crossingsOf(lived).filter(({ visit, at_us }) => visit.who === 'bruno' && at_us < 10 * HOUR_US);
      const isOut = before.at(-1)?.to === OUTSIDE;
      seen.add(isOut);
      const went = front(lived, 10, 10.2).some(({ visit }) => visit.who === 'tom');
      expect(went).toBe(!isOut);
    }
    expect(seen.size).toBe(2);
  });

  test('late in the evening the dog comes home with whoever took it, and goes to its bed', () => {
    const late = { ...walk, at: '22:15', lasts_min: 50, takes: ['bruno'] };
    for (let n = 0; n < 6; n++) {
      const sleeper = { ...BRUNO, sleeps_in: 'living' };
      const lived = live(
        text({ people: [TOM], pets: [sleeper], outings: [{ ...late, who: ['tom'] }] }, 26),
        `late ${n}`,
      );
      const home = front(lived, 22.5, 26).filter(({ to }) => to !== OUTSIDE);
      // He may be in bed before 22:15, for bedtime is spread: then nobody goes.
      if (front(lived, 22.2, 22.6).length === 0) continue;
      expect(home.map(({ visit }) => visit.who)).toEqual(['tom', 'bruno']);
      // Together, not each by themselves at the same moment.
      expect(home.map(({ visit }) => visit.kind)).toEqual(['at-heel', 'at-heel']);
      expect(home[1]!.at_us - home[0]!.at_us).toBeLessThan(3e6);
      const last = crossingsOf(lived)
        .filter(({ visit }) => visit.who === 'bruno')
        .at(-1)!;
      expect(ROOMS[last.to]).toBe('living');
    }
  });
});

describe('the school run', () => {
  const habits = {
    school: {
      sleep: { from: '20:00', to: '06:30', wakes_per_night: 0 },
      away: [{ from: '07:50', to: '15:40', days: 'workdays' as const }],
      meals: [],
      spread_min: 0,
      moves: [
        {
          from: '00:00',
          go: [
            { to: 'living', share: 0.5, stay_min: 20 },
            { to: 'kitchen', share: 0.5, stay_min: 20 },
          ],
        },
      ],
    },
  } as unknown as NonNullable<HouseText['habits']>;
  const MIA = { name: 'mia', age_y: 8, sex: 'woman', habits: 'school', bedroom: 'nursery' };
  const outings = [
    { name: 'there', who: ['tom', 'mia'], at: '07:35', spread_min: 0, lasts_min: 20, days: 'workdays' },
    { name: 'back', who: ['tom'], fetches: ['mia'], at: '15:00', spread_min: 0, lasts_min: 25, days: 'workdays' },
  ];
  const lived = live(text({ people: [TOM, MIA], outings }, 24, { habits }), 'school');

  test('she stays at school when he goes home', () => {
    const morning = front(lived, 7.5, 8.2);
    expect(
      morning
        .filter(({ to }) => to === OUTSIDE)
        .map(({ visit }) => visit.who)
        .sort(),
    ).toEqual(['mia', 'tom']);
    expect(morning.filter(({ to }) => to !== OUTSIDE).map(({ visit }) => visit.who)).toEqual(['tom']);
  });

  test('fetched a little before her time she comes home with him and stays there', () => {
    const mine = front(lived, 15, 16).filter(({ visit }) => visit.who === 'mia');
    expect(mine.map(({ to }) => to === OUTSIDE)).toEqual([false]);
    const his = front(lived, 15, 16).filter(({ visit, to }) => visit.who === 'tom' && to !== OUTSIDE);
    expect(Math.abs(mine[0]!.at_us - his[0]!.at_us)).toBeLessThan(10e6);
  });

  test('at the weekend there is no school run', () => {
    const weekend = live(text({ people: [TOM, MIA], outings }, 9, { habits, starts_on: 'saturday' }), 'school');
    expect(front(weekend, 7.5, 8).filter(({ visit }) => visit.who === 'mia')).toEqual([]);
  });
});

describe('a group of guests', () => {
  const guests = {
    name: 'friend',
    per_day: 30,
    from: '10:00',
    to: '14:00',
    group_of: [4, 4],
    rooms: [{ room: 'living', share: 1 }],
    stay_min: 30,
  };
  const lived = live(text({ visitors: [guests] }), 'friends');

  test('comes as a group and leaves as a group, close behind one another and never through one another', () => {
    const seen = front(lived, 0, 24);
    const comings = seen.filter(({ to }) => to !== OUTSIDE);
    const goings = seen.filter(({ to }) => to === OUTSIDE);
    expect(comings.length).toBe(goings.length);
    expect(comings.length % 4).toBe(0);
    expect(comings.length).toBeGreaterThan(40);
    const bodies = new Map(comings.map(({ visit, at_us }) => [visit.body, at_us]));
    for (let i = 0; i < 4 * Math.floor(comings.length / 4); i += 4) {
      const group = comings.map(({ visit }) => visit.body).slice(i, i + 4);
      if (Math.max(...group) - Math.min(...group) > 3) continue; // Two groups met at the door.
      const left = goings.filter(({ visit }) => group.includes(visit.body)).map(({ at_us }) => at_us);
      expect(Math.max(...left) - Math.min(...left)).toBeLessThan(20e6);
      expect(bodies.size).toBe(comings.length);
    }
  });

  test('each keeps the distance of those who follow close behind', () => {
    const coming = lived.visits.filter(({ door, direction }) => door === 0 && direction === 'forward');
    const gaps = coming.flatMap(({ kind, enter_us }, i) =>
      i > 0 && kind === 'close-behind' ? [enter_us - coming[i - 1]!.enter_us] : [],
    );
    expect(gaps.length).toBeGreaterThan(10);
    expect(Math.min(...gaps)).toBeGreaterThan(0.3e6);
  });
});

test('two and a dog: one behind the other, not in one another', () => {
  const walk = { name: 'walk', who: ['tom', 'ida'], takes: ['bruno'], at: '10:00', spread_min: 0, lasts_min: 30 };
  for (let n = 0; n < 8; n++) {
    const { visits } = live(text({ people: [IDA, TOM], pets: [BRUNO], outings: [walk] }, 12), `both ${n}`);
    const [one, other] = visits.filter(
      ({ door, persons, direction, enter_us }) =>
        door === 0 && persons === 1 && direction === 'backward' && enter_us > 10 * HOUR_US && enter_us < 10.2 * HOUR_US,
    );
    expect([one!.kind, other!.kind]).toEqual(['at-heel', 'close-behind']);
    expect(other!.enter_us - one!.enter_us).toBeGreaterThan(0.3e6);
    expect(other!.leave_us).toBeGreaterThan(one!.leave_us);
  }
});
