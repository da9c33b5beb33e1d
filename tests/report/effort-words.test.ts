/** Amounts and hours in words. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hoursWords, lengthWords, money } from '../../src/report/effort-words.js';

const bare = (text: string) => text.replace(/[\u2068\u2069]/g, '').replaceAll('\u00a0', ' ');

test('amounts keep every cent', () => {
  expect(bare(money(15170, 'crowns'))).toBe('151.70 crowns');
  expect(money(5, null)).toBe('0.05');
  expect(money(123_456_789, null)).toBe('1,234,567.89');
  fc.assert(
    fc.property(fc.nat(), (cents) => {
      expect(Number(money(cents, null).replace(/[,.]/g, ''))).toBe(cents);
    }),
    { seed: 4 },
  );
});

test('minutes become hours', () => {
  expect(bare(hoursWords(389.2))).toBe('6 h 29 min');
  expect(bare(hoursWords(59.6))).toBe('1 h');
  expect(bare(hoursWords(20))).toBe('20 min');
});

test('what is not known is not 0', () => {
  expect(lengthWords(null)).toBe('not known');
  expect(bare(lengthWords(0.05))).toBe('0.05 m');
});
