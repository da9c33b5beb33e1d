import { expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { tallyWay } from '../../src/simulate/tally-way.js';

test('tallies are lost and doubled in the shares asked for, within binomial limits', () => {
  const [lost, twice, n] = [0.1, 0.05, 20_000];
  const next = tallyWay({ tallies_lost_share: lost, tallies_twice_share: twice }, () => Stream.root('way'));
  const times = [0, 0, 0];
  for (let i = 0; i < n; i++) times[next()]!++;
  const near = (found: number, share: number) =>
    expect(Math.abs(found - n * share)).toBeLessThan(4 * Math.sqrt(n * share * (1 - share)));
  near(times[0]!, lost);
  near(times[2]!, (1 - lost) * twice);
});

test('a good way asks for no chance at all', () => {
  const next = tallyWay({ tallies_lost_share: 0, tallies_twice_share: 0 }, () => {
    throw new Error('no stream is needed');
  });
  expect([next(), next()]).toEqual([1, 1]);
});
