/**
 * The four-level walk against the published decoding of two channels in quadrature.
 *
 * Sources: the 16-row table of steps is the standard one, as in M. VandeWettering, "Decoding a Quadrature Encoder Just
 * Isn't That Difficult" (2011); its sign is mirrored here, where the first bit is the beam met first going forward.
 * The sums of the sequences below were worked out from that table by hand.
 */
import { describe, expect, test } from 'vitest';
import { EDGE_LOST, QUARTER_STEPS, fourLevel } from '../../src/counter/four-level.js';
import { maskFromBits, playBits } from '../counter/helpers.js';

const PUBLISHED: readonly [from: string, to: string, step: number | 'error'][] = [
  ['00', '00', 0],
  ['00', '10', +1],
  ['00', '11', 'error'],
  ['00', '01', -1],
  ['10', '00', -1],
  ['10', '10', 0],
  ['10', '11', +1],
  ['10', '01', 'error'],
  ['11', '00', 'error'],
  ['11', '10', -1],
  ['11', '11', 0],
  ['11', '01', +1],
  ['01', '00', +1],
  ['01', '10', 'error'],
  ['01', '11', -1],
  ['01', '01', 0],
];

function quarterStep(from: string, to: string): number {
  return QUARTER_STEPS[4 * maskFromBits(from) + maskFromBits(to)] as number;
}

describe('the 16 transitions of two channels in quadrature', () => {
  test.each(PUBLISHED)('%s to %s is %s', (from, to, step) => {
    expect(quarterStep(from, to)).toBe(step === 'error' ? EDGE_LOST : step);
  });

  test('are 4 that stay, 4 forward, 4 backward and 4 errors', () => {
    const count = (step: number): number => QUARTER_STEPS.filter((one) => one === step).length;
    expect([count(0), count(1), count(-1), count(EDGE_LOST)]).toEqual([4, 4, 4, 4]);
  });
});

/** Sum of quarter steps, errors counted apart; and what the walk makes of it. */
const SEQUENCES: readonly [sequence: string, sum: number, errors: number, meaning: string, tallies: string[]][] = [
  ['00-10-11-01-00', 4, 0, 'in', ['forward']],
  ['00-01-11-10-00', -4, 0, 'out', ['backward']],
  ['00-10-00', 0, 0, 'turned back at once', []],
  ['00-10-11-10-00', 0, 0, 'turned back half-way', []],
  ['00-10-11-01-11-10-00', 0, 0, 'turned back at the end', []],
  ['00-10-11-01-11-01-00', 4, 0, 'hesitated, still in', ['forward']],
  ['00-11-01-00', 2, 1, 'one edge lost', []],
  ['00-10-01-00', 2, 1, 'one edge lost', []],
  ['00-11-00', 0, 2, 'both edges lost', []],
  // One walk from both-clear to both-clear: the second body is lost, the first is counted.
  ['00-10-11-01-10-11-01-00', 6, 1, 'second body enters as the first leaves', ['forward']],
  ['00-10-00-01-00', 0, 0, 'body thinner than the spacing', []],
];

describe('sequences of the reference', () => {
  test.each(SEQUENCES)('%s sums to %i with %i errors: %s', (sequence, sum, errors, _meaning, tallies) => {
    const patterns = sequence.split('-');
    const steps = patterns.slice(1).map((to, i) => quarterStep(patterns[i] as string, to));
    const good = steps.filter((step) => step !== EDGE_LOST);
    // An error adds nothing: nobody knows which way it went.
    expect(good.reduce((total, step) => total + step, 0)).toBe(sum);
    expect(steps.length - good.length).toBe(errors);
    expect(playBits(fourLevel({ timeout_ms: 10_000 }), sequence)).toEqual(tallies);
  });
});
