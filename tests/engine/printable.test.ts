/** What doesn't print gets nowhere: to no sentence, page, terminal or file that somebody reads. */
import { describe, expect, test } from 'vitest';
import { printable } from '../../src/engine/printable.js';
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
