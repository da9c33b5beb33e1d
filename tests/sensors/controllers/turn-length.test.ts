/** How long a turn takes, worked by hand. */
import { expect, test } from 'vitest';
import { controllerSchema } from '../../../src/sensors/controllers/schema.js';
import { cycle_us, per_round_us, turnLength_us, turnNeeds_us } from '../../../src/sensors/controllers/turn-length.js';

const controller = (settings: object) => controllerSchema.parse({ name: 'hall', ...settings });

test('a character is ten bits: at 9600 Bd 24 of them take 25 ms', () => {
  // 24 characters × 10 bits = 240 bits; 240 / 9600 per second = 0.025 s.
  const slow = controller({ serial_baud: 9600, serial_characters: 24, loop_ms: 0 });
  expect(turnNeeds_us(slow, 1, 0)).toBe(25_000);
  // Two rangers read together write twice as much.
  expect(turnNeeds_us(slow, 2, 0)).toBe(50_000);
});

test('at 115,200 Bd a line of 30 characters takes 2.604 ms', () => {
  // 300 bits / 115,200 per second = 0.002604166… s.
  expect(turnNeeds_us(controller({ serial_characters: 30, loop_ms: 0 }), 1, 0)).toBe(2604);
});

test('reading, loop and serial line come one after another', () => {
  const all = controller({ serial_baud: 9600, serial_characters: 12, loop_ms: 0.4 });
  // 12.5 ms for 120 bits, 0.4 ms for the loop, 23.2 ms until the echo of something 4 m away is back.
  expect(turnNeeds_us(all, 1, 23_200)).toBe(36_100);
});

test('a cycle is kept while the turn fits into it, and stretched when not', () => {
  const sixty = controller({ cycle_ms: 60, loop_ms: 1 });
  expect(turnLength_us(sixty, 1, 0)).toBe(60_000);
  expect(turnLength_us(sixty, 1, 59_000)).toBe(60_000);
  expect(turnLength_us(sixty, 1, 59_001)).toBe(60_001);
  // A serial line of 9600 Bd that takes 50 ms makes a cycle of 30 ms one of 50 ms.
  expect(turnLength_us(controller({ serial_baud: 9600, serial_characters: 48, loop_ms: 0 }), 1, 0)).toBe(50_000);
});

test('the cycle is 30 ms when neither it nor a pause is given', () => {
  expect(cycle_us(controller({}))).toBe(30_000);
  expect(cycle_us(controller({ cycle_ms: 12.5 }))).toBe(12_500);
  expect(cycle_us(controller({ wait_ms: 5 }))).toBeUndefined();
});

test('a pause after the echo makes a turn as long as what is seen is far', () => {
  const pausing = controller({ wait_ms: 10, loop_ms: 0.1 });
  expect(turnLength_us(pausing, 1, 3000)).toBe(13_100);
  expect(turnLength_us(pausing, 1, 38_000)).toBe(48_100);
});

test('time goes on even when nothing takes any', () => {
  expect(turnLength_us(controller({ wait_ms: 0, loop_ms: 0 }), 1, 0)).toBe(1);
});

test('what is done once a round is whole microseconds too', () => {
  expect(per_round_us(controller({}))).toBe(0);
  expect(per_round_us(controller({ per_round_ms: 0.0126 }))).toBe(13);
});
