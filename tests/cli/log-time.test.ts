/** Times as people and controllers write them. */
import { expect, test } from 'vitest';
import { logTime, onTheClock_us } from '../../src/cli/log-time.js';

const s = 1_000_000;
const T0 = 1_738_350_247; // 2025-01-31T19:04:07Z in seconds since 1970: `date -u -d 2025-01-31T19:04:07 +%s`.

test.each([
  ['12.5', 'seconds', 12.5],
  ['-3', 'seconds', -3],
  ['1e3', 'seconds', 1000],
  ['9:05', 'clock', 32_700],
  ['19:04:07', 'clock', 68_647],
  ['19:04:07.25', 'clock', 68_647.25],
  ['2025-01-31T19:04:07', 'moment', T0],
  ['2025-01-31 19:04:07,5Z', 'moment', T0 + 0.5],
  ['2025-01-31T20:04:07+01:00', 'moment', T0],
  ['2025-01-31T14:34:07-0430', 'moment', T0],
])('%s', (text, sort, seconds) => {
  expect(logTime(text)).toEqual({ sort, time_us: Math.round(seconds * s) });
});

test.each([
  '',
  'noon',
  '24:00',
  '12:60',
  '12:00:60',
  '2025-02-30T10:00',
  '2025-13-01T10:00',
  '1,5',
  '0x10',
  'Infinity',
  '1e300',
])('"%s" is no time', (text) => expect(logTime(text)).toBeNull());

test('a bare number counts what its column says', () => {
  expect(logTime('1500', 1000)?.time_us).toBe(1.5 * s);
});

test('a moment on the clock on the wall', () => {
  expect(onTheClock_us(T0 * s)).toBe(68_647 * s);
  expect(onTheClock_us(-1 * s)).toBe(86_399 * s);
});
