/** Keys, types and ranges: every mistake at its own line and column, all of them at once. */
import { describe, expect, test } from 'vitest';
import { VALID, edit, messages } from './helpers.js';

const one = (from: string, to: string) => messages(edit(from, to));

describe('keys', () => {
  test('an unknown key is placed at the key, with the nearest known one', () => {
    expect(one('    width_m: 0.9', '    widht_m: 0.9')).toEqual([
      's.yaml:11:5: doors.back.widht_m: unknown key "widht_m"\n  hint: did you mean "width_m"?',
    ]);
  });
  test('a key with another unit, or none, is recognised', () => {
    expect(one('width_m: 0.9', 'width_cm: 90')).toEqual([
      's.yaml:11:5: doors.back.width_cm: unknown key "width_cm"\n  hint: did you mean "width_m", in metres?',
    ]);
    expect(one('width_m: 0.9', 'width: 0.9')[0]).toContain('did you mean "width_m", in metres?');
  });
  test('a key in the wrong place is told where it belongs', () => {
    expect(one('    traffic:', '    home_pace: 1\n    traffic:')).toEqual([
      's.yaml:15:5: doors.back.home_pace: unknown key "home_pace"\n' +
        '  hint: it exists as household.home_pace and doors.*.traffic.home_pace: is it in the right place?',
    ]);
  });
  test('a missing key is placed at its parent, with what it means', () => {
    expect(one('    width_m: 0.9\n', '')).toEqual([
      's.yaml:8:5: doors.back.width_m: the key "width_m" is missing\n' +
        '  hint: Clear width of the opening, left jamb to right jamb. In metres.',
    ]);
    expect(one('      spacing_m: 0.1\n', '')[0]).toMatch(
      /^s\.yaml:12:5: doors\.back\.pair\.spacing_m: the key "spacing_m" is missing/,
    );
    expect(one('format: 1\n', '')[0]).toMatch(/^s\.yaml:1:1: format: the key "format" is missing/);
  });
  test('a key that is there twice is placed at the second', () => {
    expect(one('    width_m: 0.9', '    width_m: 0.9\n    width_m: 0.8')).toEqual([
      's.yaml:12:5: doors.back.width_m: the key "width_m" is here for a second time\n' +
        '  hint: it is in line 11 already; keep one of them',
    ]);
  });
});

describe('types', () => {
  test.each([
    [
      'width_m: 0.9',
      'width_m: "0.9"',
      's.yaml:11:14: doors.back.width_m: expected a number of metres, found the text "0.9"\n  hint: without quotes: 0.9',
    ],
    [
      'width_m: 0.9',
      'width_m: 0,9',
      's.yaml:11:14: doors.back.width_m: expected a number of metres, found the text "0,9"\n  hint: with a point: 0.9',
    ],
    [
      'width_m: 0.9',
      'width_m: wide',
      's.yaml:11:14: doors.back.width_m: expected a number of metres, found the text "wide"',
    ],
    [
      'width_m: 0.9',
      'width_m: .nan',
      's.yaml:11:14: doors.back.width_m: expected a number of metres, found no number (.nan)\n  hint: write an ordinary number',
    ],
    [
      'width_m: 0.9',
      'width_m: -.inf',
      's.yaml:11:14: doors.back.width_m: expected a number of metres, found -Infinity\n  hint: write an ordinary number',
    ],
    [
      'width_m: 0.9',
      'width_m: 1e999',
      's.yaml:11:14: doors.back.width_m: expected a number of metres, found Infinity\n  hint: write an ordinary number',
    ],
    [
      'width_m: 0.9',
      'width_m:',
      's.yaml:11:5: doors.back.width_m: expected a number of metres, found nothing\n  hint: a value is missing after the colon; # begins a comment unless it is in quotes',
    ],
    [
      'width_m: 0.9',
      'width_m: 2024-05-01',
      's.yaml:11:14: doors.back.width_m: expected a number of metres, found the text "2024-05-01"',
    ],
    ['width_m: 0.9', 'width_m: [0.9]', 's.yaml:11:14: doors.back.width_m: expected a number of metres, found a list'],
    [
      'name: hall',
      'name: 101',
      's.yaml:4:11: rooms.1.name: expected text, found 101\n  hint: in quotes it is text: "101"',
    ],
    [
      'people_at_start: 2',
      'people_at_start: 1.5',
      's.yaml:6:22: rooms.kitchen.people_at_start: expected a whole number, found 1.5',
    ],
    [
      'arrivals_per_hour: 12',
      'arrivals_per_hour: 12\n      one_way: yes',
      's.yaml:17:16: doors.back.traffic.one_way: expected true or false, found the text "yes"\n  hint: write true, without quotes',
    ],
    [
      'arrivals_per_hour: 12',
      'arrivals_per_hour: many',
      's.yaml:16:26: doors.back.traffic.arrivals_per_hour: expected a number per hour or a list, found the text "many"',
    ],
    [
      'name: Back door',
      'name: Back door\nstarts_at: 8:00',
      's.yaml:3:12: starts_at: expected a clock time from 00:00 to 23:59, found "8:00"\n  hint: in quotes, two digits each for hour and minute: "07:30"',
    ],
    [
      'format: 1',
      'format: 2',
      's.yaml:1:9: format: expected 1, found 2\n  hint: this version of jambeam reads format 1 only',
    ],
    [
      'name: back',
      'name: back.door',
      's.yaml:8:11: doors.back.door.name: "back.door" can\'t be a name\n  hint: up to 40 letters, digits, spaces, - and _, beginning with a letter or digit',
    ],
  ])('%s → %s', (from, to, expected) => {
    expect(one(from, to)).toEqual([expected]);
  });

  test('a map where a list belongs, nothing where a map belongs', () => {
    expect(
      messages(edit(VALID.slice(VALID.indexOf('rooms:'), VALID.indexOf('doors:')), 'rooms: { hall: 1 }\n')),
    ).toEqual([
      's.yaml:3:8: rooms: expected a list, found a map of keys\n  hint: each item on a line of its own, after a dash and a space',
    ]);
    expect(one('traffic:\n      arrivals_per_hour: 12', 'traffic:')).toEqual([
      's.yaml:15:5: doors.back.traffic: expected a map of keys, found nothing\n  hint: its keys go below it, indented',
    ]);
  });
});

describe('ranges and units', () => {
  test.each([
    ['width_m: 0.9', 'width_m: 0.2', 's.yaml:11:14: doors.back.width_m: expected 0.4 to 10 metres, found 0.2'],
    [
      'width_m: 0.9',
      'width_m: 90',
      's.yaml:11:14: doors.back.width_m: expected 0.4 to 10 metres, found 90\n  hint: 90 looks like centimetres; write width_m: 0.9',
    ],
    [
      'width_m: 0.9',
      'width_m: 900',
      's.yaml:11:14: doors.back.width_m: expected 0.4 to 10 metres, found 900\n  hint: 900 looks like millimetres; write width_m: 0.9',
    ],
    [
      'width_m: 0.9',
      'width_m: 2400',
      's.yaml:11:14: doors.back.width_m: expected 0.4 to 10 metres, found 2400\n  hint: 2400 looks like millimetres; write width_m: 2.4',
    ],
    [
      'height_m: 0.9',
      'height_m: 90 cm',
      's.yaml:13:17: doors.back.pair.height_m: expected a number of metres, found the text "90 cm"\n  hint: write height_m: 0.9',
    ],
    [
      'height_m: 0.9',
      'height_m: 0.9 m',
      's.yaml:13:17: doors.back.pair.height_m: expected a number of metres, found the text "0.9 m"\n  hint: write height_m: 0.9',
    ],
    [
      'arrivals_per_hour: 12',
      'arrivals_per_hour: 12\n      home_pace: 70',
      's.yaml:17:18: doors.back.traffic.home_pace: expected a share from 0 to 1, found 70\n  hint: 70 looks like per cent; write home_pace: 0.7',
    ],
    [
      'arrivals_per_hour: 12',
      'arrivals_per_hour: 12\n      home_pace: 70 %',
      's.yaml:17:18: doors.back.traffic.home_pace: expected a share from 0 to 1, found the text "70 %"\n  hint: write home_pace: 0.7',
    ],
    [
      'arrivals_per_hour: 12',
      'arrivals_per_hour: 12\n      stay_mean_min: 1 h',
      's.yaml:17:22: doors.back.traffic.stay_mean_min: expected a number of minutes, found the text "1 h"\n  hint: write stay_mean_min: 60',
    ],
    [
      'arrivals_per_hour: 12',
      'arrivals_per_hour: -1',
      's.yaml:16:26: doors.back.traffic.arrivals_per_hour: expected 0 to 100000 per hour, found -1',
    ],
    ['name: Back door', 'name: ""', 's.yaml:2:7: name: expected at least 1 character, found none'],
  ])('%s → %s', (from, to, expected) => {
    expect(one(from, to)).toEqual([expected]);
  });
});

describe('alternatives', () => {
  test('a table needs more than its bare name; a format in quotes less', () => {
    expect(messages(`${VALID}logics: [table]\n`)[0]).toContain(
      'hint: a table needs its file: { use: table, file: my-logic.yaml }',
    );
    expect(one('format: 1', 'format: "1"')).toEqual([
      's.yaml:1:9: format: expected 1, found the text "1"\n  hint: without quotes: 1',
    ]);
  });
  test('a wrong bare name gets the choices and nothing else', () => {
    expect(messages(`${VALID}logics: [first-borken]\n`)).toEqual([
      's.yaml:17:10: logics.1: expected one of first-broken, four-level, hold-off, lag-aware, two-height or hidden-markov, found the text "first-borken"\n' +
        '  hint: did you mean "first-broken"?',
    ]);
  });
  test('the alternative that was meant reports its own mistakes', () => {
    expect(
      messages(
        `${VALID}logics:\n  - { use: hold-off, hold_off_ms: 0 }\n  - { use: table }\n  - { use: tabel }\n  - {}\n`,
      ),
    ).toEqual([
      's.yaml:18:35: logics.1.hold_off_ms: expected 1 to 100000 milliseconds, found 0',
      's.yaml:19:5: logics.2.file: the key "file" is missing\n  hint: The table\'s file, in the scenario\'s folder or below.',
      's.yaml:20:12: logics.3.use: expected one of first-broken, four-level, hold-off, lag-aware, two-height, hidden-markov or table, found the text "tabel"\n  hint: did you mean "table"?',
      's.yaml:21:5: logics.4.use: the key "use" is missing\n  hint: one of first-broken, four-level, hold-off, lag-aware, two-height, hidden-markov or table',
    ]);
  });
  test('a key of another kind of walker', () => {
    expect(
      messages(`${VALID}walkers:\n  rod: { kind: test-rod, diameter_m: 0.05, speed_mps: 1, stature_m: 1.8 }\n`)[0],
    ).toBe(
      's.yaml:18:58: walkers.rod.stature_m: unknown key "stature_m"\n' +
        '  hint: it exists as walkers.*.stature_m (kind: person), walkers.*.rows.*.stature_m (kind: table) and household.people.*.stature_m: is it in the right place?',
    );
  });
});

test('all problems of a file are told at once, in order of the text, mistakes between keys included', () => {
  const text = edit('name: back', 'name: back\n    zone_m: far')
    .replace('to: hall', 'to: hell')
    .replace('height_m: 0.9', 'height_m: 3')
    .replace('format: 1', 'format: one');
  expect(messages(text)).toEqual([
    's.yaml:1:9: format: expected 1, found the text "one"\n  hint: this version of jambeam reads format 1 only',
    's.yaml:9:13: doors.back.zone_m: expected a number of metres, found the text "far"',
    's.yaml:11:9: doors.back.to: there is no room "hell"\n  hint: did you mean "hall"?',
    's.yaml:14:17: doors.back.pair.height_m: expected at most 2 metres, the height of the opening, found 3\n' +
      "  hint: lower the beam, or mend the door's height_m",
  ]);
});
