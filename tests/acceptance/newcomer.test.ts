/** The whole job, as somebody does it who has just found the project: new, check, run, and the report's numbers. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { estimateWords } from '../../src/report/words.js';
import { metricsSchema } from '../../src/score/metrics-schema.js';
import { folder, jambeamProcess } from '../cli/jambeam.js';

const cwd = folder();

test('new, check, run: a report about a doorway of one’s own, with the numbers of metrics.json', () => {
  expect(jambeamProcess(['new', 'x'], { cwd }).code).toBe(0);

  const check = jambeamProcess(['check', 'x/scenario.yaml'], { cwd });
  expect(check).toMatchObject({ code: 0, err: '' });
  expect(check.out).toContain('Height ladder');

  const run = jambeamProcess(['run', 'x/scenario.yaml'], { cwd });
  // On a slow computer it says how far it is.
  expect({ ...run, err: run.err.replace(/^replicate \d+ of 20, .*\n/gm, '') }).toMatchObject({ code: 0, err: '' });
  const metrics = metricsSchema.parse(JSON.parse(readFileSync(join(cwd, 'scenario.run/metrics.json'), 'utf8')));
  const report = readFileSync(join(cwd, 'scenario.run/report.html'), 'utf8');

  // It opens by itself: a whole page, no script but the scenario as data, nothing to fetch.
  expect(report).toMatch(/^<!doctype html>/);
  expect(report.trimEnd()).toMatch(/<\/html>$/);
  // Scripts stand in it; nothing is fetched.
  expect(report).not.toMatch(/<script[^>]* src=|<link|<iframe|src="(?!data:)|href="(?!#)/);
  expect(report.length).toBeLessThan(1_500_000);

  // The headline, its interval, and every logic's wrong counts stand in it as metrics.json has them.
  const text = report.replace(/<[^>]*>/g, '').replace(/[\u2068\u2069]/g, '');
  for (const door of metrics.doors) {
    const { value, range } = estimateWords(door.wrong_per_100);
    expect(door.wrong_per_100.value).not.toBeNull();
    expect(text).toContain(value as string);
    expect(text).toContain(range as string);
    expect(text).toContain(door.logic);
  }
  const [first] = metrics.doors;
  expect(first?.logic).toBe(metrics.house.logic);
  const total = String(metrics.house.person_crossings).replace(/\B(?=(\d{3})+$)/g, ',');
  expect(text).toContain(total);
  expect(run.out).toContain(total);

  // And the kind of passage that goes wrong most, so that a reader who has only the report can name it.
  const worst = [...(first?.by_kind ?? [])]
    .filter(({ wrong_per_100_visits }) => wrong_per_100_visits.value !== null)
    .sort((a, b) => (b.wrong_per_100_visits.value ?? 0) - (a.wrong_per_100_visits.value ?? 0))[0];
  expect(text).toContain(`${estimateWords(worst!.wrong_per_100_visits).value}`);
});
