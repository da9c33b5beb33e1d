import { expect, test } from 'vitest';
import type { MixEntry } from '../../src/agents/schema.js';
import { byAssumedShare } from '../../src/score/by-share.js';
import { ratioEstimate } from '../../src/score/estimates.js';
import { type Tally, judge, visit } from './builders.js';

const mix: readonly MixEntry[] = [
  { who: 'adult', kind: 'through', share: 0.6 },
  { who: 'child', kind: 'through', share: 0.2 },
  { who: 'adult', kind: 'turn-back', share: 0.2 },
];

/** A replicate of 100 parties in the shares of the mix; the first ones of each entry go wrong by one tally. */
function replicate(wrongAdults: number, wrongChildren: number, wrongTurns: number, ofNobody: number) {
  const party = (i: number) => (i < 60 ? 0 : i < 80 ? 1 : 2);
  const wrong = (i: number) => [i < wrongAdults, i - 60 < wrongChildren, i - 80 < wrongTurns][party(i)]!;
  const visits = Array.from({ length: 100 }, (_, i) => {
    const entry = party(i);
    const { who, kind } = mix[entry]!;
    const enter_us = i * 10_000_000;
    return visit({
      number: i + 1,
      body: i + 1,
      who,
      kind,
      entry,
      enter_us,
      ...(kind === 'turn-back' ? { cross_us: null } : {}),
    });
  });
  const tallies = visits.flatMap((v, i): Tally[] => {
    // A crossing gone wrong is missed, a turn-back gone wrong is counted.
    const said: Tally[] = wrong(i) === (v.cross_us === null) ? [[v.enter_us + 1_000_000, 'forward']] : [];
    return i < ofNobody ? [...said, [v.enter_us + 5_000_000, 'backward']] : said;
  });
  return judge(visits, tallies);
}

test('an entry at half or double its share weighs so, and the other through entries take the rest', () => {
  const rows = byAssumedShare(mix, [replicate(6, 10, 8, 4)]);
  // Crossings 80; wrong: adults 6, children 10, turn-backs 8, nobody 4 (0.05 a crossing).
  // Turn-backs at half: through has 0.9 for 0.8, so (0.5·8 + 1.125·16)/(1.125·80) + 0.05.
  expect(rows[2]!.half.value).toBeCloseTo(100 * (22 / 90 + 0.05), 10);
  // At double: through has 0.6 for 0.8, so (2·8 + 0.75·16)/(0.75·80) + 0.05.
  expect(rows[2]!.double.value).toBeCloseTo(100 * (28 / 60 + 0.05), 10);
  // Children at double: adults have 0.4 for 0.6, so (8 + 2·10 + 6·2/3)/(40 + 40) + 0.05.
  expect(rows[1]!.double.value).toBeCloseTo(100 * (32 / 80 + 0.05), 10);
  // Adults at double would be 1.2 of all parties.
  expect(rows[0]!.double).toMatchObject({ value: null, method: 'none' });
  expect(rows[0]!.double.reason).toMatch(/make room/);
});

test('the interval is that of the run reweighted by hand', () => {
  const replicates = [replicate(6, 10, 8, 0), replicate(2, 5, 12, 0), replicate(3, 9, 4, 0)];
  const half = byAssumedShare(mix, replicates)[2]!.half;
  const byHand = ratioEstimate([0.5 * 8 + 1.125 * 16, 0.5 * 12 + 1.125 * 7, 0.5 * 4 + 1.125 * 12], [90, 90, 90], {
    scale: 100,
    nothing: 'no crossings',
  });
  expect(half.low).toBeCloseTo(byHand.low!, 10);
  expect(half.high).toBeCloseTo(byHand.high!, 10);
  expect(half.n).toBe(240);
});

test('a run without any error has the Poisson bound at every share, one replicate no interval', () => {
  expect(byAssumedShare(mix, [replicate(0, 0, 0, 0)])[2]!.half.method).toBe('poisson-zero');
  expect(byAssumedShare(mix, [replicate(1, 0, 0, 0)])[2]!.half).toMatchObject({ low: null, method: 'none' });
});

test('where no other through entry takes the rest there is no answer, and it says why', () => {
  const alone = byAssumedShare([{ who: 'adult', kind: 'through', share: 1 }], [replicate(1, 0, 0, 0)]);
  expect(alone[0]!.half.reason).toMatch(/no other through entry/);
});
