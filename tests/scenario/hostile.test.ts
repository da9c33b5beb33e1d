/** Texts that are broken, binary, huge or made to do harm: one clear message, and an end. */
import { describe, expect, test } from 'vitest';
import { VALID, edit, messages } from './helpers.js';

describe('YAML that is none', () => {
  test.each([
    [
      '  - name: hall',
      '\t- name: hall',
      /^s\.yaml:4:1: this is no valid YAML: .*\n {2}hint: indent with spaces, not with tabs$/,
    ],
    [
      'name: Back door',
      'name: "Back door',
      /^s\.yaml:2:7: this is no valid YAML: .*\n {2}hint: the quote that opens here is never closed$/,
    ],
    ['name: Back door', 'name: Back: door', /^s\.yaml:2:7: this is no valid YAML: .*\n {2}hint: is a colon too many/],
    [
      'name: Back door',
      'name: @home',
      /^s\.yaml:2:7: this is no valid YAML: .*\n {2}hint: a value that begins with this character/,
    ],
    [
      'name: Back door',
      'name: !!js/function "x"',
      /^s\.yaml:2:7: this is no valid YAML: Unresolved tag.*\n {2}hint: .* quotes$/,
    ],
    ['name: Back door', 'name: *home', /^s\.yaml:2:7: name: an alias \(\*name\) without its anchor/],
    [
      'doors:',
      '---\ndoors:',
      /^s\.yaml:7:1: expected one document, found a second one\n {2}hint: take out the line ---$/,
    ],
    ['    width_m: 0.9', '   width_m: 0.9', /^s\.yaml:11:\d+: this is no valid YAML: /],
    ['rooms:', 'rooms: [', /^s\.yaml:\d+:\d+: this is no valid YAML: /],
  ])('%s → %s', (from, to, expected) => {
    expect(messages(edit(from, to))[0]).toMatch(expected);
  });

  test('several syntax errors are told at once, one a line', () => {
    const text = edit('name: Back door', 'name: @home').replace('from: outside', 'from: @outside');
    expect(messages(text).map((m) => m.split(': ')[0])).toEqual(['s.yaml:2:7', 's.yaml:9:11']);
  });

  test.each(['', '\n\n', '# nothing yet\n', '---\n', 'null'])('an empty file: %j', (text) => {
    expect(messages(text)).toEqual([
      's.yaml:1:1: the file is empty\n  hint: `jambeam new DIR` writes a scenario to start from',
    ]);
  });

  test.each([
    [
      'just words',
      's.yaml:1:1: expected a map of keys, found the text "just words"\n  hint: keys with values go here, as in name: hall',
    ],
    ['- a\n- b\n', 's.yaml:1:1: expected a map of keys, found a list\n  hint: keys with a colon, without dashes'],
    ['42', 's.yaml:1:1: expected a map of keys, found 42'],
  ])('something else than a map: %j', (text, expected) => {
    expect(messages(text)).toEqual([expected]);
  });
});

describe('texts that are no text', () => {
  test('binary data', () => {
    expect(messages(`${VALID}\u0000\u0001`)).toEqual(['s.yaml:17:1: expected a text file, found binary data']);
  });
  test('bytes that are not UTF-8', () => {
    expect(messages(edit('Back door', 'B\ufffdck door'))).toEqual([
      's.yaml:2:8: expected text in UTF-8, found other bytes\n  hint: save the file as UTF-8',
    ]);
  });
  test('control characters, raw or escaped, are refused and never echoed', () => {
    for (const bad of ['"\u001b[31mred"', '"\\e[31mred"', '"a\\u202Eb"', '"two\\nlines"']) {
      const [message] = messages(edit('name: Back door', `name: ${bad}`));
      expect(message).toMatch(/^s\.yaml:2:\d+: (?:name: )?expected one line of plain text, found a control character/);
    }
    // In a key, in an unknown name, in a value of the wrong type.
    for (const text of [edit('width_m', '"\\e[31mw"'), edit('to: hall', 'to: "h\\x9bll"'), edit('0.9', '"\\e]0;x\\a"')])
      for (const message of messages(text)) expect(message.replaceAll('\n', ' ')).not.toMatch(/\p{Cc}/u);
  });
});

describe('texts made to do harm', () => {
  test.each(['__proto__', 'constructor', 'prototype'])('the key %s is refused, and nothing is polluted', (key) => {
    expect(messages(`${VALID}walkers:\n  ${key}: { kind: people, polluted: yes }\n`)).toEqual([
      `s.yaml:18:3: walkers: the key "${key}" is not allowed\n  hint: choose another name`,
    ]);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test('aliases that explode', () => {
    const levels = Array.from(
      { length: 30 },
      (_, i) => `a${i + 1}: &a${i + 1} [${Array(9).fill(`*a${i}`).join(', ')}]`,
    );
    expect(messages(`a0: &a0 x\n${levels.join('\n')}\n`)[0]).toMatch(
      /: aliases \(\*name\) repeat more than 10000 values\n {2}hint: write the values out$/,
    );
  });
  test('an alias to itself', () => {
    expect(messages('rooms: &a [*a]\n')[0]).toContain('lists and maps stand in each other more than 40 deep');
  });
  test('brackets without end', () => {
    expect(messages('['.repeat(3000))[0]).toMatch(/nested|deep|valid YAML/);
    expect(messages(`rooms: ${'['.repeat(60)}${']'.repeat(60)}\n`)[0]).toContain('more than 40 deep');
  });
  test('a megabyte and more', () => {
    expect(messages(`# ${'x'.repeat(1_048_576)}\n`)).toEqual([
      's.yaml:1:1: the file is too large: at most 1048576 characters are read',
    ]);
  });
  test('a hundred thousand keys, the same name for all rooms, take no quadratic time', () => {
    const keys = Array.from({ length: 60_000 }, (_, i) => `k${i}: 1`).join('\n');
    const found = messages(keys);
    expect(found.length).toBe(201);
    // 60,000 unknown keys and four missing ones: format, name, rooms, doors.
    expect(found.at(-1)).toBe('and 59804 more problems');
    const rooms = `${VALID.replace('rooms:', `rooms:\n${'  - name: same\n'.repeat(20_000)}`)}`;
    expect(messages(rooms)[0]).toContain('expected at most 200 items, found 20002');
  });
  test('hundreds of rooms in one place are too many rooms, and not held against each other', () => {
    const placed = '  - { name: same, at_m: { x: 0, y: 0 }, size_m: { x: 3, y: 3 } }\n'.repeat(300);
    const found = messages(VALID.replace('rooms:', `rooms:\n${placed}`)).join('\n');
    expect(found).toContain('expected at most 200 items, found 302');
    expect(found).not.toContain('overlaps');
  });
  test('very long names and keys are cut when they are echoed', () => {
    const long = 'x'.repeat(100_000);
    for (const message of [...messages(edit('to: hall', `to: ${long}`)), ...messages(edit('width_m', long))])
      expect(message.length).toBeLessThan(1000);
  });
});
