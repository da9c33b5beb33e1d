/** The studies that come with jambeam keep what their comments promise; the page about studies says what is so. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { describe, expect, test } from 'vitest';
import { parseScenario } from '../../src/scenario/parse.js';
import { doorTable, houseTable } from '../../src/study/columns.js';
import { planStudy } from '../../src/study/plan/plan.js';
import { studySchema } from '../../src/study/plan/schema.js';
import { keysOf } from '../../src/scenario/keys.js';
import type { StudyDesign, StudySummary } from '../../src/study/summary-schema.js';
import { folder, jambeam } from '../cli/jambeam.js';
import { ROOT, blocks, codes, page } from './markdown.js';

/** A study made smaller, so that it takes some seconds. */
async function run(name: string, smaller: (study: Record<string, unknown>) => void): Promise<StudySummary> {
  const study = parse(readFileSync(join(ROOT, 'scenarios/studies', name), 'utf8')) as Record<string, unknown>;
  smaller(study);
  const cwd = folder();
  writeFileSync(join(cwd, 'house.yaml'), readFileSync(join(ROOT, 'scenarios/guesthouse.yaml')));
  writeFileSync(join(cwd, 'study.yaml'), JSON.stringify({ ...study, scenario: 'house.yaml' }));
  expect(await jambeam(['study', 'study.yaml', '--quiet', '--workers', '1'], { cwd })).toMatchObject({
    code: 0,
    err: '',
  });
  return JSON.parse(readFileSync(join(cwd, 'study.study/study.json'), 'utf8')) as StudySummary;
}
const wrong = ({ metrics }: StudyDesign): number => metrics['house.wrong_per_100']!.value!;

test('mount-height: a narrow band round one metre; low beams count the dog, high ones miss the child', async () => {
  const { designs, factors, ranking } = await run('mount-height.yaml', (study) => {
    study['factors'] = [{ name: 'height_m', key: 'doors.*.pair.height_m', values: [0.2, 0.6, 0.9, 1.3] }];
    study['replicates'] = 6;
  });
  const [low, , middle, high] = designs as [StudyDesign, StudyDesign, StudyDesign, StudyDesign];
  expect(factors[0]!.levels[designs[ranking.rows[0]!.design - 1]!.levels[0]!]!.value).toBe(0.9);
  expect(wrong(middle)).toBeLessThan(5);
  for (const other of [low, high]) expect(wrong(other)).toBeGreaterThan(4 * wrong(middle));
  const rate = ({ by_who }: StudyDesign, name: string): number =>
    by_who.find(({ who }) => who === name)!.wrong_per_100_visits.value!;
  expect(rate(low, 'bruno')).toBeGreaterThan(20);
  expect(rate(middle, 'bruno')).toBeLessThan(2);
  expect(rate(high, 'leo')).toBeGreaterThan(50);
  expect(rate(middle, 'leo')).toBeLessThan(5);
});

test('height-spacing-sensor: how a ranger is read matters more than what it is; what needs brackets is left out', async () => {
  const { designs, factors, left_out } = await run('height-spacing-sensor.yaml', (study) => {
    const [, spacing, sensor] = study['factors'] as object[];
    study['factors'] = [
      { name: 'height_m', key: 'doors.*.pair.height_m', values: [0.95] },
      { ...spacing, values: [0.08, 0.16] },
      sensor,
    ];
    study['replicates'] = 2;
  });
  expect(left_out).toBe(4);
  const at = (label: string): number =>
    wrong(designs.find(({ levels }) => factors[2]!.levels[levels[2]!]!.label === label)!);
  expect(at('light barriers')).toBeLessThan(5);
  expect(at('triangulation a hub each')).toBeLessThan(5);
  expect(at('time-of-flight one hub')).toBeGreaterThan(2 * at('time-of-flight a hub each'));
});

describe('docs/studies.md', () => {
  const text = page('docs/studies.md');
  const house = parseScenario(readFileSync(join(ROOT, 'scenarios/guesthouse.yaml'), 'utf8'), 'guesthouse.yaml').design!;
  const shown = studySchema.parse(parse(blocks(text, 'yaml')[0]!));
  const { plan, issues } = planStudy(shown, house, undefined);

  test('the study it shows is a whole one', () => {
    expect(issues).toEqual([]);
    expect(plan!.designs).toHaveLength(12);
  });

  test('names every key of a study and every column of the results', () => {
    const all = `${[...codes(text)].join(' ')} ${blocks(text, 'yaml')[0]}`;
    for (const { path } of keysOf(studySchema)) expect(all).toContain(path.split('.').findLast((part) => part !== '*'));
    const columns = [...houseTable(plan!).columns, ...doorTable(plan!).columns].map(({ name }) => name);
    const factors = plan!.factors.map(({ name }) => name);
    for (const name of columns.filter((one) => !factors.includes(one))) expect([...codes(text)]).toContain(name);
  });
});

test('CITATION.cff has the version of the package', () => {
  const { version, 'cff-version': format } = parse(page('CITATION.cff')) as Record<string, string>;
  expect(version).toBe((JSON.parse(page('package.json')) as { version: string }).version);
  expect(format).toBe('1.2.0');
});
