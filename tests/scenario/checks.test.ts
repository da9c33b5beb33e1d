/** What single values can't tell: names, frames, shares, who can set out from where. */
import { describe, expect, test } from 'vitest';
import { TABLE, VALID, cautions, edit, messages } from './helpers.js';

const one = (from: string, to: string) => messages(edit(from, to));
const BEAMS = (list: string) => edit('    pair:\n      height_m: 0.9\n      spacing_m: 0.1\n', `    beams:\n${list}`);
const MIX = (...entries: string[]) => `${VALID}      mix:\n${entries.map((e) => `        - { ${e} }\n`).join('')}`;

describe('names', () => {
  test.each([
    [
      '- name: kitchen',
      '- name: hall',
      's.yaml:5:11: rooms.hall.name: a second room is called "hall"\n  hint: each room needs a name of its own',
    ],
    [
      '- name: kitchen',
      '- name: outside',
      's.yaml:5:11: rooms.outside.name: "outside" can\'t be the name of a room\n  hint: outside is always there and is not counted; take it off the list',
    ],
    [
      'from: outside',
      'from: outsied',
      's.yaml:9:11: doors.back.from: there is no room "outsied"\n  hint: did you mean "outside"?',
    ],
    [
      'from: outside',
      'from: garage',
      's.yaml:9:11: doors.back.from: there is no room "garage"\n  hint: there is outside, hall and kitchen',
    ],
    [
      'from: outside',
      'from: hall',
      's.yaml:10:9: doors.back.to: the door leads from "hall" to "hall"\n  hint: from and to are the two sides of the wall',
    ],
    [
      '    width_m',
      '    controller: mian\n    width_m',
      's.yaml:11:17: doors.back.controller: there is no controller "mian"\n  hint: did you mean "main"?',
    ],
    [
      '      height_m',
      '      sensor: light-barier\n      height_m',
      's.yaml:13:15: doors.back.pair.sensor: there is no sensor "light-barier"\n  hint: did you mean "light-barrier"?',
    ],
  ])('%s → %s', (from, to, expected) => {
    expect(one(from, to)).toContain(expected);
  });
  test('doors, beams, controllers and logics of one name', () => {
    const door = VALID.slice(VALID.indexOf('  - name: back'));
    expect(messages(VALID + door)).toEqual([
      's.yaml:17:11: doors.back.name: a second door is called "back"\n  hint: each door needs a name of its own',
    ]);
    const beams = BEAMS('      - { name: A, sensor: light-barrier, at_m: 0, height_m: 1 }\n'.repeat(2));
    expect(messages(beams)).toEqual([
      's.yaml:14:17: doors.back.beams.A.name: a second beam is called "A"\n  hint: each beam needs a name of its own',
    ]);
    expect(messages(`${VALID}controllers: [{ name: a }, { name: a }]\n`)[0]).toMatch(
      /^s\.yaml:17:36: .*a second controller/,
    );
    expect(messages(`${VALID}logics: [{ use: hold-off, name: a }, { use: four-level, name: a }]\n`)[0]).toMatch(
      /^s\.yaml:17:63: .*a second logic/,
    );
  });
  test('an unknown walker', () => {
    expect(messages(MIX('who: adlut, kind: through, share: 1'))).toEqual([
      's.yaml:18:18: doors.back.traffic.mix.1.who: there is no walker "adlut"\n  hint: did you mean "adult"?',
    ]);
  });
  test('one unreadable room does not make every mention of it a second mistake', () => {
    expect(one('- name: hall', '- nmae: hall')).toHaveLength(1);
  });
  test("a built-in name of the user's own is a caution", () => {
    expect(cautions(`${VALID}walkers:\n  adult: { kind: people, ages_y: [20, 30] }\n`)).toEqual([
      's.yaml:18:3: walkers.adult: this takes the place of the built-in walker "adult"\n  hint: if that is not meant, choose another name',
    ]);
  });
});

describe('beams in their frame', () => {
  test('either a pair or beams', () => {
    expect(one('    pair:\n      height_m: 0.9\n      spacing_m: 0.1\n', '')).toEqual([
      's.yaml:8:5: doors.back.pair: the door has no beams\n  hint: add pair (two level beams) or beams (each by name)',
    ]);
    expect(
      one('    pair:', '    beams: [{ name: A, sensor: light-barrier, at_m: 0, height_m: 1 }]\n    pair:'),
    ).toEqual([
      's.yaml:12:5: doors.back.beams: expected either pair or beams, found both\n  hint: pair is short for two level beams A and B',
    ]);
    // A pair that can't be read is a pair all the same.
    expect(one('    pair:\n      height_m: 0.9\n      spacing_m: 0.1\n', '    pair: 5\n')).toHaveLength(1);
  });
  test('a beam above the lintel, at either end', () => {
    expect(
      messages(
        BEAMS(
          '      - { name: A, sensor: light-barrier, at_m: -0.05, height_m: 1, far_height_m: 2.1 }\n      - { name: B, sensor: light-barrier, at_m: 0.05, height_m: 2 }\n',
        ),
      ),
    ).toEqual([
      's.yaml:13:83: doors.back.beams.A.far_height_m: expected at most 2 metres, the height of the opening, found 2.1\n' +
        "  hint: lower the beam, or mend the door's height_m",
    ]);
  });
  test('the zone covers the outermost beam and the longest reach, 0.6 m; the message says how large it must be', () => {
    const far = BEAMS(
      '      - { name: A, sensor: light-barrier, at_m: -0.5, height_m: 1 }\n      - { name: B, sensor: light-barrier, at_m: 0.05, height_m: 1 }\n',
    );
    expect(messages(far)).toEqual([
      's.yaml:13:49: doors.back.beams.A.at_m: a beam 0.5 m from the door plane needs zone_m above 1.1, found 1\n' +
        '  hint: the zone covers the outermost beam and 0.6 m, the longest reach of a limb; set zone_m on the door',
    ]);
    expect(messages(edit('width_m: 0.9', 'width_m: 0.9\n    zone_m: 1.11', far))).toEqual([]);
    expect(one('width_m: 0.9', 'width_m: 0.9\n    zone_m: 0.5')[0]).toContain('needs zone_m above 0.65, found 0.5');
  });
  test('the built-in logics watch two beams', () => {
    const three = BEAMS(
      [-0.05, 0, 0.05]
        .map((at, i) => `      - { name: b${i}, sensor: light-barrier, at_m: ${at}, height_m: 1 }\n`)
        .join(''),
    );
    expect(messages(three)).toEqual([
      's.yaml:12:5: doors.back.beams: four-level and first-broken expect 2 beams at every door, found 3\n' +
        '  hint: change the beams, or use a table of your own for this many',
    ]);
  });
  test('beams wider apart than the frame is deep are a caution', () => {
    expect(cautions(edit('spacing_m: 0.1', 'spacing_m: 0.2'))).toEqual([
      's.yaml:14:18: doors.back.pair.spacing_m: beams 0.1 m from the door plane stick out of a frame 0.12 m deep\n' +
        '  hint: 0.2 m between the beams needs brackets, or a deeper frame: jamb_depth_m',
    ]);
    expect(cautions(edit('spacing_m: 0.1', 'spacing_m: 0.12'))).toEqual([]);
  });
  test('a first beam that is met second is a caution', () => {
    const swapped = BEAMS(
      '      - { name: A, sensor: light-barrier, at_m: 0.05, height_m: 1 }\n      - { name: B, sensor: light-barrier, at_m: -0.05, height_m: 1 }\n',
    );
    expect(messages(swapped)).toEqual([]);
    expect(cautions(swapped)[0]).toMatch(/^s\.yaml:14:49: doors\.back\.beams\.B\.at_m: beam B is met before beam A/);
  });
});

describe('who walks', () => {
  test('shares add up to 1, and the message says what they add up to', () => {
    expect(messages(MIX('who: adult, kind: through, share: 0.7', 'who: child, kind: through, share: 0.2'))).toEqual([
      's.yaml:17:7: doors.back.traffic.mix: expected shares that add up to 1, found 0.9\n  hint: 0.1 is missing',
    ]);
    const tenths = Array.from({ length: 10 }, () => 'who: adult, kind: through, share: 0.1');
    expect(messages(MIX(...tenths))).toEqual([]);
  });
  test('first moves out of a room need somebody in it', () => {
    expect(one('from: outside\n    to: hall', 'from: hall\n    to: outside')).toEqual([
      's.yaml:9:11: doors.back.from: forward moves begin in "hall", but nobody is there at the start\n' +
        '  hint: give the room "hall" people_at_start, or swap from and to',
    ]);
    expect(one('from: outside\n    to: hall', 'from: kitchen\n    to: hall')).toEqual([]);
    expect(one('arrivals_per_hour: 12', 'arrivals_per_hour: 12\n      forward_share: 0.8')).toEqual([
      's.yaml:10:9: doors.back.to: backward moves begin in "hall", but nobody is there at the start\n' +
        '  hint: give the room "hall" people_at_start, or set forward_share: 1',
    ]);
    expect(one('from: outside\n    to: hall', 'from: hall\n    to: outside\n    zone_m: 1').length).toBe(1);
    expect(
      messages(
        edit('from: outside\n    to: hall', 'from: hall\n    to: outside').replace(
          'per_hour: 12',
          'per_hour: 12\n      forward_share: 0',
        ),
      ),
    ).toEqual([]);
  });
  test('pets go through, turn back or linger, alone; their names may stand in a mix as they are', () => {
    const share = (kind: string) =>
      messages(MIX(`who: cat, kind: ${kind}, share: 0.5`, 'who: adult, kind: through, share: 0.5'));
    for (const kind of ['through', 'turn-back', 'linger']) expect(share(kind)).toEqual([]);
    expect(share('abreast')).toEqual([
      's.yaml:18:29: doors.back.traffic.mix.1.kind: "cat" is a pet: it goes through, turns back or lingers, found "abreast"\n  hint: kind: through, turn-back or linger',
    ]);
    const own =
      MIX('who: rex, kind: against, share: 1') + 'walkers:\n  rex: { kind: dog, size: giant, withers_m: 0.9 }\n';
    expect(messages(own).length).toBe(1);
  });
  const ROD = 'walkers:\n  rod: { kind: test-rod, diameter_m: 0.05, speed_mps: 1, speed_to_mps: 2 }\n';
  test('test rods only go through; people do everything', () => {
    expect(messages(MIX('who: rod, kind: linger, share: 0.5', 'who: adult, kind: linger, share: 0.5') + ROD)).toEqual([
      's.yaml:18:29: doors.back.traffic.mix.1.kind: "rod" is a test rod: it can only go through, found "linger"\n  hint: kind: through',
    ]);
    expect(messages(MIX('who: rod, kind: through, share: 0.5', 'who: adult, kind: abreast, share: 0.5') + ROD)).toEqual(
      [],
    );
  });
  test('ages and speeds are in order', () => {
    expect(
      messages(
        `${VALID}walkers:\n  old: { kind: people, ages_y: [80, 18] }\n${ROD.replace('walkers:\n', '').replace('speed_mps: 1', 'speed_mps: 3')}`,
      ),
    ).toEqual([
      's.yaml:18:32: walkers.old.ages_y: youngest 80 is above oldest 18\n  hint: swap them',
      's.yaml:19:72: walkers.rod.speed_to_mps: speed_mps 3 is above speed_to_mps 2\n  hint: swap them',
    ]);
  });
  test('a rate by the clock goes through the day in order', () => {
    const rate = edit(
      'arrivals_per_hour: 12',
      'arrivals_per_hour:\n        - { from: "07:00", per_hour: 3 }\n        - { from: "06:30", per_hour: 9 }',
    );
    expect(messages(rate)).toEqual([
      's.yaml:18:19: doors.back.traffic.arrivals_per_hour.2.from: expected a time later than 07:00, found 06:30\n  hint: rows go through the day in order',
    ]);
  });
  test('a door nobody uses is a caution', () => {
    expect(cautions(edit('per_hour: 12', 'per_hour: 0'))[0]).toContain('nobody ever comes');
  });
  test('more people out at once than live there is a caution', () => {
    // Little's law: 12 parties an hour, each away for a third of an hour, are 4 parties. A party of the default mix
    // that goes is 0.96 bodies, 0.06 second ones abreast, 0.01 infants: 1.03 persons.
    const leaving = edit('from: outside\n    to: hall', 'from: kitchen\n    to: hall');
    expect(cautions(leaving)[0]).toMatch(/doors\.back\.from: 4\.1 people of "kitchen" would be out at once/);
    expect(cautions(leaving.replace('people_at_start: 2', 'people_at_start: 5'))).toEqual([]);
    expect(cautions(leaving.replace('_hour: 12', '_hour: 12\n      one_way: true'))).toEqual([]);
    expect(cautions(VALID)).toEqual([]);
  });
});

describe('sensors and targets', () => {
  test('spurious breaks without an end', () => {
    expect(
      messages(`${VALID}sensors:\n  s: { kind: light-barrier, spurious_per_hour: 100, spurious_ms: 9000 }\n`),
    ).toEqual([]);
    expect(
      messages(`${VALID}sensors:\n  s: { kind: light-barrier, spurious_per_hour: 1000, spurious_ms: 9000 }\n`)[0],
    ).toContain('18:48: sensors.s.spurious_per_hour: 1000 breaks an hour of 9000 ms each leave no time between them');
  });
  test('keys without effect are a caution', () => {
    expect(cautions(`${VALID}sensors:\n  s: { kind: light-barrier, shiny_share: 0.1 }\n`)).toEqual([
      's.yaml:18:42: sensors.s.shiny_share: shiny_share has no effect while layout is through-beam',
    ]);
  });
  test.each([
    ['{ metric: house.wrong_per_100 }', '17:12: targets.1: the target has no limit'],
    [
      '{ metric: hose.wrong_per_100, at_most: 1 }',
      '17:22: targets.1.metric: expected a metric of house, doors or rooms, found "hose"',
    ],
    [
      '{ metric: house.wrong_per_10, at_most: 1 }',
      '17:22: targets.1.metric: there is no metric "wrong_per_10"\n  hint: did you mean "wrong_per_100"?',
    ],
    [
      '{ metric: doors.front.wrong_per_100, at_most: 1 }',
      '17:22: targets.1.metric: there is no door "front"\n  hint: there is back',
    ],
    [
      '{ metric: rooms.hall.wrong_per_100, at_most: 1 }',
      '17:22: targets.1.metric: there is no metric "wrong_per_100"\n  hint: there is exact_share',
    ],
    [
      '{ metric: doors.*.wrong_per_100, at_most: 1 }',
      '17:22: targets.1.metric: there is no door "*"\n  hint: there is back',
    ],
    [
      '{ metric: house.four-level.flor.exact_share, at_most: 1 }',
      '17:22: targets.1.metric: there is no ledger "flor"\n  hint: did you mean "floor"?',
    ],
    [
      '{ metric: house.wrong_per_100, at_most: 1, at_least: 2 }',
      '17:65: targets.1.at_least: at_least 2 is above at_most 1',
    ],
  ])('%s', (target, expected) => {
    expect(messages(`${VALID}targets: [ ${target} ]\n`)[0]).toContain(`s.yaml:${expected}`);
  });
  test.each([
    'house.drift_per_100.bias',
    'doors.back.missed_per_100',
    'doors.back.first-broken.wrong_per_100',
    'rooms.hall.four-level.floor.exact_share',
    'rooms.*.empty_while_occupied_per_day',
    'rooms.*.four-level.raw.first_wrong_h',
    'house.exact_share',
    'house.four-level.floor.persons_bias',
  ])('the metric %s exists', (metric) => {
    expect(messages(`${VALID}targets: [{ metric: ${metric}, at_most: 1 }]\n`)).toEqual([]);
  });
});

describe('tables', () => {
  const text = `${VALID}logics: [{ use: table, file: my.yaml }]\n`;
  test('a table that is not there is told at the name of its file', () => {
    const readFile = () => ({ error: 'no such file' });
    expect(messages(text, { readFile })).toEqual([
      's.yaml:17:30: logics.1.file: "my.yaml" can\'t be read: no such file\n  hint: file names are relative to the scenario',
    ]);
    expect(messages(text)[0]).toContain("can't be read: files cannot be read here");
  });
  test("a table's own mistakes come together with the scenario's, at their own places", () => {
    const readFile = () => TABLE.replace('go: rest', 'go: rset');
    const both = messages(text.replace('width_m: 0.9', 'width_m: 90'), { readFile });
    expect(both[0]).toMatch(/^s\.yaml:11:14: doors\.back\.width_m: /);
    expect(both[1]).toMatch(/^my\.yaml:7:\d+: states\.rest\.1\.go: /);
  });
  test('a table for another number of beams is refused, other names are a caution', () => {
    const readFile = () => TABLE.replace('[A, B]', '[A, B, C]').replace('"10"', '"100"');
    expect(messages(text, { readFile })).toEqual([
      's.yaml:12:5: doors.back.pair: my-logic expects 3 beams at every door, found 2\n  hint: change the beams, or use a table of your own for this many',
    ]);
    expect(cautions(text, { readFile: () => TABLE.replace('[A, B]', '[outer, inner]') })[0]).toContain(
      'the table calls the beams outer and inner, the door A and B',
    );
  });
  test('a table that never counts one way is a caution', () => {
    const text = `${VALID}logics: [{ use: table, file: t.yaml }]\n`;
    const tallies = (rest: string) =>
      cautions(text, { readFile: () => edit('"10", go: rest }', `"10", go: rest${rest} }`, TABLE) });
    expect(tallies('')[0]).toContain('no rule of the table "my-logic" tallies forward or backward');
    expect(tallies(', tally: backward')[0]).toContain('no rule of the table "my-logic" tallies forward\n');
    expect(tallies(', tally: [forward, backward]')).toEqual([]);
  });
});
