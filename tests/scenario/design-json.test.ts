/** design.json and back. */
import { expect, test } from 'vitest';
import { designFromJson, serialiseDesign } from '../../src/scenario/design-json.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { TABLE, VALID, designOf } from './helpers.js';

const starter = designOf(starterScenario(), { readFile: () => TABLE });

test('a design comes back from its JSON as it was', () => {
  for (const design of [designOf(VALID), starter]) {
    expect(designFromJson(serialiseDesign(design))).toEqual({ design, issues: [] });
    expect(JSON.parse(serialiseDesign(design))).toEqual(design);
  }
});

test('the bytes depend on the design alone, not on the order in which it was built', () => {
  const shuffle = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(shuffle);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value)
        .reverse()
        .map(([k, v]) => [k, shuffle(v)]),
    );
  };
  expect(serialiseDesign(shuffle(starter) as typeof starter)).toBe(serialiseDesign(starter));
});

test('any text goes through: quotes, line breaks, other scripts, characters JSON escapes', () => {
  const text = 'a "b" \\ / \u2028 \u00e9 \ud83d\udeaa \t\r\n# c\u0007';
  const design = { ...starter, name: 'T\u00fcr \ud83d\udeaa "1"', tables: { 'my-logic.yaml': text } };
  expect(designFromJson(serialiseDesign(design)).design).toEqual(design);
});

test('a tampered design is refused, with places', () => {
  const json = serialiseDesign(designOf(VALID));
  const show = (text: string) => designFromJson(text).issues.map(formatIssue);
  const line = json.slice(0, json.indexOf('"width_m"')).split('\n').length;
  expect(show(json.replace('"width_m": 0.9', '"width_m": "0.9"'))).toEqual([
    `design.json:${line}:18: doors.back.width_m: expected a number of metres, found the text "0.9"\n  hint: without quotes: 0.9`,
  ]);
  expect(show(json.replace('"to": "hall"', '"to": "attic"'))[0]).toContain('there is no room "attic"');
  expect(show(json.slice(0, 100))[0]).toMatch(/^design\.json:\d+:\d+: this is no valid YAML/);
});
