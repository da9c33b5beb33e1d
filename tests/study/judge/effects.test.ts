/** Effects come back from a response that is known. */
import { expect, test } from 'vitest';
import { effects } from '../../../src/study/judge/effects.js';

/** Each replicate adds the same to all designs: paired, so every difference is exact. */
const noise = [0.3, -0.1, 0.5, -0.7];
function designs(response: (a: number, b: number) => number, crowd: (a: number, b: number) => number = () => 1) {
  return [0, 1, 2].flatMap((a) =>
    [0, 1].map((b) => {
      const value = response(a, b);
      return { levels: [a, b], crowd: crowd(a, b), sample: { value, without: noise.map((one) => value - one / 3) } };
    }),
  );
}

test('steps of factors that only add up, and no interaction', () => {
  const { main, interactions } = effects(
    designs((a, b) => 10 + 2 * a * a + 5 * b),
    [3, 2],
    [true, true],
  );
  expect(
    main.map(({ factor, level, against, designs: n, change }) => [
      factor,
      level,
      against,
      n,
      Math.round(change.value * 1e9) / 1e9,
    ]),
  ).toEqual([
    [0, 1, 0, 2, 2],
    [0, 2, 1, 2, 6],
    [1, 1, 0, 3, 5],
  ]);
  // All replicates move alike: nothing is left of the noise.
  for (const { change } of main) expect(change.high! - change.low!).toBeCloseTo(0, 9);
  for (const { change } of interactions) expect(change.value).toBeCloseTo(0, 9);
});

test('factors that act on each other', () => {
  const { interactions } = effects(
    designs((a, b) => a * b * 3),
    [3, 2],
    [true, true],
  );
  expect(interactions.map(({ change }) => Math.round(change.value * 1e9) / 1e9)).toEqual([3, 3]);
});

test('names are compared with the first one', () => {
  const { main } = effects(
    designs((a) => a * a),
    [3, 2],
    [false, false],
  );
  expect(main.slice(0, 2).map(({ against, change }) => [against, Math.round(change.value * 1e9) / 1e9])).toEqual([
    [0, 1],
    [0, 4],
  ]);
});

test('a combination that was left out costs its pairs alone', () => {
  const some = designs((a, b) => 10 + 2 * a + 5 * b).filter(({ levels }) => levels.join() !== '2,1');
  const { main } = effects(some, [3, 2], [true, true]);
  expect(main.map(({ designs: n, change }) => [n, Math.round(change.value * 1e9) / 1e9])).toEqual([
    [2, 2],
    [1, 2],
    [2, 5],
  ]);
});

test('other crowds make an unpaired, wider interval', () => {
  const { main } = effects(
    designs(
      (a, b) => a + b,
      (a) => a,
    ),
    [3, 2],
    [true, true],
  );
  expect(main[0]!.change.high! - main[0]!.change.low!).toBeGreaterThan(0.5);
  expect(main[2]!.change.high! - main[2]!.change.low!).toBeCloseTo(0, 9);
});
