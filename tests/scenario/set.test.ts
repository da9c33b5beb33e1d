/** `--set KEY=VALUE` and the path grammar behind it. */
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { readPath, writePath } from '../../src/scenario/path.js';
import { assign } from '../../src/scenario/set.js';
import { TABLE, VALID, designOf, edit, messages } from './helpers.js';

const set = (...sets: string[]) => designOf(VALID, { sets });
const refused = (...sets: string[]) => messages(VALID, { sets });

describe('what can be set', () => {
  test('list items are addressed by name, by position from 1, or all at once', () => {
    expect(set('rooms.kitchen.people_at_start=5').rooms[1]!.people_at_start).toBe(5);
    expect(set('rooms.2.people_at_start=5').rooms[1]!.people_at_start).toBe(5);
    expect(set('rooms.*.people_at_start=5').rooms.map((r) => r.people_at_start)).toEqual([5, 5]);
    expect(
      set('doors.*.traffic.mix.1.share=0.52', 'doors.back.traffic.mix.2.share=0.34').doors[0]!.traffic.mix[0]!.share,
    ).toBe(0.52);
  });
  test('a ledger by its name; bare names become whole', () => {
    const ledgers = (...sets: string[]) => set(...sets).ledgers;
    expect(
      ledgers('ledgers=[reset, { use: cap, at_most: 4 }]', 'ledgers.cap.at_most=3', 'ledgers.reset.to=start'),
    ).toEqual([
      { use: 'reset', name: 'reset', at: '04:00', to: 'start' },
      { use: 'cap', name: 'cap', at_most: 3 },
    ]);
  });

  test('values are YAML: numbers, texts, true and false, lists and maps', () => {
    expect(
      set('name=Front', 'seed=s7', 'hours=2.5', 'doors.back.traffic.one_way=true', 'ledgers=[floor]'),
    ).toMatchObject({
      name: 'Front',
      seed: 's7',
      hours: 2.5,
      ledgers: [{ use: 'floor', name: 'floor' }],
      doors: [{ traffic: { one_way: true } }],
    });
    expect(set('walkers.tall={ kind: person, stature_m: 1.98, sex: man, age_y: 30 }').walkers).toHaveProperty(
      'tall.with_infant',
      false,
    );
  });
  test('an optional key that is not there yet can be set', () => {
    const [plain] = designOf(VALID).controllers;
    expect(plain).not.toHaveProperty('poll_ms');
    expect(set('controllers.main.poll_ms=5').controllers).toEqual([{ ...plain, poll_ms: 5 }]);
  });
  test('a level beam stays level and straight when its near end is moved', () => {
    const [a, b] = set('doors.*.beams.*.height_m=1.3', 'doors.back.beams.A.at_m=-0.1').doors[0]!.beams;
    expect(a).toMatchObject({ height_m: 1.3, far_height_m: 1.3, at_m: -0.1, far_at_m: -0.1 });
    expect(b).toMatchObject({ height_m: 1.3, far_height_m: 1.3, at_m: 0.05, far_at_m: 0.05 });
  });
  test('a far end that is set as well stays where it is put, in whatever order', () => {
    for (const sets of [
      ['doors.*.beams.A.far_height_m=1.5', 'doors.*.beams.A.height_m=1.3'],
      ['doors.*.beams.A.height_m=1.3', 'doors.*.beams.A.far_height_m=1.5'],
    ])
      expect(set(...sets).doors[0]!.beams[0]).toMatchObject({ height_m: 1.3, far_height_m: 1.5 });
  });
  test('a table that is set is read', () => {
    const text = `${VALID}logics: [{ use: table, file: a.yaml }]\n`;
    const design = designOf(text, { sets: ['logics.1.file=b.yaml'], readFile: (file) => `# ${file}\n${TABLE}` });
    expect(design.tables).toEqual({ 'b.yaml': `# b.yaml\n${TABLE}` });
  });
});

describe('sensors of another kind', () => {
  const MINE = `${edit('    pair:', '    pair:\n      sensor: mine')}sensors:\n  mine: { kind: light-barrier }\n`;
  const RANGER = 'doors.*.beams.*.sensor=ultrasonic-ranger';
  const BARRIER = 'doors.*.beams.*.sensor=light-barrier';

  test('light barriers become rangers: far ends go, a direction comes', () => {
    const [a] = set(RANGER).doors[0]!.beams;
    expect(a).toEqual({
      name: 'A',
      sensor: 'ultrasonic-ranger',
      mount: 'left-jamb',
      at_m: -0.05,
      height_m: 0.9,
      tilt_deg: 0,
      turn_deg: 0,
    });
  });
  test('and back again they are what they were', () => {
    expect(set(RANGER, BARRIER)).toEqual(set());
    const there = set(RANGER);
    expect(assign(there, [{ path: 'doors.*.beams.*.sensor', value: 'light-barrier' }]).design).toEqual(set());
  });
  test('where they are put counts for the new kind, in whatever order', () => {
    for (const sets of [
      [RANGER, 'doors.*.beams.*.height_m=1.3', 'doors.*.beams.A.tilt_deg=-20'],
      ['doors.*.beams.A.tilt_deg=-20', 'doors.*.beams.*.height_m=1.3', RANGER],
    ])
      expect(set(...sets).doors[0]!.beams).toMatchObject([
        { height_m: 1.3, tilt_deg: -20 },
        { height_m: 1.3, tilt_deg: 0 },
      ]);
  });
  test("the design's air, light, turns and switching", () => {
    const design = designOf(MINE, {
      sets: [
        'surroundings.sunlight_klx=20',
        'controllers.*.cycle_ms=12',
        'sensors.mine.kind=triangulation-ranger',
        'sensors.mine.switching.margin_m=0.2',
        'doors.*.beams.*.mount=right-jamb',
        'doors.*.beams.B.turn_deg=5',
      ],
    });
    expect(design.surroundings.sunlight_klx).toBe(20);
    expect(design.controllers[0]!.cycle_ms).toBe(12);
    expect(design.doors[0]!.beams).toMatchObject([{ mount: 'right-jamb' }, { mount: 'right-jamb', turn_deg: 5 }]);
  });
  test('a sensor that is set whole has its defaults, for what is set after it', () => {
    const whole = 'sensors.mine={ kind: ultrasonic-ranger, range_m: 3 }';
    const design = set(whole, 'doors.*.beams.*.sensor=mine', 'sensors.mine.switching.margin_m=0.2');
    expect(design.sensors['mine']).toMatchObject({
      range_m: 3,
      time_out_ms: 38,
      switching: { margin_m: 0.2, median_of: 1 },
    });
    expect(design.doors[0]!.beams).toMatchObject([{ tilt_deg: 0 }, { tilt_deg: 0 }]);
    const all = 'sensors={ mine: { kind: triangulation-ranger }, yours: { kind: light-barrier } }';
    expect(set(all, 'sensors.*.kind=time-of-flight-ranger').sensors).toMatchObject({
      mine: { kind: 'time-of-flight-ranger', timing_budget_ms: 33 },
      yours: { kind: 'time-of-flight-ranger', timing_budget_ms: 33 },
    });
    expect(
      set(whole, 'sensors.mine.switching={ margin_m: 0.1 }', 'sensors.mine.switching.follow_um=5').sensors,
    ).toMatchObject({ mine: { switching: { margin_m: 0.1, follow_um: 5, hysteresis_m: 0.03 } } });
  });
  test('a kind alone has no keys to set, and it is told how it gets them', () => {
    const first = 'sensors.ultrasonic-ranger={kind: ultrasonic-ranger}';
    expect(refused('sensors.ultrasonic-ranger.range_m=3')).toEqual([
      '--set sensors.ultrasonic-ranger.range_m: there is no "ultrasonic-ranger" in sensors\n' +
        `  hint: ultrasonic-ranger alone is that kind with its defaults; make it a sensor of your own first: --set "${first}"`,
    ]);
    expect(set(RANGER, first, 'sensors.ultrasonic-ranger.range_m=3').sensors).toMatchObject({
      'ultrasonic-ranger': { range_m: 3 },
    });
  });
  test('what hangs from the lintel stays there when the lintel is moved; what hangs lower stays where it is', () => {
    const hung = edit('      height_m: 0.9\n', '      sensor: ultrasonic-ranger\n      mount: lintel\n');
    const heights = (...sets: string[]) => designOf(hung, { sets }).doors[0]!.beams.map(({ height_m }) => height_m);
    expect(heights('doors.*.height_m=1.8')).toEqual([1.8, 1.8]);
    expect(heights('doors.back.beams.A.height_m=1.7', 'doors.back.height_m=1.9')).toEqual([1.7, 1.9]);
  });
  test('a key that was chosen and that the new kind has not is told', () => {
    const chosen = edit('kind: light-barrier }', 'kind: light-barrier, response_ms: 2 }', MINE);
    expect(messages(chosen, { sets: ['sensors.mine.kind=triangulation-ranger'] })).toEqual([
      '--set sensors.mine.response_ms: unknown key "response_ms"\n' +
        '  hint: it exists as sensors.*.response_ms (kind: light-barrier): is it in the right place?',
    ]);
    expect(messages(MINE, { sets: ['sensors.mine.kind=radar'] })[0]).toContain(
      '--set sensors.mine.kind: expected one of',
    );
  });
});

describe('what is refused, with no place but the option', () => {
  test.each([
    ['doors.front.width_m=1', '--set doors.front.width_m: there is no "front" in doors\n  hint: there is back'],
    ['doors.bcak.width_m=1', '--set doors.bcak.width_m: there is no "bcak" in doors\n  hint: did you mean "back"?'],
    ['doors.back.widht_m=1', '--set doors.back.widht_m: unknown key "widht_m"\n  hint: did you mean "width_m"?'],
    [
      'doors.back.pair.hight_m=1',
      '--set doors.back.pair.hight_m: there is no "hight_m" in doors.back.pair\n  hint: did you mean "height_m"?',
    ],
    [
      'width_m=1',
      '--set width_m: unknown key "width_m"\n  hint: it exists as doors.*.width_m: is it in the right place?',
    ],
    ['doors.3.width_m=1', '--set doors.3.width_m: there is no "3" in doors\n  hint: there is back'],
    ['hours.x.y=1', '--set hours.x.y: there is no "x" in hours\n  hint: hours has nothing below it'],
    ['=5', '--set: expected KEY=VALUE, found "=5"\n  hint: for example --set hours=2'],
    ['hours', '--set: expected KEY=VALUE, found "hours"\n  hint: for example --set hours=2'],
    [
      'hours=',
      '--set hours: expected a number of hours, found nothing\n  hint: a value is missing after the colon; # begins a comment unless it is in quotes',
    ],
    ['hours=two', '--set hours: expected a number of hours, found the text "two"'],
    [
      'doors.back.width_m=90',
      '--set doors.back.width_m: expected 0.4 to 10 metres, found 90\n  hint: 90 looks like centimetres; write width_m: 0.9',
    ],
    ['hours=[1', '--set hours: this is no valid YAML'],
    ['__proto__.x=1', '--set __proto__.x: there is no "__proto__" in the design'],
    ['rooms.hall.constructor=1', '--set rooms.hall.constructor: unknown key "constructor"'],
    ['rooms..name=1', '--set rooms..name: there is no "" in rooms'],
  ])('%s', (text, expected) => {
    expect(refused(text)[0]).toContain(expected);
  });
  test('the design is checked as a whole again, after the last of them', () => {
    expect(refused('doors.back.zone_m=0.5')).toEqual([
      'after --set: doors.back.beams.A.at_m: a beam 0.05 m from the door plane needs zone_m above 0.65, found 0.5\n' +
        '  hint: the zone covers the outermost beam and 0.6 m, the longest reach of a limb; set zone_m on the door',
      expect.stringContaining('doors.back.beams.B.at_m'),
    ]);
    expect(refused('doors.back.traffic.mix.1.share=0.52')[0]).toContain('add up to 1, found 0.9');
  });
  test('all of them at once', () => {
    expect(refused('horus=1', 'x', 'doors.9.width_m=1').map((m) => m.split(': ')[0])).toEqual([
      '--set',
      '--set doors.9.width_m',
    ]);
  });
});

test('assign leaves the design it is given as it was', () => {
  const design = designOf(VALID);
  const before = structuredClone(design);
  assign(design, [{ path: 'doors.*.beams.*.height_m', value: 0.2 }]);
  expect(design).toEqual(before);
});

describe('the grammar over metrics', () => {
  const metrics = {
    house: { wrong_per_100: 1 },
    doors: [
      { door: 'back', logic: 'four-level', wrong_per_100: 2 },
      { door: 'back', logic: 'first-broken', wrong_per_100: 3 },
    ],
    rooms: [
      { room: 'hall', logic: 'four-level', ledger: 'raw', exact_share: 4 },
      { room: 'hall', logic: 'four-level', ledger: 'floor', exact_share: 5 },
    ],
  };
  const values = (path: string) => readPath(metrics, path).matches.map((m) => m.value);
  test('a door with several logics has several values, the first logic first; the next segment can say which', () => {
    expect(values('house.wrong_per_100')).toEqual([1]);
    expect(values('doors.back.wrong_per_100')).toEqual([2, 3]);
    expect(values('doors.back.first-broken.wrong_per_100')).toEqual([3]);
    expect(values('rooms.hall.four-level.floor.exact_share')).toEqual([5]);
  });
  test('a path that leads nowhere says where it stops', () => {
    expect(readPath(metrics, 'doors.front.wrong_per_100').problem).toMatchObject({
      segment: 'front',
      within: 'doors',
      known: ['back'],
    });
  });
});

test('a name goes before a position', () => {
  const rooms = {
    rooms: [
      { name: '2', n: 'first' },
      { name: 'x', n: 'second' },
    ],
  };
  expect(readPath(rooms, 'rooms.2.n').matches).toEqual([{ path: ['rooms', 0, 'n'], value: 'first' }]);
  expect(writePath(rooms, 'rooms.2.n', 0).value.rooms.map((r) => r.n)).toEqual([0, 'second']);
});

test('a scenario that is wrong by itself is not mended by --set', () => {
  const { issues } = parseScenario(edit('width_m: 0.9', 'width_m: 90'), 's.yaml', { sets: ['doors.back.width_m=0.9'] });
  expect(issues.map(formatIssue)[0]).toContain('s.yaml:11:14');
});
