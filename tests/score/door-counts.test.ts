import { expect, test } from 'vitest';
import type { Tally } from './builders.js';
import { judge, visit } from './builders.js';

/** People one by one, every three seconds, each with the given numbers of forward tallies. */
function walk(tallies: readonly number[], persons = 1) {
  const visits = tallies.map((_, i) => visit({ number: i + 1, body: i + 1, enter_us: i * 3_000_000, persons }));
  const said = tallies.flatMap((count, i) =>
    Array.from({ length: count }, (): Tally => [i * 3_000_000 + 1_000_000, 'forward']),
  );
  return judge(visits, said);
}

test('a window of drift holds 100 crossings; what is left over at the end is no window', () => {
  const errors = Array.from({ length: 250 }, (_, i) => (i < 100 ? (i < 3 ? 2 : 1) : i < 105 ? 0 : 1));
  expect(walk(errors).windows).toEqual({ n: 2, sum: 3 - 5, sum_sq: 9 + 25 });
});

test('a window ends with the visit that fills it, though that carries two', () => {
  expect(walk([...Array.from({ length: 49 }, () => 2), 1, 2], 2).windows).toEqual({ n: 1, sum: -1, sum_sq: 1 });
});

test('tallies of nobody belong to the window they fall in', () => {
  const visits = Array.from({ length: 100 }, (_, i) => visit({ number: i + 1, enter_us: i * 9_000_000 }));
  const tallies = visits.flatMap((v, i): Tally[] => [
    [v.enter_us + 1_000_000, 'forward'],
    ...(i === 40 ? ([[v.enter_us + 5_000_000, 'backward']] as const) : []),
  ]);
  expect(judge(visits, tallies).windows).toEqual({ n: 1, sum: -1, sum_sq: 1 });
});

test('statures fall in bands of 0.1 m that include their lower end', () => {
  const statures = [0.7, 0.79, 1.1, 1.7, 1.799, 1.8, 1.9];
  const counts = judge(
    statures.map((stature_m, i) => visit({ number: i + 1, stature_m, enter_us: i * 9_000_000 })),
    [],
  );
  expect(counts.statures.map(({ band, visits }) => [band, visits])).toEqual([
    [7, 2],
    [11, 1],
    [17, 2],
    [18, 1],
    [19, 1],
  ]);
});

test('counts are plain data: what a worker hands over is what it had', () => {
  const counts = walk([1, 0, 2]);
  expect(structuredClone(counts)).toEqual(counts);
  expect(JSON.parse(JSON.stringify(counts))).toEqual(counts);
});
