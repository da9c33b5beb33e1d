/** What can't be put up, read or wired: light barriers and rangers in their frames, turns and pins of controllers. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { SENSOR_KINDS } from '../../src/sensors/schema.js';
import { VALID, cautions, designOf, edit, messages } from './helpers.js';

const pair = (keys: string) => edit('      height_m: 0.9\n', keys.replaceAll(/^/gm, '      ').concat('\n'));
const BEAMS = (...beams: string[]) =>
  edit(
    '    pair:\n      height_m: 0.9\n      spacing_m: 0.1\n',
    `    beams:\n${beams.map((beam) => `      - { ${beam} }\n`).join('')}`,
  );
/** Two beams; what is given goes to the second, which begins in line 14. */
const second = (keys: string) =>
  messages(BEAMS('name: A, sensor: ultrasonic-ranger, at_m: -0.05, height_m: 1', `name: B, at_m: 0.05, ${keys}`));

describe('every kind of sensor has its name', () => {
  test.each(SENSOR_KINDS)('%s, alone, is that kind with its defaults', (kind) => {
    const text = pair(`height_m: 0.95\nsensor: ${kind}`);
    expect(messages(text)).toEqual([]);
    expect(cautions(text)).toEqual([]);
  });
  test('a slip is guessed', () => {
    expect(messages(pair('height_m: 0.95\nsensor: ultrasonic-rager'))).toEqual([
      's.yaml:14:15: doors.back.pair.sensor: there is no sensor "ultrasonic-rager"\n  hint: did you mean "ultrasonic-ranger"?',
    ]);
  });
  test("one of the user's own by that name is a caution", () => {
    expect(cautions(`${VALID}sensors:\n  ultrasonic-ranger: { kind: light-barrier }\n`)[0]).toContain(
      'this takes the place of the built-in sensor "ultrasonic-ranger"',
    );
  });
});

describe('height', () => {
  const MISSING = 'the key "height_m" is missing\n  hint: Height of the emitter or ranger above the floor';
  test('is needed in a jamb', () => {
    expect(messages(edit('      height_m: 0.9\n', ''))).toEqual([
      expect.stringContaining(`s.yaml:12:5: doors.back.pair.height_m: ${MISSING}`),
    ]);
    expect(second('sensor: ultrasonic-ranger')).toEqual([
      expect.stringContaining(`s.yaml:14:9: doors.back.beams.B.height_m: ${MISSING}`),
    ]);
  });
  test("under the lintel it is the door's, unless it is said", () => {
    const [a, b] = designOf(pair('sensor: ultrasonic-ranger\nmount: lintel')).doors[0]!.beams;
    expect([a!.height_m, b!.height_m]).toEqual([2, 2]);
    expect(designOf(pair('sensor: ultrasonic-ranger\nmount: lintel\nheight_m: 1.9')).doors[0]!.beams[0]!.height_m).toBe(
      1.9,
    );
    expect(messages(pair('sensor: ultrasonic-ranger\nmount: lintel\nheight_m: 2.1'))[0]).toContain(
      's.yaml:15:17: doors.back.pair.height_m: expected at most 2 metres, the height of the opening',
    );
  });
});

describe('light barriers run from jamb to jamb', () => {
  test.each([
    [
      'mount: lintel',
      "s.yaml:13:14: doors.back.pair.mount: light barriers can't be mounted under the lintel\n" +
        '  hint: a light barrier has one end in each jamb; put it into left-jamb or right-jamb',
    ],
    [
      'mount: facing\nheight_m: 1',
      "s.yaml:13:14: doors.back.pair.mount: light barriers can't be mounted as facing\n" +
        '  hint: they run straight across: interleaved puts one into each jamb',
    ],
    [
      'height_m: 1\ntilt_deg: 10',
      's.yaml:14:7: doors.back.pair.tilt_deg: a sensor of kind light-barrier has no tilt_deg\n' +
        '  hint: a light barrier is aimed by its far end: far_height_m, in a list of beams',
    ],
  ])('a pair: %j', (keys, expected) => {
    expect(messages(pair(keys))).toEqual([expected]);
  });
  test('interleaved is for them as well', () => {
    const { beams } = designOf(pair('mount: interleaved\nheight_m: 1')).doors[0]!;
    expect(beams.map(({ mount }) => mount)).toEqual(['left-jamb', 'right-jamb']);
  });
  test('in a list: no tilt, no turn, no place under the lintel', () => {
    expect(second('sensor: light-barrier, height_m: 1, turn_deg: 0, across_m: 0.4')).toEqual([
      's.yaml:14:68: doors.back.beams.B.turn_deg: a sensor of kind light-barrier has no turn_deg\n  hint: a light barrier is aimed by its far end: far_at_m',
      's.yaml:14:81: doors.back.beams.B.across_m: a sensor of kind light-barrier has no across_m\n  hint: a light barrier runs from jamb to jamb',
    ]);
    expect(second('sensor: light-barrier, mount: lintel')).toHaveLength(1);
  });
});

test('a key of an earlier version is told its name of today', () => {
  expect(messages(pair('height_m: 1\nemitter_jamb: right'))).toEqual([
    's.yaml:14:7: doors.back.pair.emitter_jamb: unknown key "emitter_jamb"\n  hint: did you mean "mount"?',
  ]);
});

describe('rangers look along a direction', () => {
  test('they have no far end, and are not taken for askew or too high there', () => {
    expect(second('sensor: ultrasonic-ranger, height_m: 1, far_at_m: -1, far_height_m: 3')).toEqual([
      's.yaml:14:72: doors.back.beams.B.far_at_m: a sensor of kind ultrasonic-ranger has no far_at_m\n' +
        '  hint: a ranger has no far end: turn_deg turns it out of the door plane',
      's.yaml:14:86: doors.back.beams.B.far_height_m: a sensor of kind ultrasonic-ranger has no far_height_m\n' +
        '  hint: a ranger has no far end: tilt_deg tilts it up or down',
    ]);
  });
  test('across_m is for the lintel, inside the opening', () => {
    expect(second('sensor: ultrasonic-ranger, height_m: 1, across_m: 0.4')[0]).toBe(
      's.yaml:14:72: doors.back.beams.B.across_m: across_m is for rangers under the lintel, this one is mounted on the left-jamb\n' +
        '  hint: mount: lintel, or take across_m out',
    );
    expect(second('sensor: ultrasonic-ranger, mount: lintel, across_m: 0.95')).toEqual([
      's.yaml:14:84: doors.back.beams.B.across_m: expected at most 0.9 metres, the width of the opening, found 0.95',
    ]);
    expect(second('sensor: ultrasonic-ranger, mount: lintel, across_m: 0.9')).toEqual([]);
  });
  test('two that face each other look from jamb to jamb and along the walk', () => {
    const [a, b] = designOf(
      pair('mount: facing\nheight_m: 1\nsensor: ultrasonic-ranger')
        .replace('width_m: 0.9', 'width_m: 1')
        .replace('spacing_m: 0.1', 'spacing_m: 1')
        .replace('    width_m', '    zone_m: 1.5\n    width_m'),
    ).doors[0]!.beams;
    // One metre along and one across: an eighth of a turn.
    expect(a).toMatchObject({ mount: 'left-jamb', at_m: -0.5, turn_deg: expect.closeTo(45, 9) });
    expect(b).toMatchObject({ mount: 'right-jamb', at_m: 0.5, turn_deg: expect.closeTo(-45, 9) });
  });
  test('they can turn so far and no further', () => {
    const text = pair('mount: facing\nheight_m: 1\nsensor: ultrasonic-ranger')
      .replace('width_m: 0.9', 'width_m: 0.5\n    zone_m: 1.5')
      .replace('spacing_m: 0.1', 'spacing_m: 0.8');
    // arctan(0.8 / 0.5)
    expect(messages(text)).toEqual([
      's.yaml:17:18: doors.back.pair.spacing_m: rangers 0.8 m apart would have to turn 58 degrees to face each other, at most 55 are allowed\n' +
        '  hint: bring them nearer to each other: spacing_m',
    ]);
  });
  test('a sensor that is unknown or unreadable is not judged by its kind', () => {
    expect(messages(pair('sensor: radar\nmount: lintel'))).toHaveLength(1);
    expect(messages(`${pair('sensor: mine\nmount: lintel')}sensors:\n  mine: { kind: radar }\n`)).toHaveLength(1);
  });
});

test('which way a door faces has no meaning without its place', () => {
  expect(cautions(edit('    width_m', '    facing_deg: 90\n    width_m'))).toEqual([
    's.yaml:11:5: doors.back.facing_deg: facing_deg needs at_m\n  hint: add the key at_m',
  ]);
  expect(cautions(edit('    width_m', '    facing_deg: 90\n    at_m: { x: 1, y: 2 }\n    width_m'))).toEqual([]);
});

describe('numbers of a ranger that contradict each other', () => {
  const sensor = (keys: string) => `${VALID}sensors:\n  s: { kind: ${keys} }\n`;
  test.each([
    [
      'ultrasonic-ranger, switching: { median_of: 4 }',
      '18:57: sensors.s.switching.median_of: expected an odd number of readings, found 4\n  hint: the median is the one in the middle: 3 or 5',
    ],
    [
      'ultrasonic-ranger, blind_m: 0.3, range_m: 0.3',
      '18:42: sensors.s.blind_m: blind_m 0.3 must be below range_m 0.3',
    ],
    [
      'time-of-flight-ranger, blind_m: 0.3, range_m: 0.2',
      '18:46: sensors.s.blind_m: blind_m 0.3 must be below range_m 0.2',
    ],
    ['triangulation-ranger, fold_m: 0.8', '18:44: sensors.s.fold_m: fold_m 0.8 must be below range_m 0.8'],
    [
      'ultrasonic-ranger, clothing_least_db: 13',
      '18:52: sensors.s.clothing_least_db: clothing_least_db 13 is above clothing_most_db 12\n  hint: swap them',
    ],
    [
      'time-of-flight-ranger, reflectance_least: 0.9',
      '18:56: sensors.s.reflectance_least: reflectance_least 0.9 is above reflectance_most 0.8\n  hint: swap them',
    ],
    [
      // There and back, 8 m at 331 m/s.
      'ultrasonic-ranger, time_out_ms: 24',
      '18:46: sensors.s.time_out_ms: 24 ms are over before an echo from range_m, 4 m, is back: that takes 24.2 ms\n  hint: raise time_out_ms or lower range_m',
    ],
    [
      'triangulation-ranger, linearised_by: table',
      '18:51: sensors.s.linearised_by: linearised_by: table needs table\n  hint: add the key table',
    ],
    [
      'triangulation-ranger, linearised_by: fitted',
      '18:51: sensors.s.linearised_by: linearised_by: fitted needs fitted\n  hint: add the key fitted',
    ],
  ])('%s', (keys, expected) => {
    expect(messages(sensor(keys))).toEqual([`s.yaml:${expected}`]);
  });
  test.each([
    'ultrasonic-ranger, time_out_ms: 24.2',
    'ultrasonic-ranger, clothing_least_db: 12, switching: { median_of: 5 }',
    'triangulation-ranger, linearised_by: fitted, fitted: { gain_v_m: 0.2, offset_m: 0, base_v: 0 }',
  ])('%s is right', (keys) => {
    expect(messages(sensor(keys))).toEqual([]);
  });

  const table = (...rows: string[]) =>
    messages(
      `${VALID}sensors:\n  s:\n    kind: triangulation-ranger\n    linearised_by: table\n    table:\n` +
        rows.map((row) => `      - { ${row} }\n`).join(''),
    );
  test('rows of a table run one way, in whatever order they are written', () => {
    expect(table('volts: 2.4, distance_m: 0.1', 'volts: 0.5, distance_m: 0.6')).toEqual([]);
    expect(table('volts: 0.5, distance_m: 0.6', 'volts: 2.4, distance_m: 0.1')).toEqual([]);
    const ONE_WAY =
      'rows must run one way: with fewer volts the distance grows, no two rows alike\n' +
      '  hint: leave out rows nearer than the fold: one voltage would stand for two distances';
    const rest = ['volts: 2.4, distance_m: 0.1', 'volts: 0.5, distance_m: 0.6'];
    expect(table('volts: 1.8, distance_m: 0.05', ...rest)).toEqual([`s.yaml:22:9: sensors.s.table.1: ${ONE_WAY}`]);
    expect(table(...rest, 'volts: 1.8, distance_m: 0.05')).toEqual([`s.yaml:24:9: sensors.s.table.3: ${ONE_WAY}`]);
    expect(table(...rest, 'volts: 0.5, distance_m: 0.7')).toEqual([`s.yaml:24:9: sensors.s.table.3: ${ONE_WAY}`]);
    expect(table(...rest, 'volts: 0.4, distance_m: 0.6')).toEqual([`s.yaml:24:9: sensors.s.table.3: ${ONE_WAY}`]);
  });
  test('a table that nothing is read from is a caution', () => {
    const rows = 'table: [{ volts: 2, distance_m: 0.1 }, { volts: 1, distance_m: 0.2 }]';
    expect(cautions(sensor(`triangulation-ranger, ${rows}`))).toEqual([
      's.yaml:18:43: sensors.s.table: table has no effect while linearised_by is same-curve',
    ]);
  });
});

describe('hysteresis that reaches behind the idle door', () => {
  const CLEARS = 'once broken, a beam hardly clears again';
  /** Two rangers across a door 0.9 m wide; the sensor's switching is line 21, or 22 with more keys. */
  const door = (switching: string, keys = 'height_m: 1', kind = 'ultrasonic-ranger', more = '') =>
    cautions(
      `${pair(`sensor: mine\n${keys}`)}sensors:\n  mine:\n    kind: ${kind}\n${more}    switching: { ${switching} }\n`,
    );
  test('beyond the learnt background', () => {
    expect(door('margin_m: 0.15, hysteresis_m: 0.2')).toEqual([
      `s.yaml:21:48: sensors.mine.switching.hysteresis_m: expected hysteresis_m of at most 0.15, the margin to the learnt background, found 0.2: ${CLEARS}\n` +
        '  hint: lower hysteresis_m or raise margin_m',
    ]);
    expect(door('margin_m: 0.15, hysteresis_m: 0.15')).toEqual([]);
    expect(door('margin_m: 0.02')[0]).toContain('at most 0.02, the margin to the learnt background, found 0.03');
  });
  test('beyond the other jamb', () => {
    expect(door('nearer_than_m: 0.88, hysteresis_m: 0.03')).toEqual([
      `s.yaml:21:53: sensors.mine.switching.hysteresis_m: expected hysteresis_m of at most 0.02, what nearer_than_m leaves to the frame in the axis of back.A, found 0.03: ${CLEARS}\n` +
        '  hint: lower hysteresis_m or nearer_than_m',
    ]);
    expect(door('nearer_than_m: 0.88, hysteresis_m: 0.02')).toEqual([]);
  });
  test('along the axis, whichever way it looks', () => {
    // From 1 m down at 60°: the floor after 1 / sin 60° = 1.1547 m, the jamb only after 0.9 / cos 60° = 1.8 m.
    expect(door('nearer_than_m: 1.14', 'height_m: 1\ntilt_deg: -60')[0]).toContain('at most 0.0147');
    expect(door('nearer_than_m: 1.12', 'height_m: 1\ntilt_deg: -60')).toEqual([]);
    // From the lintel 2 m down.
    expect(door('nearer_than_m: 1.98', 'mount: lintel')[0]).toContain('at most 0.02');
    expect(door('nearer_than_m: 1.96', 'mount: lintel')).toEqual([]);
    // Facing each other: √(0.9² + 0.1²) = 0.9055 m.
    expect(door('nearer_than_m: 0.88', 'height_m: 1\nmount: facing')[0]).toContain('at most 0.0255');
    expect(door('nearer_than_m: 0.87', 'height_m: 1\nmount: facing')).toEqual([]);
  });
  test('readings that are always too long leave more of it', () => {
    const biased = (bias: number) =>
      door('nearer_than_m: 0.88', 'height_m: 1', 'time-of-flight-ranger', `    bias_m: ${bias}\n`);
    expect(biased(0.01)).toEqual([]);
    expect(biased(0.005)[0]).toContain('at most 0.025');
  });
  test('not where nothing comes back from the frame, and not in place of what is wrong already', () => {
    expect(door('margin_m: 0.1, hysteresis_m: 0.2', 'height_m: 1', 'triangulation-ranger')).toEqual([]);
    expect(door('nearer_than_m: 0.95')).toEqual([]);
    expect(door('nearer_than_m: far')).toEqual([]);
  });
  test('the lesson on it is told, until it is mended as its comment says', () => {
    const lesson = readFileSync('scenarios/switch-that-never-clears.yaml', 'utf8');
    expect(cautions(lesson)).toEqual([expect.stringContaining(CLEARS)]);
    expect(cautions(lesson, { sets: ['sensors.sound.switching.hysteresis_m=0.01'] })).toEqual([]);
  });
  test('in a list of beams, each sensor once; and after --set, without a place', () => {
    const beams = (sets: string[] = []) =>
      cautions(
        BEAMS('name: A, sensor: s, at_m: -0.05, height_m: 1', 'name: B, sensor: s, at_m: 0.05, height_m: 1') +
          'sensors: { s: { kind: ultrasonic-ranger, switching: { nearer_than_m: 0.8 } } }\n',
        { sets },
      );
    expect(beams()).toEqual([]);
    expect(beams(['sensors.s.switching.hysteresis_m=0.2'])).toEqual([
      `sensors.s.switching.hysteresis_m: expected hysteresis_m of at most 0.1, what nearer_than_m leaves to the frame in the axis of back.A, found 0.2: ${CLEARS}\n` +
        '  hint: lower hysteresis_m or nearer_than_m',
    ]);
    expect(beams(['doors.back.beams.B.mount=right-jamb', 'doors.back.width_m=0.82'])).toHaveLength(1);
  });
});

describe('numbers in another unit', () => {
  const air = (key: string) => messages(`${VALID}surroundings: { ${key} }\n`);
  const ultrasonic = (key: string) => messages(`${VALID}sensors:\n  s: { kind: ultrasonic-ranger, ${key} }\n`);
  test.each([
    ['sunlight_klx: 500', 'expected 0 to 120 kilolux, found 500\n  hint: 500 looks like lux; write sunlight_klx: 0.5'],
    ['sunlight_klx: 300 lx', 'expected a number of kilolux, found the text "300 lx"\n  hint: write sunlight_klx: 0.3'],
    [
      'temperature_c: 21 °C',
      'expected a number of degrees Celsius, found the text "21 °C"\n  hint: write temperature_c: 21',
    ],
    ['temperature_c: 70', 'expected -20 to 50 degrees Celsius, found 70'],
    [
      'pressure_kpa: 1013',
      'expected 50 to 110 kilopascals, found 1013\n  hint: 1013 looks like hectopascals; write pressure_kpa: 101.3',
    ],
    ['humidity_percent: 40 %', 'expected a number per cent, found the text "40 %"\n  hint: write humidity_percent: 40'],
  ])('surroundings: %s', (key, expected) => {
    const name = key.split(':')[0]!;
    const column = 'surroundings: { '.length + name.length + 3;
    expect(air(key)).toEqual([`s.yaml:17:${column}: surroundings.${name}: ${expected}`]);
  });
  test('of a ranger', () => {
    expect(ultrasonic('frequency_khz: 40000')).toEqual([
      's.yaml:18:48: sensors.s.frequency_khz: expected 20 to 200 kilohertz, found 40000\n' +
        '  hint: 40000 looks like hertz; write frequency_khz: 40',
    ]);
    expect(ultrasonic('tick_us: 0.1 ms')).toEqual([
      's.yaml:18:42: sensors.s.tick_us: expected a number of microseconds, found the text "0.1 ms"\n' +
        '  hint: write tick_us: 100',
    ]);
    expect(ultrasonic('assumed_temperature_c: 68 °F')[0]).toContain('\n  hint: write assumed_temperature_c: 20');
    expect(ultrasonic('switching: { follow_um: 0.02 mm }')[0]).toContain(
      'expected a number of micrometres, found the text "0.02 mm"\n  hint: write follow_um: 20',
    );
    expect(messages(`${VALID}controllers: [{ name: main, serial_baud: 9600 Bd }]\n`)[0]).toContain(
      'expected a number of baud, found the text "9600 Bd"\n  hint: write serial_baud: 9600',
    );
    expect(ultrasonic('switching: { median_of: 99 }')[0]).toContain('expected 1 to 15 readings, found 99');
  });
});
