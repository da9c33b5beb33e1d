/** What docs/sensors.md says of keys, defaults and their status is what the code has. */
import { describe, expect, test } from 'vitest';
import type { FigureValue } from '../../src/engine/figure.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { type KeyRow, listKeys } from '../../src/scenario/keys.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { starterTable } from '../../src/counter/table/starter.js';
import { SENSOR_KINDS } from '../../src/sensors/schema.js';
import { intervalOf } from '../../src/sensors/controllers/intervals.js';
import { roundsOf } from '../../src/sensors/controllers/rounds.js';
import { controllerSchema } from '../../src/sensors/controllers/schema.js';
import { allFigures } from '../../src/simulate/sources.js';
import { mountSchema } from '../../src/geometry/schema.js';
import { codes, flat, page, rowsOf } from './markdown.js';

const text = page('docs/sensors.md');
const RANGERS = SENSOR_KINDS.filter((kind) => kind !== 'light-barrier');
const figures = new Map(allFigures().map((figure) => [figure.id, figure]));
/** Rows of all tables under a heading, up to the next one. */
const under = (heading: string): string[][] =>
  rowsOf(text.split(/^#+ /m).find((part) => part.startsWith(`${heading}\n`)) ?? '').map((row) =>
    row.map((cell) => cell.replaceAll('`', '')),
  );
const known = (start: string, kind?: string): Map<string, KeyRow> =>
  new Map(
    listKeys()
      .filter(({ path, only_for }) => (kind === undefined || only_for === `kind: ${kind}`) && path.startsWith(start))
      .map((row): [string, KeyRow] => [row.path.slice(start.length), row])
      .filter(([key]) => !key.includes('.')),
  );
const shownDefault = ({ default: preset }: KeyRow): string =>
  preset === undefined || preset.startsWith('{') ? '–' : preset.replaceAll('"', '');

describe.each(RANGERS)('%s', (kind) => {
  const heading = `${kind.charAt(0).toUpperCase()}${kind.slice(1).replace('-ranger', ' ranger')}`;
  const keys = known('sensors.*.', kind);
  const rows = [...under(heading), ...under('What every kind has')].filter(([key = '']) => keys.has(key));

  test('every key is shown, with its unit and default', () => {
    expect(rows.map(([key]) => key).toSorted(byText)).toEqual(
      [...keys.keys()].filter((key) => key !== 'kind').toSorted(byText),
    );
    for (const [key = '', unit, preset] of rows) {
      const row = keys.get(key)!;
      expect([key, unit, preset]).toEqual([key, row.unit ?? '–', shownDefault(row)]);
    }
  });

  test('a default that has a status is a built-in figure of that status', () => {
    const own = [...figures.values()].filter(({ id }) =>
      id.startsWith(`sensor.${kind.replace('-ranger', '').replaceAll('-', '_')}.`),
    );
    const parts = (value: FigureValue): unknown[] => (typeof value === 'number' ? [value] : Object.values(value));
    const stated = under(heading).filter(([key = '', , , status]) => keys.has(key) && status !== '–');
    expect(stated.length).toBeGreaterThan(8);
    for (const [key, , preset, status] of stated) {
      // Found by value and the first word of its key: names of figures leave out units.
      const word = /^[a-z]+/.exec(key!)![0];
      const meant = own.filter(
        ({ id, value }) =>
          parts(value).includes(Number(preset)) && (id.includes(word) || /reflectance|gain/.test(word)),
      );
      expect({ key, statuses: meant.map((figure) => figure.status) }).toMatchObject({
        statuses: expect.arrayContaining([status]) as string[],
      });
    }
  });
});

test.each([
  ['Switching', 'sensors.*.switching.', 'ultrasonic-ranger'],
  ['Controllers', 'controllers.*.', undefined],
  ['Surroundings', 'surroundings.', undefined],
])('%s: every key, with its unit and default', (heading, start, kind) => {
  const keys = known(start, kind);
  const rows = under(heading).filter(([key = '']) => keys.has(key));
  // Names and pins are told in the text.
  const told = [...keys.keys()].filter((key) => !['name', 'digital_pins', 'analogue_inputs'].includes(key));
  expect(rows.map(([key]) => key).toSorted(byText)).toEqual(told.toSorted(byText));
  for (const [key = '', unit, preset] of rows)
    expect([key, unit, preset]).toEqual([key, keys.get(key)!.unit ?? '–', shownDefault(keys.get(key)!)]);
});

test('every mount is in the table', () => {
  const listed = under('Mounts').flatMap(([first = '']) => first.split(', '));
  const ofPairs = listKeys().find(({ path }) => path === 'doors.*.pair.mount')!.choices!;
  for (const mount of [...mountSchema.options, ...ofPairs]) expect(listed).toContain(mount);
});

test('the interval worked by hand is the one that is computed', () => {
  const doors = ['a', 'b', 'c'].map((name) => ({
    name,
    controller: 'main',
    beams: ['A', 'B'].map((beam) => ({ name: beam, ranger: true })),
  }));
  const roundOf = (settings: object) => {
    const controller = controllerSchema.parse({ name: 'main', cycle_ms: 60, ...settings });
    const [round] = roundsOf([controller], doors);
    // The longest a turn can last: the time-out.
    return intervalOf(round!, () => 38_000);
  };
  const alone = roundOf({});
  expect(alone.turns.every(({ stretched, needs_us }) => !stretched && needs_us === 38_100)).toBe(true);
  for (const { longest_us } of alone.members) expect(longest_us).toBe(360_000);
  const two = roundOf({
    turns: [
      ['a.A', 'b.A', 'c.A'],
      ['a.B', 'b.B', 'c.B'],
    ],
  });
  for (const { longest_us } of two.members) expect(longest_us).toBe(120_000);
  const slow = roundOf({ serial_baud: 9600, serial_characters: 40 });
  for (const { stretched, needs_us } of slow.turns) {
    expect(stretched).toBe(true);
    expect(needs_us / 1000).toBeCloseTo(79.8, 1);
  }
  for (const told of ['360 ms', '120 ms', '41.7 ms', '79.8 ms', '2.8 times a second'])
    expect(flat(text)).toContain(told);
});

test('what it says can be set is accepted', () => {
  const { issues } = parseScenario(starterScenario({ sensor: 'ultrasonic-ranger' }), 'starter.yaml', {
    sets: [
      'doors.front.at_m={ x: 0, y: 0 }',
      'doors.front.facing_deg=90',
      'controllers.main.turns=[[front.A, front.B]]',
    ],
    readFile: () => starterTable(),
  });
  expect(issues.map(formatIssue)).toEqual([]);
  for (const word of ['facing_deg', 'DOOR.BEAM']) expect([...codes(text)].join(' ')).toContain(word);
});

function byText(a = '', b = ''): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
