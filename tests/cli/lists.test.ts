/** `jambeam keys` and `jambeam sources`: nothing is left without a unit or a meaning. */
import { expect, test } from 'vitest';
import { PASSAGE_KINDS } from '../../src/agents/schema.js';
import { listMetrics } from '../../src/cli/metric-rows.js';
import { LEDGERS } from '../../src/counter/ledger/schema.js';
import { allFigures } from '../../src/simulate/sources.js';
import { BARE_LOGICS } from '../../src/counter/schema.js';
import { folder, jambeam } from './jambeam.js';

const cwd = folder();
interface Row {
  readonly name?: string;
  readonly path?: string;
  readonly use?: string;
  readonly description: string;
}

test('keys --json: every key, kind, logic, ledger and metric has a meaning', async () => {
  const all = JSON.parse((await jambeam(['keys', '--json'], { cwd })).out) as Record<string, Row[]>;
  const names = (section: string) => all[section]?.map((row) => row.name ?? row.use ?? row.path);
  expect(names('keys')).toContain('doors.*.beams.*.height_m');
  expect(names('passages')).toEqual([...PASSAGE_KINDS]);
  expect(names('walkers')).toEqual([
    'people',
    'person',
    'table',
    'test-rod',
    'wheelchair-user',
    'robot-vacuum',
    'dog',
    'cat',
  ]);
  expect(names('sensors')).toEqual([
    'light-barrier',
    'ultrasonic-ranger',
    'triangulation-ranger',
    'time-of-flight-ranger',
  ]);
  expect(names('logics')).toEqual([...BARE_LOGICS, 'table']);
  expect(names('ledgers')).toEqual([...LEDGERS]);
  expect(names('metrics')).toContain('doors.*.drift_per_100.bias');
  for (const rows of Object.values(all))
    for (const row of rows) expect(row.description, JSON.stringify(row)).not.toBe('');
});

test('every estimate of a result has a unit', () => {
  const estimates = listMetrics().filter(({ type }) => type === 'estimate');
  expect(estimates.length).toBeGreaterThan(20);
  for (const { path, unit } of estimates) expect(unit, path).toBeDefined();
});

test('keys as text holds each of them with range and default', async () => {
  const { code, out, err } = await jambeam(['keys'], { cwd });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/doors\.\*\.height_m {2}1\.5 to 5 m, default 2\n {6}Clear height/);
  expect(out).toMatch(/turn-back\n {6}comes into the doorway/);
  expect(out).toMatch(/house\.wrong_per_100 {2}estimate, per 100 crossings\n/);
});

test('sources: each figure with value, unit, use, citation and status, as text and as JSON', async () => {
  const figures = allFigures();
  const { code, out } = await jambeam(['sources'], { cwd });
  expect(code).toBe(0);
  for (const { id, status } of figures) {
    expect(out).toContain(`${id}\n`);
    expect(out).toContain(`    ${status}: `);
  }
  expect(out).toContain(`${figures.length} figures: `);
  const byId = (list: readonly { readonly id: string }[]) => [...list].sort((a, b) => (a.id < b.id ? -1 : 1));
  const printed = JSON.parse((await jambeam(['sources', '--json'], { cwd })).out) as { id: string }[];
  expect(byId(printed)).toEqual(JSON.parse(JSON.stringify(byId(figures))));
});
