/** Short forms, defaults and what is read of a scenario that is right. */
import { describe, expect, test } from 'vitest';
import { salvage } from '../../src/scenario/salvage.js';
import { scenarioSchema } from '../../src/scenario/schema.js';
import { readYaml } from '../../src/scenario/yaml-source.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { TABLE, VALID, designOf, edit, messages } from './helpers.js';

describe('a scenario becomes a design', () => {
  test('a pair is two level beams, the door plane half-way between them', () => {
    const { beams } = designOf(VALID).doors[0]!;
    expect(beams).toEqual([
      {
        name: 'A',
        sensor: 'light-barrier',
        at_m: -0.05,
        height_m: 0.9,
        far_at_m: -0.05,
        far_height_m: 0.9,
        mount: 'left-jamb',
      },
      {
        name: 'B',
        sensor: 'light-barrier',
        at_m: 0.05,
        height_m: 0.9,
        far_at_m: 0.05,
        far_height_m: 0.9,
        mount: 'left-jamb',
      },
    ]);
  });

  test('a beam of its own runs straight across unless its far end is placed', () => {
    const own = edit(
      '    pair:\n      height_m: 0.9\n      spacing_m: 0.1\n',
      '    beams:\n      - { name: low, sensor: light-barrier, at_m: -0.03, height_m: 0.2 }\n' +
        '      - { name: high, sensor: light-barrier, at_m: 0.03, height_m: 1.2, far_height_m: 1.4 }\n',
    );
    const [low, high] = designOf(own).doors[0]!.beams;
    expect([low!.far_at_m, low!.far_height_m]).toEqual([-0.03, 0.2]);
    expect([high!.far_at_m, high!.far_height_m]).toEqual([0.03, 1.4]);
  });

  test('a door is read by the first controller unless it names one', () => {
    expect(designOf(VALID).doors[0]!.controller).toBe('main');
    const two = `${VALID}controllers: [{ name: left }, { name: right }]\n`;
    expect(designOf(two).doors[0]!.controller).toBe('left');
    expect(designOf(edit('width_m: 0.9', 'width_m: 0.9\n    controller: right', two)).doors[0]!.controller).toBe(
      'right',
    );
  });

  test('bare names of logics get their defaults, and every logic a name of its own', () => {
    const text = `${VALID}logics:\n  - four-level\n  - { use: four-level, timeout_ms: 500 }\n  - { use: hold-off, name: four-level-2 }\n`;
    expect(designOf(text).logics).toEqual([
      { use: 'four-level', timeout_ms: 10_000, name: 'four-level' },
      { use: 'four-level', timeout_ms: 500, name: 'four-level-3' },
      { use: 'hold-off', timeout_ms: 4000, hold_off_ms: 600, name: 'four-level-2' },
    ]);
  });

  test('a table logic brings its text along and goes by the name the table gives itself', () => {
    const text = `${VALID}logics:\n  - { use: table, file: counting.yaml }\n`;
    const design = designOf(text, { readFile: () => TABLE });
    expect(design.logics).toEqual([{ use: 'table', file: 'counting.yaml', name: 'my-logic' }]);
    expect(design.tables).toEqual({ 'counting.yaml': TABLE });
  });

  test('byte-order mark, Windows line ends and a missing last line break are all right', () => {
    const windows = `\ufeff${VALID.trimEnd().replaceAll('\n', '\r\n')}`;
    expect(designOf(windows)).toEqual(designOf(VALID));
    expect(messages(windows.replace('width_m: 0.9', 'width_m: 0.1'))).toEqual([
      's.yaml:11:14: doors.back.width_m: expected 0.4 to 10 metres, found 0.1',
    ]);
  });

  test('moderate use of anchors and aliases is all right', () => {
    const text = edit(
      '  - name: kitchen\n    people_at_start: 2',
      '  - name: kitchen\n    people_at_start: &two 2\n  - name: bath\n    people_at_start: *two',
    );
    expect(designOf(text).rooms[2]).toMatchObject({ name: 'bath', people_at_start: 2 });
  });

  test('of a text without mistakes, salvage reads exactly what the schema parses', () => {
    for (const text of [VALID, starterScenario()]) {
      const value = readYaml(text, 's.yaml').source!.value;
      expect(salvage(scenarioSchema, value)).toEqual(scenarioSchema.parse(value));
    }
  });
});
