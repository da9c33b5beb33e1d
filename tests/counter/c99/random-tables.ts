/** Tables at random, as wild as the format allows, and instants that walk through them. */
import fc from 'fast-check';
import { Stream } from '../../../src/engine/stream.js';
import { bitsOf } from '../../../src/counter/levels.js';
import { longestSilence } from '../../../src/counter/table/silence.js';
import { type Table, type TableRule, afterRule } from '../../../src/counter/table/table.js';
import { walksOf } from '../../../src/counter/table/walks.js';
import type { Instant } from '../helpers.js';

const MINUTE_US = 60_000_000;
/** Tables in a hurry, and tables with timeouts up to the longest there is. */
const AFTER_MS = [
  [1.5, 40, 200, 700],
  [1000, 4000, 60_000, 2_000_000],
];

const place = { line: 1, column: 1 };
const tallies = fc.oneof(
  { weight: 3, arbitrary: fc.constant([]) },
  { weight: 2, arbitrary: fc.array(fc.constantFrom('forward' as const, 'backward' as const), { maxLength: 8 }) },
);

/** Tables of 1 to 4 beams and 1 to 12 states; those that tally for ever by timeouts alone are no tables. */
export const randomTable: fc.Arbitrary<Table> = fc
  .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 12 }), fc.constantFrom(...AFTER_MS))
  .chain(([beams, states, all_after_ms]) => {
    const state = fc.integer({ min: 0, max: states - 1 });
    const rule = fc.oneof(
      { weight: 4, arbitrary: fc.record({ go: state, tallies }) },
      { weight: 1, arbitrary: fc.constant(null) },
    );
    const after = fc.option(fc.record({ after_ms: fc.constantFrom(...all_after_ms), go: state, tallies }));
    const one = fc.record({
      rules: fc.array(rule, { minLength: 1 << beams, maxLength: 1 << beams }),
      after,
    });
    return fc.tuple(state, fc.array(one, { minLength: states, maxLength: states })).map(([start, all]): Table => {
      return {
        name: 'random',
        beams: Array.from({ length: beams }, (_, i) => `B${i}`),
        start: `s${start}`,
        defeated_by: null,
        states: all.map(({ rules, after: timeout }, i) => ({
          name: `s${i}`,
          place,
          rules: [
            ...rules.map((move, mask): TableRule => {
              const patterns = [bitsOf(mask, beams)];
              if (move === null) return { kind: 'stay', patterns, place };
              return { kind: 'on', patterns, go: `s${move.go}`, tallies: move.tallies, place };
            }),
            ...(timeout ? [{ ...timeout, kind: 'after' as const, go: `s${timeout.go}`, place }] : []),
          ],
        })),
      };
    });
  })
  .filter((table) => longestSilence(walksOf(table)).endless === null);

/**
 * Instants that change anything, with pauses from one microsecond to half an hour, often exactly as long as a timeout;
 * now and then nothing changes for 80 minutes, but the clock is told of it every 30 at most. Not so with tables in a
 * hurry: their timeouts may go round and round, and millions of them would come due.
 */
export function randomInstants(table: Table, n: number, stream: Stream): Instant[] {
  const timeouts_us = table.states.map((state) => Math.round((afterRule(state)?.after_ms ?? 0.5) * 1000));
  const hurry = timeouts_us.some((timeout) => timeout > 500 && timeout < 1_000_000);
  const most_us = hurry ? 1_000_000 : 30 * MINUTE_US;
  const all: Instant[] = [];
  let time_us = 0;
  let mask = 0;
  for (let i = 0; all.length < n; i++) {
    const draw = (k: number): number => stream.at(4 * i + k);
    const kind = draw(0);
    const timeout_us = timeouts_us[Math.floor(draw(1) * timeouts_us.length)] as number;
    if (kind < 0.002 && !hurry) {
      for (const minutes of [30, 30, 20]) all.push({ time_us: (time_us += minutes * MINUTE_US), mask });
      continue;
    }
    const gap_us =
      kind < 0.8
        ? Math.ceil(draw(1) * 300_000)
        : kind < 0.97
          ? Math.min(most_us, timeout_us)
          : Math.ceil(draw(2) * Math.min(most_us, 2 * timeout_us));
    const which = Math.floor(draw(3) * (table.beams.length + 2));
    const beams = table.beams.length;
    // One beam changes, or any of them, or none.
    if (which < beams) mask ^= 1 << which;
    else if (which === beams) mask = Math.floor(draw(2) * (1 << beams));
    all.push({ time_us: (time_us += gap_us), mask });
  }
  return all;
}
