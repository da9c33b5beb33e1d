/** The shipped tables are the built-in logics, and the starter's is the four-level walk: equal on random inputs. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { firstBroken } from '../../../src/counter/first-broken.js';
import { fourLevel } from '../../../src/counter/four-level.js';
import { holdOff } from '../../../src/counter/hold-off.js';
import type { Logic } from '../../../src/counter/logic.js';
import { compileTable } from '../../../src/counter/table/compile.js';
import { starterTable } from '../../../src/counter/table/starter.js';
import { Stream } from '../../../src/engine/stream.js';
import { type Instant, playInstants } from '../helpers.js';
import { howMany } from '../../how-many.js';

const INPUTS = howMany(150_000, 2_000_000, 5_000);

const shipped = (name: string): string =>
  readFileSync(new URL(`../../../scenarios/tables/${name}.yaml`, import.meta.url), 'utf8');

/**
 * Mostly changes of one beam as bodies make them, some of both at once, pauses from milliseconds to beyond every
 * timeout, and often exactly as long as one: the walks reach every state and every timeout many times.
 */
function randomInstants(stream: Stream, n: number, timeouts_ms: readonly number[]): Instant[] {
  let time_us = 0;
  let mask = 0;
  return Array.from({ length: n }, (_, i) => {
    const draw = (k: number): number => stream.at(4 * i + k);
    const kind = draw(0);
    const pause = timeouts_ms[Math.floor(draw(1) * timeouts_ms.length)] as number;
    const gap_us =
      kind < 0.8 ? Math.ceil(draw(1) * 300_000) : kind < 0.9 ? pause * 1000 : Math.ceil(draw(2) * 12_000_000);
    time_us += gap_us;
    const which = draw(3);
    mask = which < 0.45 ? mask ^ 1 : which < 0.9 ? mask ^ 2 : which < 0.97 ? mask ^ 3 : mask;
    return { time_us, mask };
  });
}

describe.each([
  ['first-broken', firstBroken({ timeout_ms: 4000 }), shipped('first-broken')],
  ['four-level', fourLevel({ timeout_ms: 10_000 }), shipped('four-level')],
  ['hold-off', holdOff({ timeout_ms: 4000, hold_off_ms: 600 }), shipped('hold-off')],
  ['four-level', fourLevel({ timeout_ms: 10_000 }), starterTable()],
])('%s', (name, code, text) => {
  test(`as code and as a table tally alike on ${INPUTS} random inputs`, () => {
    const { logic, issues } = compileTable(text, `${name}.yaml`, name);
    expect(issues).toEqual([]);
    const all = randomInstants(Stream.root('tables').child(name), INPUTS, [600, 4000, 10_000]);
    const expected = playInstants(code, all);
    expect(expected.length).toBeGreaterThan(INPUTS / 100);
    expect(playInstants(logic as Logic, all)).toEqual(expected);
    expect(logic?.latency_us).toBe(code.latency_us);
    if (text !== starterTable()) expect(logic?.defeated_by).toBe(code.defeated_by);
  });
});
