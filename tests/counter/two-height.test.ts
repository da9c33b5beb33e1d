/** Two pairs in one frame: they vote. */
import { describe, expect, test } from 'vitest';
import { twoHeight } from '../../src/counter/two-height.js';
import { playInstants } from './helpers.js';

const vote = (alone: 'neither' | 'first' | 'second' | 'either' = 'neither') =>
  twoHeight({ agree_ms: 700, alone, timeout_ms: 10_000 });

/** A walk forward of one pair, from a time on: masks of two beams. */
const FORWARD = [1, 3, 2, 0];
const BACKWARD = [2, 3, 1, 0];
type Walk = readonly [pair: 0 | 1, masks: readonly number[], start_ms: number];

/** Walks of both pairs as instants of four beams. */
function together(...walks: readonly Walk[]) {
  const changes = walks
    .flatMap(([pair, masks, start_ms]) => masks.map((mask, i) => ({ pair, mask, ms: start_ms + 100 * i })))
    .sort((a, b) => a.ms - b.ms);
  const levels = [0, 0];
  const byTime = new Map<number, number>();
  for (const { pair, mask, ms } of changes) {
    levels[pair] = mask;
    byTime.set(ms * 1000, levels[0]! | (levels[1]! << 2));
  }
  return [...byTime].map(([time_us, mask]) => ({ time_us, mask }));
}
const said = (logic: ReturnType<typeof vote>, ...walks: readonly Walk[]): string[] =>
  playInstants(logic, together(...walks)).map(([, direction]) => direction);

describe('the vote', () => {
  test('counts one person whom both pairs see, in either order', () => {
    expect(said(vote(), [0, FORWARD, 1000], [1, FORWARD, 1050])).toEqual(['forward']);
    expect(said(vote(), [1, BACKWARD, 1000], [0, BACKWARD, 1250])).toEqual(['backward']);
  });

  test('takes no pair alone at its word unless it is trusted', () => {
    const low: Walk = [0, FORWARD, 1000];
    const high: Walk = [1, FORWARD, 1000];
    expect([said(vote(), low), said(vote(), high)]).toEqual([[], []]);
    expect([said(vote('second'), low), said(vote('second'), high)]).toEqual([[], ['forward']]);
    expect([said(vote('first'), low), said(vote('first'), high)]).toEqual([['forward'], []]);
    expect([said(vote('either'), low), said(vote('either'), high)]).toEqual([['forward'], ['forward']]);
  });

  test('hears a contradiction as nobody, even where a pair is trusted alone', () => {
    expect(said(vote('either'), [0, FORWARD, 1000], [1, BACKWARD, 1050])).toEqual([]);
  });

  test('what comes later than the pairs may be apart is another matter', () => {
    expect(said(vote(), [0, FORWARD, 1000], [1, FORWARD, 2000])).toEqual([]);
    expect(said(vote('either'), [0, FORWARD, 1000], [1, FORWARD, 2000])).toEqual(['forward', 'forward']);
  });

  test('two who come one after the other are two', () => {
    expect(said(vote(), [0, FORWARD, 1000], [1, FORWARD, 1020], [0, FORWARD, 2000], [1, FORWARD, 2020])).toEqual([
      'forward',
      'forward',
    ]);
  });
});
