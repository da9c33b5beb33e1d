import { describe, expect, test } from 'vitest';
import { firstBroken } from '../../src/counter/first-broken.js';
import { holdOff } from '../../src/counter/hold-off.js';
import { playBits, playInstants } from './helpers.js';

describe('first-broken order', () => {
  const logic = firstBroken({ timeout_ms: 1000 });

  test.each([
    ['00-10-11-01-00', ['forward'], 'through'],
    ['00-01-11-10-00', ['backward'], 'back'],
    ['00-10-00-01-00', ['forward'], 'a body shallower than the spacing is counted'],
    ['00-10-11-10-00', ['forward'], 'turning back is counted too: its weakness'],
    ['00-10-00-01-11-10-00', ['forward'], 'one who touched A gives the next his direction: its weakness'],
    ['00-10-01-00', ['forward'], 'an edge lost does no harm'],
    ['00-11-01-00', [], 'both at once: no order'],
    ['00-10-00-10-00', [], 'B was never broken'],
  ])('%s gives %j: %s', (sequence, tallies) => {
    expect(playBits(logic, sequence)).toEqual(tallies);
  });

  test('gives up after the timeout: at rest if the beams are clear, else when they are', () => {
    expect(playBits(logic, '10-00-01-00', 1_000_000)).toEqual([]);
    expect(playBits(logic, '10-00-01-00', 999_999)).toEqual(['forward']);
    // Stood in A too long: what follows is not counted until both are clear.
    expect(
      playInstants(logic, [
        { time_us: 0, mask: 1 },
        { time_us: 3_000_000, mask: 3 },
        { time_us: 3_100_000, mask: 2 },
        { time_us: 3_200_000, mask: 0 },
        { time_us: 3_300_000, mask: 2 },
        { time_us: 3_400_000, mask: 1 },
        { time_us: 3_500_000, mask: 0 },
      ]),
    ).toEqual([[3_500_000, 'backward']]);
  });
});

describe('the hold-off', () => {
  const logic = holdOff({ timeout_ms: 1000, hold_off_ms: 400 });
  const walk = (at: number) => [1, 3, 2, 0].map((mask, i) => ({ time_us: at + i * 50_000, mask }));

  test('a trailing leg within it is not counted, the next person after it is', () => {
    expect(playInstants(logic, [...walk(0), ...walk(200_000), ...walk(900_000)])).toEqual([
      [150_000, 'forward'],
      [1_050_000, 'forward'],
    ]);
  });

  test('ends on time: a body that comes at its very end is counted', () => {
    expect(playInstants(logic, [...walk(0), ...walk(550_000)])).toHaveLength(2);
    expect(playInstants(logic, [...walk(0), ...walk(549_999)])).toHaveLength(1);
  });

  test('whoever is in the beams at its end is not counted, the next one is', () => {
    expect(playInstants(logic, [...walk(0), ...walk(500_000), ...walk(800_000)])).toEqual([
      [150_000, 'forward'],
      [950_000, 'forward'],
    ]);
  });
});
