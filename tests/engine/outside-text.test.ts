/** Texts from outside: where something stands in them, and what no parser should be given. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { oddCharacter, placeIn, plainLines, tooDeepAt } from '../../src/engine/outside-text.js';

describe('a place', () => {
  test('is counted from 1, lines by their line feeds', () => {
    const text = 'ab\ncde\n\nf';
    expect(placeIn(text, 0)).toEqual({ line: 1, column: 1 });
    expect(placeIn(text, 2)).toEqual({ line: 1, column: 3 });
    expect(placeIn(text, 3)).toEqual({ line: 2, column: 1 });
    expect(placeIn(text, 7)).toEqual({ line: 3, column: 1 });
    expect(placeIn(text, 8)).toEqual({ line: 4, column: 1 });
  });
  test('leads back to where it came from', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', ' ', '\n'), { maxLength: 60 }), fc.nat(60), (letters, at) => {
        const text = letters.join('');
        const offset = Math.min(at, text.length);
        const { line, column } = placeIn(text, offset);
        const before = text.split('\n').slice(0, line - 1);
        expect(before.reduce((sum, one) => sum + one.length + 1, 0) + column - 1).toBe(offset);
      }),
      { seed: 6 },
    );
  });
});

test('a carriage return alone ends a line, one before a line feed stays, and a byte-order mark goes', () => {
  expect(plainLines('\ufeffa\rb\r\nc')).toBe('a\nb\r\nc');
  expect(plainLines('a\ufeff')).toBe('a\ufeff');
});

test('the first odd character is told, but zero bytes make it no text at all', () => {
  expect(oddCharacter('tab\tand\r\nline')).toBeUndefined();
  expect(oddCharacter('a\u0007b')).toEqual({ offset: 1, why: 'control character' });
  expect(oddCharacter('ab\ufffd')).toEqual({ offset: 2, why: 'not UTF-8' });
  expect(oddCharacter('\u0007b\u0000')).toEqual({ offset: 2, why: 'binary' });
});

describe('too deep', () => {
  test('are more than a thousand open brackets, not a thousand that were closed', () => {
    expect(tooDeepAt('['.repeat(1000))).toBeUndefined();
    expect(tooDeepAt('[{'.repeat(600))).toBe(1000);
    expect(tooDeepAt('[]'.repeat(5000))).toBeUndefined();
    expect(tooDeepAt('{}'.repeat(5000))).toBeUndefined();
    expect(tooDeepAt('[,'.repeat(1001))).toBe(2000);
    expect(tooDeepAt(`${']'.repeat(50)}${'{'.repeat(1001)}`)).toBe(1050);
  });
  test('are more than a thousand dashes one after the other, not a thousand lines of a list', () => {
    expect(tooDeepAt('- '.repeat(1001))).toBe(2000);
    expect(tooDeepAt('-  '.repeat(1001))).toBe(3000);
    expect(tooDeepAt('-\t'.repeat(1001))).toBe(2000);
    expect(tooDeepAt('? '.repeat(1000))).toBeUndefined();
    expect(tooDeepAt('- a\n'.repeat(3000))).toBeUndefined();
  });
});
