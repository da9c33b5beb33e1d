/** What is wrong with a household or its house, and the words it is told in. */
import { describe, expect, test } from 'vitest';
import { cautions, designOf, edit, messages } from './helpers.js';

/** Line numbers count in this text: what follows begins in line 14. */
const HOUSE = `format: 1
name: House
rooms:
  - name: hall
  - name: kitchen
  - { name: parlour, use: living }
  - name: bedroom
  - name: shed
doors:
  - { name: front, from: outside, to: hall, width_m: 0.9, pair: { height_m: 0.9, spacing_m: 0.1 } }
  - { name: kitchen-door, from: hall, to: kitchen, width_m: 0.8, pair: { height_m: 0.9, spacing_m: 0.1 } }
  - { name: parlour-door, from: hall, to: parlour, width_m: 0.6, pair: { height_m: 0.9, spacing_m: 0.1 } }
  - { name: bedroom-door, from: hall, to: bedroom, width_m: 0.8, pair: { height_m: 0.9, spacing_m: 0.1 } }
`;
const ROOMS = 'there is hall, kitchen, parlour, bedroom and shed';
const ida = (more = '', habits = 'commuter') =>
  `household:\n  people:\n    - { name: ida, age_y: 40, sex: woman, habits: ${habits}${more} }\n`;
/** Ida lives here, and something else from line 17 on. */
const and = (more: string) => messages(HOUSE + ida() + more);
const mine = (...lines: string[]) =>
  messages(`${HOUSE}${ida('', 'mine')}habits:\n  mine:\n${lines.map((line) => `    ${line}\n`).join('')}`);
const GO = 'moves: [{ from: "00:00", go: [{ to: hall, share: 1, stay_min: 5 }] }]';

test('a house somebody lives in: nothing to complain of', () => {
  expect(messages(HOUSE + ida())).toEqual([]);
  expect(cautions(HOUSE + ida())).toEqual([]);
  const { doors, walkers } = designOf(HOUSE + ida());
  expect(doors[0]!.traffic.mix).toEqual([{ who: 'ida', kind: 'through', share: 1 }]);
  expect(Object.keys(walkers)).toContain('ida');
});

describe('traffic or a household, not both, not neither', () => {
  test('neither', () => {
    expect(messages(HOUSE)[0]).toBe(
      's.yaml:10:5: doors.front.traffic: the key "traffic" is missing\n  hint: who comes, how often, and what they do; or say who lives in the house: household',
    );
    expect(messages(HOUSE)).toHaveLength(4);
  });
  test('both', () => {
    const both = edit('width_m: 0.9,', 'width_m: 0.9, traffic: { arrivals_per_hour: 3 },', HOUSE + ida());
    expect(messages(both)).toEqual([
      's.yaml:10:59: doors.front.traffic: a household lives in the house, and this door has traffic of its own\n  hint: take the traffic away: guests come as visitors or parties of the household',
    ]);
  });
  test('people at the start besides', () => {
    const more = edit('- name: kitchen', '- { name: kitchen, people_at_start: 2 }', HOUSE + ida());
    expect(messages(more)).toEqual([
      's.yaml:5:39: rooms.kitchen.people_at_start: a household lives in the house, and 2 more would be here at the start\n  hint: take people_at_start away: where people begin is starts_in of each, or follows from their habits',
    ]);
  });
});

describe('the name of a household', () => {
  test('misspelt', () => {
    expect(messages(`${HOUSE}household: family-of-fuor\n`)).toEqual([
      's.yaml:14:12: household: expected one of single, couple, family-of-four or grandparents, found the text "family-of-fuor"\n  hint: did you mean "family-of-four"?',
    ]);
  });
  test('left out', () => {
    expect(messages(`${HOUSE}household:\n`)[0]).toMatch(
      /^s\.yaml:14:1: household: expected "single" or "couple" or "family-of-four" or "grandparents" or a map of keys, found nothing\n/,
    );
  });
});

describe('people', () => {
  test.each([
    [
      ', starts_in: attic',
      `72: household.people.ida.starts_in: there is no room "attic"\n  hint: ${ROOMS.replace(' and shed', ', shed and outside')}`,
    ],
    [', bedroom: nursery', `70: household.people.ida.bedroom: there is no room "nursery"\n  hint: ${ROOMS}`],
    [
      ', bedroom: study',
      `70: household.people.ida.bedroom: no room of this house has the use "study"\n  hint: give one of them \`use: study\`, or name a room: ${ROOMS}`,
    ],
    [
      ', starts_in: shed',
      '51: household.people.ida.habits: "ida" can\'t walk from "shed" to "kitchen": no doors lead there\n  hint: add the door that is missing, or take the room out of the itinerary',
    ],
  ])('%s', (more, expected) => {
    expect(messages(HOUSE + ida(more))).toEqual([`s.yaml:16:${expected}`]);
  });
  test('habits nobody knows', () => {
    expect(messages(HOUSE + ida('', 'comuter'))).toEqual([
      's.yaml:16:51: household.people.ida.habits: there is no habit "comuter"\n  hint: did you mean "commuter"?',
    ]);
  });
});

describe('habits', () => {
  test('shares that do not add up say what they add up to', () => {
    expect(
      mine(
        'moves: [{ from: "00:00", go: [{ to: hall, share: 0.5, stay_min: 5 }, { to: kitchen, share: 0.6, stay_min: 5 }] }]',
      ),
    ).toEqual([
      's.yaml:19:30: habits.mine.moves.1.go: expected shares that add up to 1, found 1.1\n  hint: 0.1 is too much',
    ]);
  });
  test('spans without hours', () => {
    expect(mine('sleep: { from: "22:00", to: "22:00" }', 'away: [{ from: "08:00", to: "08:00" }]', GO)).toEqual([
      's.yaml:19:33: habits.mine.sleep.to: expected a later time than 22:00, found the same: there are no hours between\n  hint: to may be past midnight',
      's.yaml:20:33: habits.mine.away.1.to: expected a later time than 08:00, found the same: there are no hours between\n  hint: to may be past midnight',
    ]);
  });
  test('rooms and uses the house lacks', () => {
    expect(
      mine(
        'meals: [{ at: "12:00", lasts_min: 5, in: dining }]',
        'moves: [{ from: "00:00", after: bath, go: [{ to: kitchn, share: 1, stay_min: 5 }] }]',
      ),
    ).toEqual([
      `s.yaml:19:46: habits.mine.meals.1.in: no room of this house has the use "dining"\n  hint: give one of them \`use: dining\`, or name a room: ${ROOMS}`,
      `s.yaml:20:37: habits.mine.moves.1.after: there is no room "bath"\n  hint: ${ROOMS}`,
      's.yaml:20:54: habits.mine.moves.1.go.1.to: there is no room "kitchn"\n  hint: did you mean "kitchen"?',
    ]);
  });
  test('an itinerary that can’t be walked', () => {
    expect(
      mine(
        'moves: [{ from: "00:00", go: [{ to: hall, share: 0.5, stay_min: 5 }, { to: shed, share: 0.5, stay_min: 5 }] }]',
      ),
    ).toEqual([
      's.yaml:16:51: household.people.ida.habits: "ida" can\'t walk from "bedroom" to "shed": no doors lead there\n  hint: add the door that is missing, or take the room out of the itinerary',
    ]);
  });
});

describe('names', () => {
  const second = (at: string, path: string) =>
    `s.yaml:${at}: household.${path}.ida.name: a second one in the household is called "ida"\n  hint: each one in the household needs a name of its own`;
  test('of whoever passes: each once, whatever they are', () => {
    expect(
      and(
        [
          '    - { name: ida, age_y: 41, sex: man, habits: commuter }',
          '  pets: [{ name: ida, animal: cat, sleeps_in: hall }]',
          '  visitors: [{ name: ida, per_day: 1, rooms: [{ room: hall, share: 1 }], stay_min: 5 }]',
          '  robots: [{ name: ida, docks_in: hall, at: "10:00", rooms: [kitchen] }]\n',
        ].join('\n'),
      ),
    ).toEqual([
      second('17:15', 'people'),
      second('18:18', 'pets'),
      second('19:22', 'visitors'),
      second('20:20', 'robots'),
    ]);
  });
  test('of outings and errands: each once among its own', () => {
    expect(
      and(
        '  outings: [{ name: a, who: [ida], at: "10:00", lasts_min: 5 }, { name: a, who: [ida], at: "11:00", lasts_min: 5 }]\n' +
          '  errands: [{ name: a, load: tray, from: hall, to: kitchen, per_week: 1 }, { name: a, load: tray, from: hall, to: kitchen, per_week: 1 }]\n',
      ),
    ).toEqual([
      's.yaml:17:73: household.outings.a.name: a second outing is called "a"\n  hint: each outing needs a name of its own',
      's.yaml:18:84: household.errands.a.name: a second errand is called "a"\n  hint: each errand needs a name of its own',
    ]);
  });
  test('a person who is called as a sort of guests is', () => {
    const child = ida().replace('ida', 'child');
    const kids =
      '  visitors: [{ name: kids, who: [{ who: child, share: 1 }], per_day: 1, rooms: [{ room: hall, share: 1 }], stay_min: 5 }]\n';
    expect(messages(HOUSE + child + kids)).toEqual([
      's.yaml:16:15: household.people.child.name: a second walker is called "child"\n  hint: each walker needs a name of its own',
    ]);
  });
});

describe('pets, guests, outings, errands, robots', () => {
  test('pets', () => {
    expect(
      and(
        '  pets: [{ name: rex, animal: dgo-medium, sleeps_in: attic, awake: { from: "07:00", to: "07:00" }, rooms: [study] }]\n',
      ),
    ).toEqual([
      's.yaml:17:31: household.pets.rex.animal: there is no walker "dgo-medium"\n  hint: did you mean "dog-medium"?',
      `s.yaml:17:54: household.pets.rex.sleeps_in: there is no room "attic"\n  hint: ${ROOMS}`,
      's.yaml:17:89: household.pets.rex.awake.to: expected a later time than 07:00, found the same: there are no hours between\n  hint: to may be past midnight',
      `s.yaml:17:108: household.pets.rex.rooms.1: no room of this house has the use "study"\n  hint: give one of them \`use: study\`, or name a room: ${ROOMS}`,
    ]);
  });
  test('visitors', () => {
    expect(
      and(
        '  visitors: [{ name: v, who: [{ who: adlut, share: 0.5 }], group_of: [4, 2], per_day: 1, rooms: [{ room: shed, share: 0.5 }, { room: bath, share: 0.4 }], stay_min: 5 }]\n',
      ),
    ).toEqual([
      's.yaml:17:25: household.visitors.v.who: expected shares that add up to 1, found 0.5\n  hint: 0.5 is missing',
      's.yaml:17:38: household.visitors.v.who.1.who: there is no walker "adlut"\n  hint: did you mean "adult"?',
      's.yaml:17:70: household.visitors.v.group_of: smallest 4 is above largest 2\n  hint: swap them',
      's.yaml:17:90: household.visitors.v.rooms: expected shares that add up to 1, found 0.9\n  hint: 0.1 is missing',
      's.yaml:17:106: household.visitors.v.rooms.shed.room: "v" can\'t walk from "outside" to "shed": no doors lead there\n  hint: add the door that is missing, or take the room out of the itinerary',
      `s.yaml:17:134: household.visitors.v.rooms.bath.room: there is no room "bath"\n  hint: ${ROOMS}`,
    ]);
  });
  test('a party without hours', () => {
    expect(
      and(
        '  parties: [{ name: p, day: saturday, from: "15:00", to: "15:00", guests: 5, rooms: [{ room: hall, share: 1 }] }]\n',
      ),
    ).toEqual([
      's.yaml:17:58: household.parties.p.to: expected a later time than 15:00, found the same: there are no hours between\n  hint: to may be past midnight',
    ]);
  });
  test('outings of people and pets there are not', () => {
    expect(
      and('  outings: [{ name: o, who: [idda], takes: [rex], fetches: [tom], at: "10:00", lasts_min: 5 }]\n'),
    ).toEqual([
      's.yaml:17:30: household.outings.o.who.1: there is no person "idda"\n  hint: did you mean "ida"?',
      's.yaml:17:45: household.outings.o.takes.1: there is no pet "rex"\n  hint: there is nothing',
      's.yaml:17:61: household.outings.o.fetches.1: there is no person "tom"\n  hint: there is ida',
    ]);
  });
  test('errands and robots on ways that lead nowhere', () => {
    expect(
      and(
        '  errands: [{ name: e, load: tray, from: hall, to: shed, per_week: 1 }, { name: f, load: tray, from: hall, to: bath, per_week: 1 }]\n' +
          '  robots: [{ name: r, docks_in: cellar, at: "10:00", rooms: [study] }, { name: q, docks_in: hall, at: "10:00", rooms: [shed] }]\n',
      ),
    ).toEqual([
      's.yaml:17:52: household.errands.e.to: "e" can\'t walk from "hall" to "shed": no doors lead there\n  hint: add the door that is missing, or take the room out of the itinerary',
      `s.yaml:17:112: household.errands.f.to: there is no room "bath"\n  hint: ${ROOMS}`,
      `s.yaml:18:33: household.robots.r.docks_in: there is no room "cellar"\n  hint: ${ROOMS}`,
      `s.yaml:18:62: household.robots.r.rooms.1: no room of this house has the use "study"\n  hint: give one of them \`use: study\`, or name a room: ${ROOMS}`,
      's.yaml:18:120: household.robots.q.rooms.1: "q" can\'t walk from "hall" to "shed": no doors lead there\n  hint: add the door that is missing, or take the room out of the itinerary',
    ]);
  });
});

describe('turning back, lingering, reaching', () => {
  test('more than all walks', () => {
    expect(and('  turn_back_share: 0.5\n  linger_share: 0.5\n  reach_share: 0.2\n')).toEqual([
      's.yaml:17:20: household.turn_back_share: turn_back_share, linger_share and reach_share add up to 1.2: more than all walks\n  hint: together they are at most 1; what is left just goes through',
    ]);
  });
  test('with what is left out at its default; and a sum of one is all right', () => {
    expect(and('  linger_share: 0.5\n  reach_share: 0.5\n')).toHaveLength(1);
    expect(and('  turn_back_share: 0\n  linger_share: 0.5\n  reach_share: 0.5\n')).toEqual([]);
  });
});

describe('cautions', () => {
  const words = (more: string) => cautions(HOUSE + ida() + more);
  const hint =
    '\n  hint: it is walked through the frame all the same: choose another load or way, or measure the width again';

  test('whose load is wider than a door of the house', () => {
    expect(cautions(HOUSE + ida(', load: rollator'))).toEqual([
      `s.yaml:16:67: household.people.ida.load: the rollator is 0.6 m wide, and door "parlour-door" on the way 0.6 m: it does not fit through${hint}`,
    ]);
  });
  test('an errand, by the doors on its way only', () => {
    const errand = (to: string) => `  errands: [{ name: e, load: rollator, from: kitchen, to: ${to}, per_week: 1 }]\n`;
    expect(words(errand('bedroom'))).toEqual([]);
    expect(words(errand('living'))).toEqual([
      `s.yaml:17:30: household.errands.e.load: the rollator is 0.6 m wide, and door "parlour-door" on the way 0.6 m: it does not fit through${hint}`,
    ]);
  });
  test('guests, by what they bring and by what they are', () => {
    const visitors = (room: string, more: string) =>
      `  visitors: [{ name: v, ${more}, per_day: 1, rooms: [{ room: ${room}, share: 1 }], stay_min: 5 }]\n`;
    expect(words(visitors('bedroom', 'load: rollator'))).toEqual([]);
    expect(words(visitors('parlour', 'load: rollator'))).toEqual([
      `s.yaml:17:31: household.visitors.v.load: the rollator is 0.6 m wide, and door "parlour-door" on the way 0.6 m: it does not fit through${hint}`,
    ]);
    expect(words(visitors('living', 'who: [{ who: wheelchair-user, share: 1 }]'))[0]).toMatch(
      /^s\.yaml:17:\d+: household\.visitors\.v\.who\.1\.who: wheelchair-user is [\d.]+ m wide, and door "parlour-door" on the way/,
    );
  });
  test('a household with nobody and nothing in it', () => {
    expect(cautions(`${HOUSE}household: {}\n`)).toEqual([
      's.yaml:14:1: household: nobody lives in the house and nothing moves in it: counts and rates will be empty\n  hint: add people, visitors, parties, pets or robots',
    ]);
    expect(cautions(`${HOUSE}household: { pets: [{ name: tiger, animal: cat, sleeps_in: hall }] }\n`)).toEqual([]);
  });
  test('a household by name that speaks of rooms the house lacks', () => {
    expect(cautions(`${HOUSE}household: family-of-four\n`)).toEqual([
      's.yaml:14:12: household: "family-of-four" speaks of bathroom and study, and no room of this house has that use: those moves are left out\n  hint: give rooms a `use`, such as `use: bathroom`, if they are there under another name',
    ]);
    const all = edit('- name: shed', '- { name: shed, use: study }\n  - { name: bath, use: bathroom }', HOUSE);
    expect(cautions(`${all}household: family-of-four\n`)).toEqual([]);
  });
});
