/** JSON from outside: what is JSON, and how deep it may be. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MOST_JSON_DEPTH, jsonOrNothing, parsedJson } from '../../src/engine/json.js';

const lists = (depth: number): string => '['.repeat(depth) + ']'.repeat(depth);
const maps = (depth: number): string => `${'{"a":'.repeat(depth - 1)}{}${'}'.repeat(depth - 1)}`;

test('whatever can be written as JSON comes back (RFC 8259 by the engine’s own JSON.stringify)', () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 8 }), (value) => {
      const text = JSON.stringify(value);
      expect(parsedJson(text)).toEqual(JSON.parse(text));
    }),
    { seed: 1 },
  );
});

describe.each([
  ['lists', lists],
  ['maps', maps],
  ['lists and maps by turns', (depth: number) => '[{"a":'.repeat(depth / 2) + '0' + '}]'.repeat(depth / 2)],
])('%s in each other', (_, made) => {
  test('may be a hundred deep', () => {
    expect(MOST_JSON_DEPTH).toBe(100);
    expect(() => parsedJson(made(100))).not.toThrow();
    expect(jsonOrNothing(made(100))).toBeDefined();
  });

  test('and not a level more, nor a million', () => {
    for (const depth of [102, 1_000_000]) {
      expect(() => parsedJson(made(depth))).toThrow(/more than 100 deep/);
      expect(jsonOrNothing(made(depth))).toBeUndefined();
    }
  });
});

test.each([
  ['beside each other they are not deep', `[${Array.from({ length: 5000 }, () => '[]').join(',')}]`],
  ['in a string they are letters', JSON.stringify({ a: '['.repeat(500) })],
  ['behind an escaped quotation mark they are still in the string', JSON.stringify(`"${'{'.repeat(500)}"`)],
  ['behind a backslash at the end of a string they are not', `["\\\\",${lists(98)}]`],
])('brackets: %s', (_, text) => {
  expect(parsedJson(text)).toEqual(JSON.parse(text));
});

test('a string that closes is followed by brackets that count', () => {
  expect(() => parsedJson(`["\\\\",${lists(100)}]`)).toThrow(/deep/);
});

test.each(['', '{', '[1,]', "{'a':1}", 'NaN', '\u0000', '"open', `"${'['.repeat(200)}`])('%j is no JSON', (text) => {
  expect(() => parsedJson(text)).toThrow(SyntaxError);
  expect(jsonOrNothing(text)).toBeUndefined();
});
