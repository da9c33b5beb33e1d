/** The docs agree with the code: figures, formats, logics, limits and paths are compared with what is there. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  BUILT_IN_HABITS,
  SHORT_FORMS,
  STAY_LAWS,
  habitsSchema,
  householdSchema,
} from '../../src/agents/household/schema.js';
import { PASSAGE_KINDS, ROOM_USES } from '../../src/agents/schema.js';
import { ledgerInfo } from '../../src/counter/ledger/ledger-info.js';
import { logicInfo } from '../../src/counter/logic-info.js';
import { figureValueText } from '../../src/engine/figure.js';
import { NOT_MODELLED } from '../../src/report/limits.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { listKeys } from '../../src/scenario/keys.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { scenarioSchema } from '../../src/scenario/schema.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { figuresSchema } from '../../src/cli/figures-schema.js';
import { compileTable } from '../../src/counter/table/compile.js';
import { starterTable } from '../../src/counter/table/starter.js';
import { COLUMNS, ROWS, estimateSchema, metricsSchema, roomMetricsSchema } from '../../src/score/metrics-schema.js';
import { allFigures } from '../../src/simulate/sources.js';
import { folderWithDoor, jambeam } from '../cli/jambeam.js';
import { COMMANDS } from '../faults/commands.js';
import { blocks, codes, flat, page, rowsOf } from './markdown.js';
import { plainRun } from '../simulate/plain-run.js';

describe('models.md', () => {
  const text = page('docs/models.md');
  const figures = new Map(allFigures().map((figure) => [figure.id, figure]));
  const shown = rowsOf(text).flatMap(([first = '', ...rest]) => {
    const figure = figures.get(first.replaceAll('`', ''));
    return figure ? [{ figure, rest }] : [];
  });

  test('each figure it shows has the value, unit and status of the code', () => {
    expect(shown.length).toBeGreaterThan(40);
    for (const { figure, rest } of shown)
      expect([figure.id, ...rest]).toEqual([figure.id, figureValueText(figure.value), figure.unit, figure.status]);
  });

  test('every figure about gait, passages, the mix and sensors is in it', () => {
    const missing = [...figures.keys()].filter((id) => !id.startsWith('people.') && !codes(text).has(id));
    expect(missing).toEqual([]);
  });

  test('names no figure that is not there', () => {
    const named = [...codes(text)].filter((code) => /^(?:people|gait|passage|mix|sensor)\.[\w.]+$/.test(code));
    expect(named.filter((id) => !figures.has(id))).toEqual([]);
  });

  test('every kind of passage is described', () => {
    expect(rowsOf(text).map(([first]) => first)).toEqual(expect.arrayContaining(PASSAGE_KINDS.map((k) => `\`${k}\``)));
  });

  test('what is not modelled is what the reports say', () => {
    for (const limit of NOT_MODELLED) expect(flat(text)).toContain(`- ${limit}`);
  });
});

describe('logics.md', () => {
  const text = page('docs/logics.md');

  test.each(logicInfo())('$use: its defaults, and what defeats it, in the words of the code', (logic) => {
    const section = text.split(/^## /m).find((part) => part.startsWith(`${logic.use}\n`)) ?? '';
    expect(flat(section)).toContain(`**Defeated by:** ${logic.defeated_by}`);
    for (const { key, default: value } of logic.keys.filter(({ default: preset }) => preset !== null))
      expect(section).toContain(`\`${key}\` (default ${String(value)})`);
  });
});

test.each(ledgerInfo())('ledgers.md: $use, in the words of the code', ({ use, description, defeated_by, wise }) => {
  expect(rowsOf(page('docs/ledgers.md'))).toContainEqual([`\`${use}\``, description, defeated_by, wise]);
});

test('tables.md: the whole table it shows has nothing to complain about', () => {
  const [table = ''] = blocks(page('docs/tables.md'), 'yaml');
  expect(compileTable(table, 'tables.md').issues).toEqual([]);
});

describe('scoring.md', () => {
  const text = page('docs/scoring.md');

  test('names every row and column of the confusion, every method and every share of a room', () => {
    const rates = Object.keys(roomMetricsSchema.shape).filter((key) => !['room', 'logic', 'ledger'].includes(key));
    for (const word of [...ROWS, ...COLUMNS, ...estimateSchema.shape.method.options, ...rates])
      expect(codes(text)).toContain(word);
  });
});

describe('household.md', () => {
  const text = page('docs/household.md');

  test('the short and the long scenario it shows are whole, and somebody walks through every door', () => {
    const shown = blocks(text, 'yaml');
    expect(shown).toHaveLength(2);
    for (const yaml of shown) {
      const { design, issues, cautions } = parseScenario(yaml, 'household.md', { sets: ['replicates=1'] });
      expect([...issues, ...cautions].map(formatIssue)).toEqual([]);
      const { metrics } = plainRun(design!);
      for (const { door, confusion } of metrics.doors) {
        const passed = confusion.counts.flat().reduce<number>((sum, n) => sum + (n ?? 0), 0);
        expect({ door, passed: passed > 0 }).toEqual({ door, passed: true });
      }
    }
  });

  test('says what each key of a household and of habits means, and names all habits, short forms and uses', () => {
    const said = codes(text);
    const keys = [...Object.keys(householdSchema.shape), ...Object.keys(habitsSchema.shape)];
    for (const word of [...keys, ...BUILT_IN_HABITS, ...SHORT_FORMS, ...ROOM_USES, ...STAY_LAWS])
      expect(said).toContain(word);
    const [, long = ''] = blocks(text, 'yaml');
    const items = keys.flatMap((key) => listKeys().filter(({ path }) => path.startsWith(`household.${key}.`)));
    expect(items.length).toBeGreaterThan(40);
    for (const { path } of items) {
      const word = path
        .split('.')
        .filter((segment) => !/^[*\d]/.test(segment))
        .at(-1) as string;
      expect({ path, shown: new RegExp(`\\b${word}:`).test(long) }).toEqual({ path, shown: true });
    }
  });
});

describe('files.md', () => {
  const text = page('docs/files.md');
  // A comment in a block is no heading.
  const parts = text.replace(/^```[\s\S]*?^```$/gm, '').split(/^#+ /m);
  const section = (title: string): string => parts.find((part) => part.startsWith(`${title}\n`)) ?? '';
  const listed = (title: string): string[] => rowsOf(section(title)).flatMap(([first = '']) => [...codes(first)]);
  let out = '';
  beforeAll(async () => {
    const cwd = folderWithDoor();
    // Rangers, for what only a run with rangers writes.
    const rangers = 'doors.*.beams.*.sensor=ultrasonic-ranger';
    expect((await jambeam(['run', 'door.yaml', '--edges', '--set', rangers], { cwd })).code).toBe(0);
    out = join(cwd, 'door.run');
  });
  const json = (name: string) => JSON.parse(readFileSync(join(out, name), 'utf8')) as Record<string, unknown>;

  test('names every file that any command writes, and every file that is read', () => {
    const named = codes(section('Every file'));
    // Of a folder of results its own page says what is in it.
    const folders = /\.(?:run|study)\//;
    const written = COMMANDS.flatMap(({ writes }) => writes)
      .filter((path) => !folders.test(path))
      .map((path) => path.split('/').at(-1) as string);
    expect(written.length).toBeGreaterThan(10);
    const alike = (name: string): string => name.replace(/-\d\d/, '-01').replace(/^visit/, 'passage');
    for (const name of written) expect([...named]).toContain(alike(name));
    for (const option of ['--logic', '--logic-process', '--truth', '--log', '--plan', '--logger', '--sheet'])
      expect([...named].join(' ')).toContain(option);
  });

  test('lists the files that are written, all of them', () => {
    const files = listed("A run's folder");
    expect([...files].sort()).toEqual(readdirSync(out).sort());
  });

  test.each(['passages.csv', 'tallies.csv', 'edges.csv', 'readings.csv'])('%s: its columns, in their order', (file) => {
    const [header] = readFileSync(join(out, file), 'utf8').split('\n');
    expect(listed(file).join(',')).toBe(header);
  });

  test('metrics.json: its keys, and those of an estimate', () => {
    const keys = [...Object.keys(metricsSchema.shape), ...Object.keys(estimateSchema.shape)];
    expect(new Set(listed('metrics.json'))).toEqual(new Set(keys));
    expect(Object.keys(json('metrics.json')).sort()).toEqual(Object.keys(metricsSchema.shape).sort());
  });

  test('figures.json: its keys, inner ones too', () => {
    const figures = json('figures.json') as Record<string, Record<string, unknown>[]>;
    // This run is too short to be run again with other traffic.
    expect(listed('figures.json')).toEqual([
      ...Object.keys(figures).filter((key) => key !== 'pictures'),
      'activity',
      'pictures',
    ]);
    expect(Object.keys(figuresSchema.shape)).toContain('activity');
    const inner = Object.values(figures).flatMap((list) => Object.keys(list[0] ?? {}));
    const silhouette = figures['silhouettes']?.[0]?.['capsules'] as Record<string, unknown>[];
    const said = codes(section('figures.json'));
    // Door, room, logic and ledger are said in words.
    const words = ['door', 'room', 'logic', 'ledger'];
    for (const key of [...inner, ...Object.keys(silhouette[0] ?? {})].filter((name) => !words.includes(name)))
      expect(said).toContain(key);
  });

  test('jambeam-run.json: its keys', () => {
    for (const key of Object.keys(json('jambeam-run.json'))) expect(codes(section('jambeam-run.json'))).toContain(key);
  });

  test('a scenario: every part of it', () => {
    expect(new Set(listed('A scenario'))).toEqual(new Set(Object.keys(scenarioSchema.shape)));
  });

  test('every --set it shows can be made to the starter', () => {
    const shown = blocks(text, '')
      .flatMap((block) => block.split('\n'))
      .filter((line) => line.startsWith('--set '))
      .map((line) => line.slice('--set '.length).replaceAll("'", ''));
    expect(shown).toHaveLength(7);
    const { design, issues } = parseScenario(starterScenario(), 'starter.yaml', {
      sets: shown,
      readFile: () => starterTable(),
    });
    expect(issues.map(formatIssue)).toEqual([]);
    expect(design?.controllers[0]?.poll_ms).toBe(20);
    expect(design?.doors[0]?.beams[0]).toMatchObject({
      height_m: 1.1,
      at_m: -0.06,
      sensor: 'ultrasonic-ranger',
      tilt_deg: 0,
    });
    expect(design?.surroundings.sunlight_klx).toBe(20);
  });
});
