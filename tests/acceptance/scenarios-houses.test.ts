/** Lessons on whole houses: what each comment promises is what comes out. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { DriftBands } from '../../src/score/drift-bands.js';
import type { DoorMetrics, Estimate, HouseMetrics, RoomMetrics } from '../../src/score/metrics-schema.js';
import type { Outcome } from '../../src/simulate/outcome.js';
import { plainRun } from '../simulate/plain-run.js';
import { LONG } from '../how-many.js';

/** A house's run with keys changed. */
function runOf(name: string, replicates: number, ...sets: readonly string[]): Outcome {
  const text = readFileSync(join(resolve('scenarios'), `${name}.yaml`), 'utf8');
  const { design, issues } = parseScenario(text, `${name}.yaml`, { sets: [`replicates=${replicates}`, ...sets] });
  expect(issues.map(formatIssue)).toEqual([]);
  return plainRun(design!);
}

const FOUR_LEVEL = 'four-level';

function door({ metrics }: Outcome, name: string, logic = FOUR_LEVEL): DoorMetrics {
  return metrics.doors.find((one) => one.door === name && one.logic === logic)!;
}
function room({ metrics }: Outcome, name: string, ledger: string): RoomMetrics {
  return metrics.rooms.find((one) => one.room === name && one.logic === FOUR_LEVEL && one.ledger === ledger)!;
}
function house({ metrics }: Outcome, ledger: string): HouseMetrics {
  return metrics.houses.find((one) => one.logic === FOUR_LEVEL && one.ledger === ledger)!;
}

/** Of the visits of some walkers (a part of their name) and kinds, all doors together: persons, and what was counted of them. */
function visitsOf(outcome: Outcome, who: string, kinds: readonly string[], logic = FOUR_LEVEL, at?: string) {
  const sums = { visits: 0, persons: 0, missed: 0, extra: 0, invented: 0 };
  for (const one of outcome.metrics.doors)
    for (const row of one.by_kind) {
      if (one.logic !== logic || (at !== undefined && one.door !== at)) continue;
      if (!row.who.startsWith(who) || !kinds.includes(row.kind)) continue;
      sums.visits += row.visits;
      sums.persons += row.person_crossings;
      sums.missed += row.missed;
      sums.extra += row.extra;
      sums.invented += row.invented;
    }
  expect(sums.visits).toBeGreaterThan(40);
  return sums;
}

/** Higher beyond doubt: the intervals don't meet. */
function expectHigher(more: Estimate, less: Estimate): void {
  expect(more.low!).toBeGreaterThan(less.high!);
}

/** Quantiles over replicates of counted minus true, so many hours after the start. */
function bandsAt(bands: Omit<DriftBands, 'door' | 'logic'>, hour: number) {
  const i = bands.clock_h.findLastIndex((h) => h <= hour);
  return { low: bands.q05[i]!, quarter: bands.q25[i]!, middle: bands.q50[i]!, high: bands.q95[i]! };
}
const NOTHING = { low: 0, quarter: 0, middle: 0, high: 0 };
function roomBands({ figures }: Outcome, name: string, ledger: string) {
  return figures.room_drift.find((one) => one.room === name && one.ledger === ledger)!;
}
function doorBands({ figures }: Outcome, name: string) {
  return figures.drift.find((one) => one.door === name && one.logic === FOUR_LEVEL)!;
}

describe('reading-room', () => {
  const LEDGERS = ['raw', 'floor', 'reset', 'conserve', 'presence'];
  /** Sunday at 21:00, and Monday at 09:00. */
  const [CLOSED_H, CLOSED_ON_MONDAY_H] = [12, 24];
  const open = runOf('reading-room', 16, 'hours=9');
  const whole = runOf('reading-room', 10);

  test('of two abreast one is missed in most pairs; alone or one behind the other hardly anybody is', () => {
    const abreast = visitsOf(whole, 'group-adult', ['abreast']);
    expect(abreast.missed / (abreast.persons / 2)).toBeGreaterThan(0.6);
    for (const others of [visitsOf(whole, 'reader', ['through']), visitsOf(whole, 'group-adult', ['close-behind'])])
      expect(others.missed / others.persons).toBeLessThan(0.02);
  });

  test('about one in eight is not counted, by either logic', () => {
    for (const logic of [FOUR_LEVEL, 'first-broken']) {
      const { low, high } = door(whole, 'front', logic).missed_per_100;
      expect(low!).toBeGreaterThan(8);
      expect(high!).toBeLessThan(17);
    }
  });

  test('when all have left, a few are too many or too few, by chance', () => {
    const { low, high } = bandsAt(roomBands(whole, 'reading-room', 'raw'), 12);
    expect(low).toBeLessThan(0);
    expect(high).toBeGreaterThan(1);
  });

  test('while the room is open no ledger does better than the sum', () => {
    const sum = room(open, 'reading-room', 'raw').mean_absolute_error;
    for (const ledger of LEDGERS) {
      const { low, high } = room(open, 'reading-room', ledger).mean_absolute_error;
      expect(low!).toBeGreaterThan(0.7);
      expect(high!).toBeGreaterThan(sum.low!);
    }
  });

  test('what is left over stays all Monday with floor and conserve; reset and presence forget it', () => {
    for (const ledger of ['floor', 'conserve']) {
      const bands = roomBands(whole, 'reading-room', ledger);
      expect(bandsAt(bands, CLOSED_ON_MONDAY_H)).toEqual(bandsAt(bands, CLOSED_H));
      expect(bandsAt(bands, CLOSED_H).high).toBeGreaterThan(1);
      for (const better of ['reset', 'presence'])
        expectHigher(
          room(whole, 'reading-room', ledger).longest_occupied_while_empty_min,
          room(whole, 'reading-room', better).longest_occupied_while_empty_min,
        );
    }
    for (const ledger of ['reset', 'presence'])
      expect(bandsAt(roomBands(whole, 'reading-room', ledger), CLOSED_ON_MONDAY_H)).toEqual(NOTHING);
    expect(room(whole, 'reading-room', 'presence').longest_occupied_while_empty_min.high!).toBeLessThan(15);
  });

  test('on Mondays nobody comes', () => {
    const front = whole.figures.hourly.find((one) => one.door === 'front')!;
    const passed = front.day.flatMap((day, i) => (day === 0 ? [front.forward[i]! + front.backward[i]!] : []));
    expect(passed).toHaveLength(24);
    expect(Math.max(...passed)).toBe(0);
  });

  test('with one leaf shut all but a few are counted', () => {
    const narrow = runOf('reading-room', 16, 'hours=9', 'doors.front.width_m=0.9');
    expectHigher(door(open, 'front').missed_per_100, door(narrow, 'front').missed_per_100);
    expect(door(narrow, 'front').missed_per_100.high!).toBeLessThan(4);
    for (const ledger of ['raw', 'floor', 'reset', 'conserve'])
      expectHigher(
        room(open, 'reading-room', ledger).mean_absolute_error,
        room(narrow, 'reading-room', ledger).mean_absolute_error,
      );
  });
});

describe('potters-studio', () => {
  const low = runOf('potters-studio', 16);
  const high = runOf('potters-studio', 8, 'doors.*.beams.*.height_m=0.95');
  const CAT = ['through', 'linger', 'at-heel'];

  test('low beams count the cat at every door, high ones never', () => {
    for (const logic of [FOUR_LEVEL, 'first-broken']) {
      const seen = visitsOf(low, 'cat', ['through'], logic);
      expect(seen.invented / seen.visits).toBeGreaterThan(0.95);
      expect(visitsOf(high, 'cat', CAT, logic).invented).toBe(0);
    }
  });

  test('first-broken order makes three of most deliveries, the four-level walk one or two; at the chest each is one', () => {
    const three = visitsOf(low, 'delivery', ['through'], 'first-broken');
    expect(1 + three.extra / three.persons).toBeCloseTo(3, 0);
    const walk = visitsOf(low, 'delivery', ['through']);
    expect(walk.extra / walk.persons).toBeGreaterThan(0.2);
    expect(walk.extra / walk.persons).toBeLessThan(0.8);
    for (const logic of [FOUR_LEVEL, 'first-broken']) {
      const one = visitsOf(high, 'delivery', ['through'], logic);
      expect((one.missed + one.extra) / one.persons).toBeLessThan(0.01);
    }
  });

  test('in the sum the errors nearly cancel, under floor they stay; a reset halves them', () => {
    const wrong = (ledger: string) => house(low, ledger).persons_absolute_error;
    expectHigher(wrong('floor'), wrong('raw'));
    expect(house(low, 'floor').persons_bias.low!).toBeGreaterThan(8);
    expect(Math.abs(house(low, 'raw').persons_bias.value!)).toBeLessThan(2);
    for (const ledger of ['reset-after-work', 'reset-after-the-cat']) {
      expectHigher(wrong('floor'), wrong(ledger));
      expect(Math.abs(wrong(ledger).value! / wrong('floor').value! - 0.5)).toBeLessThan(0.15);
    }
  });

  test('conserve has no better total than the sum, but better rooms', () => {
    expect(house(low, 'conserve').persons_absolute_error.high!).toBeGreaterThan(
      house(low, 'raw').persons_absolute_error.low!,
    );
    for (const name of ['studio', 'yard'])
      expectHigher(room(low, name, 'raw').mean_absolute_error, room(low, name, 'conserve').mean_absolute_error);
  });

  test('a reset before the cat’s last round leaves the night wrong, one after it does not', () => {
    expectHigher(house(low, 'reset-after-the-cat').exact_share, house(low, 'reset-after-work').exact_share);
    // The second midnight and the small hours after it.
    for (const name of ['studio', 'shop', 'kiln-room', 'yard'])
      for (const hour of [24, 29]) expect(bandsAt(roomBands(low, name, 'reset-after-the-cat'), hour)).toEqual(NOTHING);
    expect(bandsAt(roomBands(low, 'studio', 'reset-after-work'), 29).middle).toBeGreaterThanOrEqual(1);
  });

  test('at the chest no ledger is wrong by much more than one', () => {
    for (const ledger of ['raw', 'floor', 'reset-after-work', 'reset-after-the-cat', 'conserve']) {
      expect(house(high, ledger).persons_absolute_error.value!).toBeLessThan(1.3);
      expectHigher(house(low, ledger).persons_absolute_error, house(high, ledger).persons_absolute_error);
    }
  });
});

describe('birthday-party', () => {
  const party = runOf('birthday-party', LONG ? 80 : 30);
  const quiet = runOf('birthday-party', 12, 'household.parties=[]');
  const [BEFORE, ARRIVED, NIGHT, AFTER_RESET] = [12, 13, 23.5, 25];
  const ROOMS = ['hall', 'living', 'garden', 'bedroom'];

  test('the front door is right until the guests come, and some four too few by 16:00', () => {
    expect(Math.abs(bandsAt(doorBands(party, 'front'), BEFORE).middle)).toBe(0);
    const arrived = bandsAt(doorBands(party, 'front'), ARRIVED);
    expect(arrived.high).toBeLessThan(0);
    expect(Math.abs(arrived.middle + 4)).toBeLessThan(1.6);
    const without = bandsAt(doorBands(quiet, 'front'), ARRIVED);
    expect(without.middle).toBe(0);
  });

  test('side by side one is missed in more than half of the pairs, alone hardly anybody', () => {
    const pairs = visitsOf(party, 'guest-schoolchild', ['abreast'], FOUR_LEVEL, 'front');
    expect(pairs.missed / (pairs.persons / 2)).toBeGreaterThan(0.5);
    const alone = visitsOf(party, 'guest', ['through'], FOUR_LEVEL, 'front');
    expect(alone.missed / alone.persons).toBeLessThan(0.04);
    const meeting = visitsOf(party, 'guest', ['against'], FOUR_LEVEL, 'garden-door');
    const single = visitsOf(party, 'guest', ['through'], FOUR_LEVEL, 'garden-door');
    expect(Math.abs(meeting.missed / meeting.persons - 1 / 7)).toBeLessThan(0.04);
    expect(Math.abs(single.missed / single.persons - 1 / 50)).toBeLessThan(0.012);
  });

  test('more are counted out than were counted in', () => {
    const { bias } = door(party, 'front').drift_per_100;
    // About −1.2: so few replicates only just tell it from nothing.
    expect((LONG ? bias.high : bias.value)!).toBeLessThan(0);
    expect(bandsAt(doorBands(party, 'front'), NIGHT).middle).toBeLessThan(0);
  });

  test('without guests conserve is right some nine tenths of the time', () => {
    expect(house(quiet, 'conserve').exact_share.value!).toBeGreaterThan(0.82);
    expectHigher(house(quiet, 'conserve').exact_share, house(party, 'conserve').exact_share);
  });

  test('at night conserve has too few in the beds, floor has guests who went home', () => {
    expect(bandsAt(roomBands(party, 'bedroom', 'conserve'), NIGHT).quarter).toBeLessThanOrEqual(-1);
    expect(bandsAt(roomBands(party, 'bedroom', 'floor'), NIGHT).quarter).toBe(0);
    const dark = (ledger: string) => room(party, 'bedroom', ledger).empty_while_occupied_share;
    expectHigher(dark('conserve'), dark('floor'));
    const left = ['hall', 'living'].map((name) => bandsAt(roomBands(party, name, 'floor'), NIGHT));
    expect(left.reduce((sum, { middle }) => sum + middle, 0)).toBeGreaterThanOrEqual(1);
    for (const { low, high } of left) {
      expect(low).toBe(0);
      expect(high).toBeGreaterThanOrEqual(2);
    }
  });

  test('a reset to the night before forgets all of it', () => {
    for (const name of ROOMS) {
      const after = bandsAt(roomBands(party, name, 'reset'), AFTER_RESET);
      expect(after.middle).toBe(0);
      expect(Math.max(-after.low, after.high)).toBeLessThanOrEqual(1);
      expect(bandsAt(roomBands(party, name, 'reset'), NIGHT)).toEqual(bandsAt(roomBands(party, name, 'floor'), NIGHT));
    }
  });
});

describe('guesthouse', () => {
  const ledgers = 'ledgers=[floor, { use: reset, at: "04:00", to: start }, conserve, presence]';
  const week = runOf('guesthouse', LONG ? 12 : 5, ledgers);

  test('every door by itself is good: one or two wrong of 100', () => {
    const { value, high } = week.metrics.house.wrong_per_100;
    expect(value!).toBeGreaterThan(0.5);
    expect(high!).toBeLessThan(2.5);
    for (const name of ['kitchen-door', 'bathroom-door', 'family-door'])
      expect(door(week, name).wrong_per_100.high!).toBeLessThan(3);
  });

  test('thousands of people a week, and a floor: all rooms right at once for a few hours a day at most', () => {
    expect(week.metrics.house.person_crossings / week.metrics.replicates).toBeGreaterThan(2000);
    expect(house(week, 'floor').exact_share.high!).toBeLessThan(0.25);
    expect(week.metrics.targets[0]!.outcome).toBe('missed');
  });

  test('a reset at four and conservation both help, and neither is enough', () => {
    for (const ledger of ['reset', 'conserve']) {
      // On the same tallies: the difference is sure where both intervals are wide.
      expect(house(week, ledger).exact_share.value!).toBeGreaterThan(2 * house(week, 'floor').exact_share.value!);
      expect(house(week, ledger).exact_share.value!).toBeLessThan(0.8);
    }
  });

  test('the presence sensor darkens the parlour several times a day', () => {
    expect(room(week, 'parlour', 'presence').empty_while_occupied_per_day.low!).toBeGreaterThan(1);
    expectHigher(
      room(week, 'parlour', 'presence').empty_while_occupied_per_day,
      room(week, 'parlour', 'floor').empty_while_occupied_per_day,
    );
  });

  test('the dog is not counted; with beams at his height he is', () => {
    const tallies = (outcome: Outcome): number =>
      outcome.metrics.doors
        .filter(({ logic }) => logic === FOUR_LEVEL)
        .flatMap(({ by_kind }) => by_kind)
        .filter(({ who }) => who === 'bruno')
        .reduce((sum, { invented }) => sum + invented, 0);
    expect(tallies(week)).toBe(0);
    const low = runOf('guesthouse', 1, 'ledgers=[floor]', 'doors.*.beams.*.height_m=0.3', 'hours=48');
    expect(tallies(low)).toBeGreaterThan(20);
  });

  test('night, school run and Sunday show in the hours of the front door', () => {
    const { hour, day, forward, backward, covered_h } = week.figures.hourly.find((one) => one.door === 'front-door')!;
    const perHour = (holds: (h: number, d: number) => boolean): number => {
      let [persons, hours] = [0, 0];
      hour.forEach((h, i) => {
        if (!holds(h, day[i]!)) return;
        persons += forward[i]! + backward[i]!;
        hours += covered_h[i]!;
      });
      return persons / hours;
    };
    const night = perHour((h) => h >= 1 && h < 5);
    const school = perHour((h, d) => h === 7 && d < 5);
    const sunday = perHour((h, d) => h === 7 && d === 6);
    expect(night).toBeLessThan(0.3);
    expect(school).toBeGreaterThan(3);
    expect(school).toBeGreaterThan(2 * sunday);
  });
});
