import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { compileTable } from '../../../src/counter/table/compile.js';
import { tableAsSvg } from '../../../src/counter/table/svg.js';
import type { Table } from '../../../src/counter/table/table.js';
import { tableAsText } from '../../../src/counter/table/text.js';

const shipped = ['first-broken', 'four-level', 'hold-off'].map((name): [string, Table] => {
  const text = readFileSync(new URL(`../../../scenarios/tables/${name}.yaml`, import.meta.url), 'utf8');
  return [name, compileTable(text, name).table as Table];
});

test('as text, a table says of each state which levels can be in it and where its rules lead', () => {
  const text = tableAsText(shipped[0]?.[1] as Table);
  expect(text).toContain(`a-then-b   while 10, 01, 11
  00         → rest      tally forward
  other      → a-then-b (its timer starts again)
  after 4 s  → wait
`);
  expect(text).toContain('rest       while 00\n');
  expect(text).toContain('  other      · stays\n');
});

describe.each(shipped)('%s as SVG', (_name, table) => {
  const svg = tableAsSvg(table);

  test('names every state, and every rule as an arrow or in a box', () => {
    for (const { name } of table.states) expect(svg).toContain(`>${name}</text>`);
    expect(svg.match(/tally forward<\/text>/g)).toHaveLength(1);
    expect(svg.match(/tally backward<\/text>/g)).toHaveLength(1);
  });

  test('has a title and a description, no colours of its own, and nothing to fetch or run', () => {
    expect(svg).toMatch(/<svg [^>]*role="img"[^>]*>\n<title>[^<]+<\/title>\n<desc>[^<]+<\/desc>/);
    expect(svg).not.toMatch(/#[0-9a-f]{3,6}["']|rgb|href|<script|<style|style=|url\(|NaN|Infinity/i);
  });

  test('is the same every time', () => {
    expect(tableAsSvg(table)).toBe(svg);
  });

  test('no two boxes overlap', () => {
    const boxes = [
      ...svg.matchAll(/<rect x="([-\d.]+)" y="([-\d.]+)" width="([-\d.]+)" height="([-\d.]+)" rx="8"/g),
    ].map((match) => match.slice(1).map(Number) as [number, number, number, number]);
    expect(boxes).toHaveLength(table.states.length);
    for (const [i, [x, y, w, h]] of boxes.entries()) {
      for (const [u, v, ow, oh] of boxes.slice(i + 1))
        expect(x + w < u || u + ow < x || y + h < v || v + oh < y).toBe(true);
    }
  });
});

test('text of the user never becomes markup', () => {
  const [, table] = shipped[1] as [string, Table];
  const hostile: Table = { ...table, name: '<script>alert(1)</script>"&', beams: ['<A>', 'B'] };
  const svg = tableAsSvg(hostile);
  expect(svg).not.toContain('<script');
  expect(svg).not.toContain('<A>');
});

test('one state, and forty, can be drawn', () => {
  const one = compileTable('format: 1\nname: one\nbeams: [A]\nstart: s\nstates:\n  s:\n    - { stay: other }\n', 'x');
  expect(tableAsSvg(one.table as Table)).toContain('>s</text>');
  const states = Array.from(
    { length: 40 },
    (_, i) => `  s${i}:\n    - { on: ["1"], go: s${(i + 1) % 40} }\n    - { on: "0", go: s${(i + 2) % 40}}\n`,
  );
  const forty = compileTable(`format: 1\nname: forty\nbeams: [A]\nstart: s0\nstates:\n${states.join('')}`, 'x');
  expect(forty.issues).toEqual([]);
  expect(tableAsSvg(forty.table as Table)).not.toContain('NaN');
});
