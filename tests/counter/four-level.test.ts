import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EDGE_LOST, QUARTER_STEPS, fourLevel } from '../../src/counter/four-level.js';
import { type Instant, instants, playBits, playInstants } from './helpers.js';

const walk = fourLevel({ timeout_ms: 1000 });

describe('one walk', () => {
  test.each([
    ['00-10-11-10-11-01-11-01-00', ['forward']],
    ['00-01-11-01-11-10-11-10-00', ['backward']],
    ['00-10-11-01-11-10-11-01-00', ['forward']],
    ['00-10-11-01-00-01-11-10-00', ['forward', 'backward']],
    ['00-01-00-10-00', []],
  ])('%s gives %j', (sequence, tallies) => {
    expect(playBits(walk, sequence)).toEqual(tallies);
  });

  test('several rods that overlap are one episode and one tally', () => {
    expect(playBits(walk, '00-10-11-01-11-10-11-01-11-10-11-01-00')).toEqual(['forward']);
    // Rods exactly a spacing apart: B clears as A breaks.
    expect(playBits(walk, '00-10-11-01-10-11-01-10-11-01-00')).toEqual(['forward']);
    expect(playBits(walk, '00-01-11-10-01-11-10-00')).toEqual(['backward']);
  });
});

describe('an edge lost', () => {
  test.each([
    ['00-11-01-00', 'both broken at once: from either side'],
    ['00-11-10-00', 'the mirror'],
    ['00-10-01-00', 'never both broken'],
    ['00-01-10-00', 'the mirror'],
    ['00-10-11-00', 'both cleared at once: through or back'],
    ['00-10-11-10-01-00', 'an exchange near the entry: through or back'],
  ])('%s is not counted (%s)', (sequence) => {
    expect(playBits(walk, sequence)).toEqual([]);
  });

  test('and the walk after it is counted again', () => {
    expect(playBits(walk, '00-11-01-00-10-11-01-00')).toEqual(['forward']);
    expect(playBits(walk, '00-10-11-00-01-11-10-00')).toEqual(['backward']);
  });
});

describe('the timeout', () => {
  const play = (gap_us: number) =>
    playInstants(walk, [
      { time_us: 0, mask: 1 },
      { time_us: 100_000, mask: 3 },
      { time_us: 100_000 + gap_us, mask: 2 },
      { time_us: 200_000 + gap_us, mask: 0 },
      { time_us: 10_000_000, mask: 1 },
      { time_us: 10_100_000, mask: 3 },
      { time_us: 10_200_000, mask: 2 },
      { time_us: 10_300_000, mask: 0 },
    ]);

  test('forgets a body that stood still that long, and counts the next', () => {
    expect(play(999_999)).toEqual([
      [1_199_999, 'forward'],
      [10_300_000, 'forward'],
    ]);
    expect(play(1_000_000)).toEqual([[10_300_000, 'forward']]);
  });

  test('counts from the last change, not from instants that change nothing', () => {
    const waiting: Instant[] = Array.from({ length: 9 }, (_, i) => ({ time_us: (i + 1) * 200_000, mask: 1 }));
    const rest = [3, 2, 0].map((mask, i) => ({ time_us: 2_000_000 + i * 1000, mask }));
    expect(playInstants(walk, [...waiting, ...rest])).toEqual([]);
  });
});

test('no tally unless both beams were broken together since both were clear, and at most one before they are again', () => {
  fc.assert(
    fc.property(instants(), (all) => {
      const tallies = playInstants(walk, all);
      let together = false;
      let expected = 0;
      for (const { time_us, mask } of all) {
        const here = tallies.filter(([time]) => time === time_us);
        if (here.length > 0) {
          expect(mask).toBe(0);
          expect(together).toBe(true);
          expect(here).toHaveLength(1);
          expected++;
        }
        together = mask !== 0 && (together || mask === 3);
      }
      expect(tallies).toHaveLength(expected);
    }),
    { seed: 20, numRuns: 2000 },
  );
});

/** Rods as intervals at A; at B the same, one spacing later. Times in microseconds. */
function rodEdges(starts: readonly number[], depth_us: number, spacing_us: number): Instant[] {
  const broken = (beam: number, time: number): boolean =>
    starts.some((start) => time >= start + beam * spacing_us && time < start + beam * spacing_us + depth_us);
  const times = starts.flatMap((s) => [s, s + depth_us, s + spacing_us, s + spacing_us + depth_us]);
  const sorted = [...new Set(times)].toSorted((a, b) => a - b);
  return sorted.map((time_us) => ({ time_us, mask: (broken(0, time_us) ? 1 : 0) | (broken(1, time_us) ? 2 : 0) }));
}

test('rods of one speed, however they overlap: one tally an episode if deeper than the spacing, none if shallower', () => {
  const starts = fc.array(
    fc.integer({ min: 1, max: 400 }).map((n) => n * 1000),
    { minLength: 1, maxLength: 25 },
  );
  fc.assert(
    fc.property(starts, fc.integer({ min: 5, max: 60 }), fc.integer({ min: 1, max: 60 }), (at, depth, spacing) => {
      fc.pre(depth !== spacing);
      const edges = rodEdges(at, depth * 1000, spacing * 1000);
      const episodes = edges.filter(({ mask }) => mask === 0).length;
      const long = fourLevel({ timeout_ms: 60_000 });
      const tallies = playInstants(long, edges).map(([, direction]) => direction);
      if (depth > spacing) expect(tallies).toEqual(Array.from({ length: episodes }, () => 'forward'));
      else if (at.length === 1) expect(tallies).toEqual([]);
    }),
    { seed: 21, numRuns: 2000 },
  );
});

describe('the decoding table of two channels in quadrature', () => {
  // All 16 pairs of what was and what is, as in M. VandeWettering, "Decoding a Quadrature Encoder Just Isn't That Difficult",
  // 2011, its sign mirrored: +1 is a quarter step from A to B, 2 an error (both bits change and the direction is lost).
  const TABLE: Readonly<Record<string, readonly number[]>> = {
    //     00  10  11  01
    '00': [0, 1, 2, -1],
    '10': [-1, 0, 1, 2],
    '11': [2, -1, 0, 1],
    '01': [1, 2, -1, 0],
  };
  const PATTERNS = ['00', '10', '11', '01'];
  const maskOfBits = (bits: string): number => Number(bits[0]) + 2 * Number(bits[1]);

  test.each(PATTERNS.flatMap((from) => PATTERNS.map((to, i) => [from, to, TABLE[from]![i]!] as const)))(
    'from %s to %s is %i',
    (from, to, expected) => {
      const step = QUARTER_STEPS[4 * maskOfBits(from) + maskOfBits(to)];
      expect(step).toBe(expected === 2 ? EDGE_LOST : expected);
    },
  );
});
