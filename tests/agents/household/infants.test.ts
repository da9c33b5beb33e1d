/** An infant is carried: to bed, out of bed, out of the house; never by two at once, and never left alone in the house. */
import { describe, expect, test } from 'vitest';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { infantToCarry, mustFetch } from '../../../src/agents/household/infants.js';
import { IDLE_MIND } from '../../../src/agents/household/minds.js';
import type { Infant, Mover } from '../../../src/agents/household/mover.js';
import { DOORS, type HouseText, ROOMS, crossingsOf, live, personsIn } from './houses.js';

const HOUR_US = 3.6e9;
const NURSERY = ROOMS.indexOf('nursery');
const BABY = { name: 'baby', age_y: 1, sex: 'man', habits: 'infant', bedroom: 'nursery' };
const MOTHER = { name: 'ida', age_y: 31, sex: 'woman', habits: 'at-home', bedroom: 'bedroom' };
const FATHER = { name: 'tom', age_y: 34, sex: 'man', habits: 'commuter', bedroom: 'bedroom' };

const mover = (room: number, more: Partial<Mover> = {}): Mover => ({
  number: 0,
  name: 'ida',
  is: 'resident',
  carer: true,
  mind: IDLE_MIND,
  luggage: null,
  group: [],
  room,
  busy: false,
  leaving: false,
  asleep: false,
  round: 0,
  visits: 0,
  ...more,
});
const infant = (room: number, more: Partial<Infant> = {}): Infant => ({
  name: 'baby',
  mind: IDLE_MIND,
  bedroom: 1,
  room,
  asleep: false,
  carried: false,
  keeper: null,
  ...more,
});
const home = (people: Mover[], ...infants: Infant[]) => ({
  people,
  infants,
  pets: [],
  robots: [],
  begin_us: new Map<Mover, number>(),
});

describe('who takes it along', () => {
  test('the last who leaves its room while it is awake, not one of two', () => {
    const [ida, tom] = [mover(0), mover(0, { name: 'tom' })];
    const baby = infant(0);
    expect(infantToCarry([ida], 1, home([ida, tom], baby))).toBeNull();
    expect(infantToCarry([ida], 1, home([ida], baby))).toBe(baby);
    tom.busy = true;
    expect(infantToCarry([ida], 1, home([ida, tom], baby))).toBe(baby);
  });

  test('asleep it stays, unless nobody else is in the house', () => {
    const [ida, tom] = [mover(0), mover(2, { name: 'tom' })];
    const baby = infant(0, { asleep: true });
    expect(infantToCarry([ida], 1, home([ida, tom], baby))).toBeNull();
    expect(infantToCarry([ida], OUTSIDE, home([ida, tom], baby))).toBeNull();
    tom.room = OUTSIDE;
    expect(infantToCarry([ida], OUTSIDE, home([ida, tom], baby))).toBe(baby);
  });

  test('on one arm it is on no other', () => {
    const [ida, tom] = [mover(0), mover(0, { name: 'tom', busy: true })];
    expect(infantToCarry([ida], 1, home([ida, tom], infant(0, { carried: true })))).toBeNull();
  });

  test('children don’t carry it, and outside it is with whom it went', () => {
    const [child, ida, tom] = [mover(0, { carer: false }), mover(OUTSIDE), mover(OUTSIDE)];
    expect(infantToCarry([child], 1, home([child], infant(0)))).toBeNull();
    const out = infant(OUTSIDE, { keeper: ida });
    expect(infantToCarry([tom], 1, home([ida, tom], out))).toBeNull();
    expect(infantToCarry([ida], 1, home([ida, tom], out))).toBe(out);
  });

  test('the last who leaves the house fetches it; whoever is on the way out already doesn’t count as staying', () => {
    const [ida, tom] = [mover(0), mover(0, { name: 'tom' })];
    const baby = infant(1, { asleep: true });
    expect(mustFetch([ida], home([ida, tom], baby))).toBeNull();
    tom.leaving = true;
    expect(mustFetch([ida], home([ida, tom], baby))).toBe(1);
    tom.leaving = false;
    expect(mustFetch([ida, tom], home([ida, tom], baby))).toBe(1);
  });
});

/** Persons in the house but the infant, who is nobody's own visit, at every crossing; and where the infant is. */
function checkNeverAlone(text: HouseText, seed: string, carers: readonly string[]): number {
  const lived = live(text, seed);
  const inside = new Map(carers.map((name) => [name, true]));
  let baby = NURSERY;
  let alone = 0;
  for (const { visit, from, to } of crossingsOf(lived)) {
    const carer = carers.find((name) => visit.who === name || visit.who.startsWith(`${name}-`));
    if (carer !== undefined) inside.set(carer, to !== OUTSIDE);
    if (visit.persons === 2) {
      // It is where it was left: nobody carries an infant that is elsewhere.
      expect(from).toBe(baby);
      baby = to;
    }
    if (baby !== OUTSIDE && ![...inside.values()].includes(true)) alone++;
  }
  return alone;
}

describe('in the house', () => {
  const text = (more: object, hours = 72): HouseText => ({
    rooms: ROOMS,
    doors: DOORS,
    household: { people: [MOTHER, FATHER, BABY], turn_back_share: 0, linger_share: 0, reach_share: 0, ...more },
    hours,
  });

  test('is fetched before the last carer leaves, over many days and with outings of everybody', () => {
    const outings = [
      { name: 'shops', who: ['ida', 'tom'], at: '20:30', lasts_min: 45 },
      { name: 'walk', who: ['ida'], at: '14:00', lasts_min: 60 },
    ];
    const errands = [{ name: 'rubbish', load: 'tray', from: 'kitchen', to: 'outside', per_week: 60 }];
    for (let n = 0; n < 8; n++)
      expect(checkNeverAlone(text({ outings, errands, activity: 2 }), `never ${n}`, ['ida', 'tom'])).toBe(0);
  });

  test('with both parents about it is on one arm at a time: rooms stay at least empty, and it is where it was put', () => {
    for (let n = 0; n < 6; n++)
      expect(
        checkNeverAlone(
          text({ people: [MOTHER, { ...FATHER, habits: 'at-home' }, BABY], activity: 6 }, 48),
          `arms ${n}`,
          ['ida', 'tom'],
        ),
      ).toBe(0);
  });

  test('goes out in a pram and about the house on an arm', () => {
    const lived = live(
      text({ people: [MOTHER, BABY], outings: [{ name: 'walk', who: ['ida'], at: '10:00', lasts_min: 60 }] }),
      'pram',
    );
    const carried = crossingsOf(lived).filter(({ visit }) => visit.persons === 2);
    const front = carried.filter(({ visit }) => visit.door === 0);
    expect(front.length).toBeGreaterThanOrEqual(6);
    expect(new Set(front.map(({ visit }) => visit.who))).toEqual(new Set(['ida-pram']));
    expect(carried.some(({ visit }) => visit.who === 'ida-infant')).toBe(true);
  });

  test('is put to bed in the evening, wherever it is then, and is up again in the morning', () => {
    for (let n = 0; n < 5; n++) {
      const lived = live(text({ people: [MOTHER, BABY] }, 36), `bed ${n}`);
      const last = crossingsOf(lived)
        .filter(({ visit, at_us }) => visit.persons === 2 && at_us < 19.9 * HOUR_US)
        .at(-1)!;
      expect(last.to).toBe(NURSERY);
      // Asked again each two minutes from 19:00 on: late only when she is out or on her way.
      expect(personsIn(lived, NURSERY, 22 * HOUR_US)).toBe(1);
      const first = crossingsOf(lived).find(({ visit, at_us }) => visit.persons === 2 && at_us > 24 * HOUR_US)!;
      expect(first.from).toBe(NURSERY);
      expect(first.at_us).toBeLessThan(33 * HOUR_US);
    }
  });

  test('where all who could mind it are out when the clock starts, it is with one of them', () => {
    const lived = live({ ...text({ people: [{ ...MOTHER, habits: 'commuter' }, BABY] }, 12), starts_at_h: 11 }, 'out');
    expect(lived.start.reduce((sum, n) => sum + n, 0)).toBe(0);
    expect(crossingsOf(lived)[0]!.visit).toMatchObject({ who: 'ida-pram', persons: 2 });
  });
});
