/** What every logic must be: pure, and the same when A and B and all directions change places. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { firstBroken } from '../../src/counter/first-broken.js';
import { fourLevel } from '../../src/counter/four-level.js';
import { holdOff } from '../../src/counter/hold-off.js';
import { lagAware } from '../../src/counter/lag-aware.js';
import { levelsOf } from '../../src/counter/levels.js';
import type { Logic } from '../../src/counter/logic.js';
import { machineOf } from '../../src/counter/table/machine.js';
import { compileTable } from '../../src/counter/table/compile.js';
import { starterTable } from '../../src/counter/table/starter.js';
import type { Table } from '../../src/counter/table/table.js';
import { instants, playInstants } from './helpers.js';

const LOGICS: [string, Logic][] = [
  ['first-broken', firstBroken({ timeout_ms: 1000 })],
  ['four-level', fourLevel({ timeout_ms: 1000 })],
  ['hold-off', holdOff({ timeout_ms: 1000, hold_off_ms: 400 })],
  ['starter table', machineOf(compileTable(starterTable(), 'starter.yaml').table as Table)],
];

/** Of those that tally only some time after the beams are clear. */
const LATER: [string, Logic][] = [
  ['lag-aware', lagAware({ gap_ms: 300, least_lag_share: 0.1, alike_share: 0.4, timeout_ms: 2000 })],
];

describe.each([...LOGICS, ...LATER])('%s', (_name, logic) => {
  test('is exactly its own mirror image', () => {
    const swapped = [0, 2, 1, 3];
    fc.assert(
      fc.property(instants(), (all) => {
        const mirrored = all.map(({ time_us, mask }) => ({ time_us, mask: swapped[mask] as number }));
        const expected = playInstants(logic, all).map(([time_us, direction]) => [
          time_us,
          direction === 'forward' ? 'backward' : 'forward',
        ]);
        expect(playInstants(logic, mirrored)).toEqual(expected);
      }),
      { seed: 22, numRuns: 1500 },
    );
  });

  test('is pure: the same state and input give the same step, and no state is changed', () => {
    fc.assert(
      fc.property(instants(30), (all) => {
        let state = logic.initial();
        for (const { time_us, mask } of all) {
          const before = JSON.stringify(state);
          const input = { time_us, levels: levelsOf(mask, 2) };
          const once = logic.step(state, input);
          const again = logic.step(state, input);
          expect(again).toEqual(once);
          expect(JSON.stringify(state)).toBe(before);
          state = once.state;
        }
      }),
      { seed: 23, numRuns: 300 },
    );
  });
});

describe.each(LOGICS)('%s, which tallies when both beams are clear', (_name, logic) => {
  test('does not need its wakes: they make timeouts punctual and change nothing else', () => {
    fc.assert(
      fc.property(instants(), (all) => {
        const seen: unknown[] = [];
        let state = logic.initial();
        for (const { time_us, mask } of all) {
          const step = logic.step(state, { time_us, levels: levelsOf(mask, 2) });
          for (const direction of step.tallies) seen.push([time_us, direction]);
          state = step.state;
        }
        expect(seen).toEqual(playInstants(logic, all));
      }),
      { seed: 24, numRuns: 500 },
    );
  });

  test('has a label for every state and a plain word on what defeats it', () => {
    expect(logic.label(logic.initial())).toMatch(/^\w/);
    expect(logic.defeated_by).toMatch(/\.$/);
    expect(logic.beams).toBe(2);
    expect(logic.latency_us).toBe(0);
  });
});
