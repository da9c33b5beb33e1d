/** What `jambeam keys` lists and editors read. */
import { expect, test } from 'vitest';
import { editorSchema, listKeys } from '../../src/scenario/keys.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { SENSOR_KINDS } from '../../src/sensors/schema.js';
import { starterTable } from '../../src/counter/table/starter.js';
import { cautions, designOf, messages } from './helpers.js';

const rows = listKeys();

test('every key says what it means, and every number its unit or why it has none', () => {
  expect(rows.filter((row) => row.description === '').map((row) => row.path)).toEqual([]);
  const unitless = rows.filter((row) => row.type.includes('number') && row.unit === undefined).map((row) => row.path);
  // A seed is a label; a target is in the unit of its metric.
  expect(unitless).toEqual(['seed', 'targets.*.at_most', 'targets.*.at_least']);
});

test('a key shows its range, its default and which kind it is for', () => {
  expect(rows.find((row) => row.path === 'doors.*.width_m')).toEqual({
    path: 'doors.*.width_m',
    unit: 'm',
    description: 'Clear width of the opening, left jamb to right jamb.',
    required: true,
    type: 'number',
    min: 0.4,
    max: 10,
  });
  expect(rows.find((row) => row.path === 'logics.*.hold_off_ms')).toMatchObject({
    only_for: 'use: hold-off',
    default: '600',
  });
  expect(rows.find((row) => row.path === 'sensors.*.separation')).toMatchObject({
    choices: ['none', 'alternate', 'carriers'],
  });
});

test('the editor schema knows required keys, units and closed maps', () => {
  const schema = JSON.parse(JSON.stringify(editorSchema())) as Record<string, any>;
  expect(schema.required).toEqual(['format', 'name', 'rooms', 'doors']);
  expect(schema.additionalProperties).toBe(false);
  expect(schema.properties.doors.items.properties.width_m).toEqual({
    type: 'number',
    minimum: 0.4,
    maximum: 10,
    description: 'Clear width of the opening, left jamb to right jamb. Unit: m.',
  });
  expect(JSON.stringify(schema)).not.toMatch(/"unit":|"form":/);
});

test.each(SENSOR_KINDS)('the starter with %s is right in any door, and says what its numbers are', (sensor) => {
  const readFile = () => starterTable();
  for (const width_m of [0.4, 0.9, 3]) {
    const text = starterScenario({ sensor, width_m });
    expect(messages(text, { readFile })).toEqual([]);
    expect(cautions(text, { readFile })).toEqual([]);
    const design = designOf(text, { readFile });
    const [a, b] = design.doors[0]!.beams;
    expect([a, b].map((beam) => design.sensors[beam!.sensor]?.kind)).toEqual([sensor, sensor]);
    expect([a!.height_m, b!.height_m]).toEqual([0.95, 0.95]);
    expect(text.split('\n').length).toBeLessThan(95);
    expect(text).toMatch(/these numbers are an ASSUMPTION, no real sensor's/);
    expect(text).toMatch(/INVENTED/);
  }
});

test('the starter parses without issue or caution, is short, and marks what is assumed or invented', () => {
  const readFile = () => starterTable();
  for (const options of [{}, { name: 'Küche: "neu" #2', width_m: 1.4 }]) {
    const text = starterScenario(options);
    expect(messages(text, { readFile })).toEqual([]);
    expect(cautions(text, { readFile })).toEqual([]);
    const design = designOf(text, { readFile });
    expect(design.name).toBe(options.name ?? 'Front door');
    expect(design.doors[0]!.width_m).toBe(options.width_m ?? 0.9);
    expect(design.logics.map((logic) => logic.name)).toEqual(['four-level', 'first-broken', 'hold-off', 'my-logic']);
    expect(text.split('\n').length).toBeLessThan(90);
    expect(text).toMatch(/^# yaml-language-server: \$schema=\.\/scenario\.schema\.json\n/);
    expect(text).toMatch(/ASSUMPTION/);
    expect(text).toMatch(/INVENTED/);
  }
});
