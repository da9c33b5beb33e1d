/** What doesn't print gets nowhere: to no sentence, page, terminal or file that somebody reads. */
import { describe, expect, test } from 'vitest';
import { literal, printable, quote, short } from '../../src/engine/printable.js';
import { html } from '../../src/report/html.js';
import { plain } from '../../src/report/words.js';
import { isOneLine } from '../../src/scenario/yaml-reader.js';

/**
 * By the properties of the Unicode Character Database, as the engine's regular expressions know them: controls (Cc), line and
 * paragraph separators (Zl, Zp), Bidi_Control (UAX #9, Unicode Bidirectional Algorithm, section 2); and the byte order mark.
 */
const HIDES = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}\ufeff]/u;
const PLANE = Array.from({ length: 0xd800 }, (_, code) => String.fromCharCode(code)).concat('\ufeff');
const hiding = PLANE.filter((c) => HIDES.test(c));

test('there are such characters', () => {
  expect(hiding.length).toBeGreaterThan(75);
});

describe.each([
  ['a message', (text: string) => printable(text), ''],
  ['a sentence', plain, ''],
  // Line breaks are only white space there, and isolates are put there by ourselves.
  ['a page', (text: string) => html`${text}`.text, '\t\n\u2068\u2069'],
])('%s', (_, shown, may) => {
  test('has none of them', () => {
    const through = hiding.filter((c) => shown(`a${c}b`).includes(c) && !may.includes(c));
    expect(through.map((c) => c.charCodeAt(0).toString(16))).toEqual([]);
  });

  test('has every letter, digit and mark of any script as it is', () => {
    const lost = PLANE.filter((c) => /[\p{L}\p{N}\p{M}]/u.test(c) && shown(`a${c}b`) !== `a${c}b`);
    expect(lost).toEqual([]);
  });
});

test('a value of a scenario that holds one isn’t one line', () => {
  expect(hiding.filter((c) => isOneLine(`a${c}b`))).toEqual([]);
  expect(isOneLine('Große Tür דלת 門 🚪')).toBe(true);
});

describe('a text in a message', () => {
  test('what doesn’t print stands as its number', () => {
    expect(printable('a\u001b[31mb\u202e\ud800')).toBe('a\\u{1b}[31mb\\u{202e}\\u{d800}');
  });

  test('sixty characters, or as many as there is room for; a longer one says that it goes on', () => {
    expect(printable('x'.repeat(60))).toBe('x'.repeat(60));
    expect(printable('x'.repeat(61))).toBe(`${'x'.repeat(60)}…`);
    expect(printable('abcd', 3)).toBe('abc…');
    // Whole characters: one may take two places.
    expect(printable('🚪🚪🚪', 2)).toBe('🚪🚪…');
  });

  test('values as short literals', () => {
    expect(quote('a"b')).toBe('"a"b"');
    expect(['text', 1.5, true, null, [1], { a: 1 }].map(literal)).toEqual([
      '"text"',
      '1.5',
      'true',
      'null',
      'list',
      'map',
    ]);
  });

  test('numbers without needless digits; large whole ones to the last', () => {
    expect([1.5, 1 / 3, 1e-9, 20].map((one) => short(one))).toEqual(['1.5', '0.333333', '1e-9', '20']);
    expect(short(1 / 3, 2)).toBe('0.33');
    expect(short(Number.MAX_SAFE_INTEGER)).toBe('9007199254740991');
  });
});
