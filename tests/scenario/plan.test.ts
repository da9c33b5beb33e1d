/** The plan of a house: what can't be built so, and what is hardly meant. */
import { describe, expect, test } from 'vitest';
import { HOUSE, TWO_STOREYS } from '../effort/houses.js';
import { VALID, cautions, edit, messages } from './helpers.js';

const of = (house: string, from: string, to: string) => edit(from, to, house);

test('the houses of these tests have nothing to complain about', () => {
  for (const text of [HOUSE, TWO_STOREYS]) {
    expect(messages(text)).toEqual([]);
    expect(cautions(text)).toEqual([]);
  }
});

describe('what can’t be', () => {
  test('a door away from the walls it should be in: both distances', () => {
    // The hall's right wall and the kitchen's left one are at x = 4.
    expect(messages(of(HOUSE, '{ x: 4, y: 1.5 }', '{ x: 3.5, y: 1.5 }'))).toEqual([
      's.yaml:20:5: doors.inner.at_m: expected a place in the wall of what the door joins, at most 0.3 m off, found 0.5 m from the wall of hall and 0.5 m from the wall of kitchen\n' +
        "  hint: at_m is the middle of the opening; mend it, or the rooms' at_m and size_m",
    ]);
    expect(messages(of(HOUSE, '{ x: 2, y: 0 }', '{ x: 2, y: -0.75 }'))[0]).toContain(
      'found 0.75 m from the wall of hall\n',
    );
  });

  test('0.3 m is allowed: walls have a thickness', () => {
    expect(messages(of(HOUSE, '{ x: 2, y: 0 }', '{ x: 2, y: -0.29 }'))).toEqual([]);
    expect(messages(of(HOUSE, '{ x: 2, y: 0 }', '{ x: 2, y: -0.31 }'))).toHaveLength(1);
  });

  test('rooms that overlap on a storey, with how much', () => {
    expect(
      messages(of(HOUSE, '{ name: kitchen, at_m: { x: 4, y: 0 }', '{ name: kitchen, at_m: { x: 3.75, y: 1 }')),
    ).toEqual([
      's.yaml:5:22: rooms.kitchen.at_m: the room overlaps "hall" by 0.25 m by 2 m\n  hint: rooms are rectangles side by side; mend at_m, size_m or storey',
    ]);
    // The landing lies over the hall: no overlap, until it is on its storey.
    expect(messages(TWO_STOREYS)).toEqual([]);
    expect(messages(of(TWO_STOREYS, '}, storey: 1 }\n  - { name: bed', '} }\n  - { name: bed')).join('\n')).toMatch(
      /rooms\.landing\.at_m: the room overlaps "hall" by 4 m by 3 m/,
    );
  });

  test('stairs on one storey, a door between two', () => {
    expect(messages(of(HOUSE, 'facing_deg: 90', 'facing_deg: 90\n    way: stairs'))).toEqual([
      's.yaml:22:10: doors.inner.way: stairs join two storeys, both rooms are on storey 0\n  hint: give one of the rooms another storey, or take way: opening',
    ]);
    expect(messages(of(TWO_STOREYS, 'way: stairs', 'way: door'))).toEqual([
      's.yaml:19:9: doors.stairs.to: a door joins rooms of one storey, these are on 0 and 1\n  hint: way: stairs, or mend storey of a room',
    ]);
  });

  test('storeys are looked at without a plan too', () => {
    const upstairs = edit('- name: kitchen', '- name: kitchen\n    storey: 2').replace(
      'from: outside',
      'from: kitchen',
    );
    expect(messages(upstairs)[0]).toContain('a door joins rooms of one storey');
  });

  test('stairs away from both rooms', () => {
    expect(messages(of(TWO_STOREYS, '{ x: 0, y: 1 }', '{ x: -2, y: 1 }'))[0]).toMatch(
      /^s\.yaml:22:5: doors\.stairs\.at_m: expected the foot or head .*, found 2 m from the wall of hall and 2 m from/,
    );
    // In the middle of the hall they are as good as in its wall.
    expect(messages(of(TWO_STOREYS, '{ x: 0, y: 1 }', '{ x: 2, y: 1.5 }'))).toEqual([]);
  });

  test('a controller in no room, or in one that is not there', () => {
    expect(messages(of(HOUSE, '{ x: 0, y: 2 }', '{ x: -1.5, y: 2 }'))).toEqual([
      's.yaml:7:19: controllers.main.at_m: expected a place in a room on the ground floor, found one 1.5 m away\n  hint: mend at_m, or name the room: room',
    ]);
    expect(messages(of(HOUSE, '{ x: 0, y: 2 }', '{ x: 0, y: 2 }, room: kitchen'))[0]).toMatch(
      /expected a place in the room "kitchen", found one 4 m away/,
    );
    expect(messages(of(HOUSE, '{ x: 0, y: 2 }', '{ x: 0, y: 2 }, room: kichen'))).toEqual([
      's.yaml:7:47: controllers.main.room: there is no room "kichen"\n  hint: did you mean "kitchen"?',
    ]);
  });
});

describe('what is hardly meant', () => {
  const ATTIC = '  - { name: attic, at_m: { x: 20, y: 0 }, size_m: { x: 2, y: 2 } }\n';

  test('a room without a door', () => {
    expect(cautions(of(HOUSE, 'controllers:', `${ATTIC}controllers:`))).toEqual([
      's.yaml:6:13: rooms.attic.name: no door leads to the room "attic"\n  hint: add a door, or leave the room out',
    ]);
  });

  test('rooms nobody can come to: joined with each other only, and empty', () => {
    const more = `${ATTIC}  - { name: loft, at_m: { x: 22, y: 0 }, size_m: { x: 2, y: 2 } }\n`;
    const door = HOUSE.slice(HOUSE.indexOf('  - name: inner'))
      .replace('inner', 'hatch')
      .replace('hall', 'attic')
      .replace('kitchen', 'loft')
      .replace('{ x: 4, y: 1.5 }', '{ x: 22, y: 1 }')
      .replace('arrivals_per_hour: 6', 'arrivals_per_hour: 0');
    const apart = of(HOUSE, 'controllers:', `${more}controllers:`) + door;
    const said = cautions(apart).filter((one) => one.includes('can come'));
    expect(said).toEqual([
      expect.stringMatching(
        /^s\.yaml:6:13: rooms\.attic\.name: nobody can come to the room "attic": neither from outside/,
      ),
      expect.stringMatching(/^s\.yaml:7:13: rooms\.loft\.name: nobody can come/),
    ]);
    // Somebody in one of them can go to the other.
    expect(cautions(apart.replace('name: loft,', 'name: loft, people_at_start: 2,')).join('\n')).not.toContain(
      'can come',
    );
  });

  test('no way out', () => {
    const closed = of(HOUSE, 'from: outside\n    to: hall', 'from: kitchen\n    to: hall')
      .replace('{ x: 2, y: 0 }', '{ x: 4, y: 2.5 }\n    facing_deg: 270')
      .replace('name: kitchen,', 'name: kitchen, people_at_start: 9,');
    expect(cautions(closed)).toEqual([
      's.yaml:8:1: doors: no door leads outside\n  hint: if the house has one, its people are missed: a door from or to outside',
    ]);
  });

  test('one door written twice, whichever way round', () => {
    const again = HOUSE + HOUSE.slice(HOUSE.indexOf('  - name: inner')).replace('inner', 'again');
    expect(cautions(again)).toEqual([
      's.yaml:28:5: doors.again.at_m: door "inner" is at the same place and joins the same rooms\n  hint: whoever passes would be counted twice',
    ]);
    expect(cautions(again.replace('{ x: 4, y: 1.5 }', '{ x: 4, y: 0.8 }'))).toEqual([]);
  });

  test('a door that faces along its wall, or backwards', () => {
    expect(cautions(of(HOUSE, '    facing_deg: 90\n', ''))).toEqual([
      's.yaml:20:5: doors.inner.at_m: forward points to 0° on the plan, which does not lead from the first room to the second through this wall\n  hint: facing_deg: 90 would (0 is up, 90 to the right)',
    ]);
    expect(cautions(of(HOUSE, 'facing_deg: 90', 'facing_deg: 270'))[0]).toContain('facing_deg: 90 would');
    expect(cautions(of(HOUSE, 'facing_deg: 90', 'facing_deg: 120'))).toEqual([]);
  });

  test('a room with a place but no size, a controller with a room but no place', () => {
    expect(cautions(of(HOUSE, ', size_m: { x: 3, y: 3 }', ''))[0]).toMatch(
      /^s\.yaml:5:22: rooms\.kitchen\.at_m: at_m needs size_m/,
    );
    expect(cautions(of(HOUSE, 'at_m: { x: 0, y: 2 }', 'room: hall'))[0]).toMatch(
      /controllers\.main\.room: room needs at_m/,
    );
  });

  test('without any room’s place nothing of this is said: a scenario may be of a doorway only', () => {
    expect(cautions(VALID)).toEqual([]);
  });
});

describe('prices', () => {
  test('of parts that are there, and one each', () => {
    const prices = (list: string) => messages(`${VALID}prices: [${list}]\n`);
    expect(
      prices('{ part: cable-per-metre, price: 1 }, { part: main, price: 3 }, { part: light-barrier, price: 2 }'),
    ).toEqual([]);
    expect(prices('{ part: cable-per-meter, price: 1 }')).toEqual([
      's.yaml:17:18: prices.cable-per-meter.part: there is no part "cable-per-meter"\n  hint: did you mean "cable-per-metre"?',
    ]);
    expect(prices('{ part: mounting, price: 1 }, { part: mounting, price: 2 }')[0]).toContain(
      'a second price is called "mounting"',
    );
  });
});
