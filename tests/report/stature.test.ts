/** What the chart of statures says of beams: only a thin level beam lets whoever is shorter pass beneath. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { html } from '../../src/report/html.js';
import { statureChart } from '../../src/report/charts/stature.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { plainRun } from '../simulate/plain-run.js';

function keyOf(scenario: string, ...sets: readonly string[]): string {
  const text = readFileSync(`scenarios/${scenario}.yaml`, 'utf8');
  const { design } = parseScenario(text, scenario, { sets: ['replicates=2', 'hours=1', ...sets] });
  const { doors } = plainRun(design!).metrics;
  return html`${statureChart('statures', doors[0]!, design!.doors[0])!.key}`.text;
}

test('a light barrier has its height in the chart', () => {
  expect(keyOf('polled-too-slowly', 'doors.*.beams.*.height_m=1.6')).toContain('whoever is shorter passes beneath');
});

test('a ranger has not: it looks into a cone, or down from the lintel', () => {
  for (const lesson of ['mount-lintel', 'ultrasonic-in-a-hurry']) expect(keyOf(lesson)).not.toContain('passes beneath');
});
