/** What a user may write as a number, a name, a clock time. */
import { describe, expect, test } from 'vitest';
import { figureValueText } from '../../src/engine/figure.js';
import { clockTime, name, quantity, wholeNumber } from '../../src/engine/quantity.js';
import { DAY_US, HOUR_US, WEEK_H, YEAR_US, clockHours } from '../../src/engine/time.js';

test('a quantity: from the least to the most, both included, with unit and meaning', () => {
  const height = quantity(0.05, 2.5, 'm', 'Height of the beam.');
  for (const fine of [0.05, 1, 2.5]) expect(height.safeParse(fine).success).toBe(true);
  for (const wrong of [0.049, 2.51, NaN, Infinity, '1', null]) expect(height.safeParse(wrong).success).toBe(false);
  expect(height.meta()).toEqual({ description: 'Height of the beam.', unit: 'm' });
});

test('a whole number is whole', () => {
  const replicates = wholeNumber(1, 9, '1', 'Repetitions.');
  expect([1, 9].every((n) => replicates.safeParse(n).success)).toBe(true);
  expect([0, 10, 1.5, '2'].some((n) => replicates.safeParse(n).success)).toBe(false);
  expect(replicates.meta()).toEqual({ description: 'Repetitions.', unit: '1' });
});

describe('a name', () => {
  const named = name('Whose.');
  test.each(['a', 'front', 'Große Tür', 'דלת', '門', 'door-2', 'a_b', 'x'.repeat(40)])('%s', (text) =>
    expect(named.safeParse(text).success).toBe(true),
  );
  test.each(['', ' a', 'a ', '-a', '_a', 'a.b', 'a/b', 'a\nb', 'a*', '🚪', 'x'.repeat(41), 1])('not %j', (text) =>
    expect(named.safeParse(text).success).toBe(false),
  );
  test('says in which form', () => expect(named.meta()).toEqual({ description: 'Whose.', form: 'name' }));
});

describe('a clock time', () => {
  const clock = clockTime('When.');
  test.each([
    ['00:00', 0],
    ['07:30', 7.5],
    ['19:45', 19.75],
    ['23:59', 23 + 59 / 60],
  ])('%s', (text, hours) => {
    expect(clock.safeParse(text).success).toBe(true);
    expect(clockHours(text)).toBe(hours);
  });
  test.each(['24:00', '7:30', '07:60', '0730', '07:30:00', ' 07:30', ''])('not %j', (text) =>
    expect(clock.safeParse(text).success).toBe(false),
  );
  test('says in which form', () => expect(clock.meta()).toEqual({ description: 'When.', form: 'clock' }));
});

test('the longer units, by the SI brochure (9th ed., table 8: 1 h = 3600 s, 1 d = 86 400 s; from memory)', () => {
  expect([HOUR_US, DAY_US]).toEqual([3600e6, 86_400e6]);
  expect([WEEK_H, YEAR_US / DAY_US]).toEqual([168, 365]);
});

test('a figure’s value on one line', () => {
  expect(figureValueText(1.75)).toBe('1.75');
  expect(figureValueText({ mean: 1.7532, sd: 0.0763 })).toBe('mean 1.7532, sd 0.0763');
  expect(
    figureValueText([
      { age: 3, share: 0.5 },
      { age: 4, share: 1 },
    ]),
  ).toBe('age 3, share 0.5; age 4, share 1');
});
