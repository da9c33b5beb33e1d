/** docs/fitting.md says what the code does. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { FIT_KINDS, READING_COLUMNS, TRUE_COLUMNS, givenBy } from '../../src/fitting/bench.js';
import { LEAST_READINGS } from '../../src/fitting/checks.js';
import { curveOf } from '../../src/fitting/curves.js';
import { readBench } from '../../src/fitting/readings.js';
import { sensorSchema } from '../../src/sensors/schema.js';

const text = readFileSync('docs/fitting.md', 'utf8');
const rows = [...text.matchAll(/^\| (.*) \|$/gm)].map(([, row]) => row!.split(' | '));
const codes = (cell: string) => [...cell.matchAll(/`([^`]+)`/g)].map(([, code]) => code!);

test('its file is one that is read', () => {
  const { bench, issues } = readBench(/```csv\n([\s\S]*?)```/.exec(text)![1]!, 'docs');
  expect(issues).toEqual([]);
  expect(bench!.rows).toHaveLength(5);
});

test('it lists every column, with the kinds that give it', () => {
  expect(codes(rows.find(([first]) => first!.includes('true_m'))![0]!)).toEqual(Object.keys(TRUE_COLUMNS));
  for (const [column, kinds] of Object.entries(READING_COLUMNS)) {
    const row = rows.find(([first]) => codes(first!).includes(column))!;
    expect(codes(row[2]!).sort()).toEqual([...kinds].sort());
    expect(givenBy(column as 'volts', kinds[0]!)).toBe(true);
  }
});

test('its numbers are those of the code', () => {
  expect(text).toContain(`fewer than ${LEAST_READINGS} readings`);
  const [line, hyperbola] = [curveOf('ultrasonic-ranger'), curveOf('triangulation-ranger')].map(
    (c) => c.names.length + 1,
  );
  expect(text).toContain(`(${line} for a straight line, ${hyperbola} for triangulation)`);
});

test('what it calls a key is one, and what it says is none is none', () => {
  const known = new Set(FIT_KINDS.flatMap((kind) => Object.keys(sensorSchema.parse({ kind }))));
  const parameters = rows.filter(
    ([first, meaning]) => first!.startsWith('`') && meaning !== undefined && !first!.includes('true_m'),
  );
  for (const [first, meaning] of parameters.filter(([one]) => !codes(one!).some((code) => code in READING_COLUMNS)))
    for (const code of codes(first!)) expect(known.has(code), code).toBe(!meaning!.includes('no key'));
});
