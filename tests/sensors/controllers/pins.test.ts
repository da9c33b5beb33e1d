/** Pins and inputs that sensors take on one controller. Common practice, no source. */
import { expect, test } from 'vitest';
import { pinsOf } from '../../../src/sensors/controllers/pins.js';

test('each kind takes its own', () => {
  expect(pinsOf([])).toEqual({ digital: 0, analogue: 0 });
  expect(pinsOf(['light-barrier', 'light-barrier'])).toEqual({ digital: 2, analogue: 0 });
  expect(pinsOf(['ultrasonic-ranger', 'ultrasonic-ranger'])).toEqual({ digital: 4, analogue: 0 });
  expect(pinsOf(['triangulation-ranger', 'triangulation-ranger'])).toEqual({ digital: 0, analogue: 2 });
});

test('a bus is shared: its two lines count once, the line that wakes each sensor every time', () => {
  expect(pinsOf(['time-of-flight-ranger'])).toEqual({ digital: 3, analogue: 0 });
  expect(pinsOf(Array.from({ length: 6 }, () => 'time-of-flight-ranger' as const))).toEqual({
    digital: 8,
    analogue: 0,
  });
});

test('kinds together take what each of them takes', () => {
  expect(
    pinsOf([
      'time-of-flight-ranger',
      'light-barrier',
      'triangulation-ranger',
      'ultrasonic-ranger',
      'time-of-flight-ranger',
    ]),
  ).toEqual({ digital: 2 + 2 + 1 + 2, analogue: 1 });
});
