/**
 * The machine in C tallies as the machine here does: the same people at the same microsecond, on random tables and on
 * the built-in ones, with timeouts to the instant, changes at that very instant, and a clock that wraps.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MACHINE_SOURCE, MACHINE_TYPES } from '../../../src/counter/c99/machine.js';
import { tableBytes, tableData } from '../../../src/counter/c99/table-data.js';
import { type HostHooks, LogicHost } from '../../../src/counter/host.js';
import { logicSchema } from '../../../src/counter/schema.js';
import { tableOf } from '../../../src/counter/table-of.js';
import { machineOf } from '../../../src/counter/table/machine.js';
import type { Table } from '../../../src/counter/table/table.js';
import { Stream } from '../../../src/engine/stream.js';
import { NO_COMPILERS, compile, folderOf, play } from '../../c-compilers.js';
import type { Instant } from '../helpers.js';
import { randomInstants, randomTable } from './random-tables.js';
import { LONG } from '../../how-many.js';

const WRAP = 4_294_967_296;
/** So that the clock wraps after ten seconds, and again every 71.6 minutes. */
const START = WRAP - 10_000_000;

/**
 * Reads `t TABLE TIME` (begin) and `i TIME LEVELS` (an instant), prints `TIME FORWARD BACKWARD`. One counter is called at
 * every timeout, as one that sleeps until then; another only when something happens. What both counted in the end: `= …`.
 */
function driver(tables: readonly Table[]): string {
  const names = tables.map((_, i) => `table_${i}`);
  return `#include <stdint.h>
#include <stdio.h>
#define DOOR_NEVER 0xffffffffUL
${MACHINE_TYPES}${MACHINE_SOURCE}
${tables.map((table, i) => tableData(table, names[i]!)).join('\n')}
static const door_table *const tables[] = {${names.map((name) => `&${name}`).join(', ')}};

static unsigned long long punctual[2], late[2];

static void step(const door_table *table, door_moment *moment, uint32_t now_us, uint8_t levels, int told)
{
    door_tallies sum = {0, 0};
    step_table(table, moment, now_us, levels, &sum);
    if (!told) {
        late[0] += sum.forward;
        late[1] += sum.backward;
    } else if (sum.forward || sum.backward) {
        punctual[0] += sum.forward;
        punctual[1] += sum.backward;
        printf("%lu %u %u\\n", (unsigned long)now_us, sum.forward, sum.backward);
    }
}

int main(void)
{
    door_moment woken = {0, 0, 0}, busy = {0, 0, 0};
    const door_table *table = tables[0];
    uint32_t now_us = 0;
    char what;
    unsigned long a, b;
    while (scanf(" %c %lu %lu", &what, &a, &b) == 3) {
        if (what == 't') {
            table = tables[a];
            now_us = (uint32_t)b;
            start_table(table, &woken, now_us);
            start_table(table, &busy, now_us);
        } else {
            uint32_t wait_us;
            while ((wait_us = table_wait_us(table, &woken, now_us)) < (uint32_t)a - now_us) {
                now_us += wait_us;
                step(table, &woken, now_us, woken.levels, 1);
            }
            now_us = (uint32_t)a;
            step(table, &woken, now_us, (uint8_t)b, 1);
            step(table, &busy, now_us, (uint8_t)b, 0);
        }
    }
    printf("= %llu %llu %llu %llu\\n", punctual[0], punctual[1], late[0], late[1]);
    return 0;
}
`;
}

interface Played {
  readonly table: Table;
  readonly instants: readonly Instant[];
}

function input(played: readonly Played[]): string {
  return played
    .map(({ instants }, i) => {
      const told = instants.map(({ time_us, mask }) => `i ${(START + time_us) % WRAP} ${mask}\n`);
      return `t ${i} ${START}\n${told.join('')}`;
    })
    .join('');
}

function expected(played: readonly Played[]): string[] {
  const lines: string[] = [];
  const all = [0, 0];
  for (const { table, instants } of played) {
    let at = Number.NaN;
    let sum = [0, 0] as [number, number];
    const tell = (): void => {
      if (sum[0] + sum[1] > 0) lines.push(`${(START + at) % WRAP} ${sum[0]} ${sum[1]}`);
      sum = [0, 0];
    };
    const logic = machineOf(table);
    const hooks: HostHooks = {
      onTally: (time_us, direction) => {
        if (time_us !== at) tell();
        at = time_us;
        const which = direction === 'forward' ? 0 : 1;
        sum[which]++;
        all[which]!++;
      },
    };
    let host = new LogicHost(logic, hooks);
    host.inputMask(0, 0);
    for (const [i, { time_us, mask }] of instants.entries()) {
      host.inputMask(time_us, mask);
      // Up to eight tallies at once are no fault here: the host begins to count them anew.
      if (i % 16 === 15) host = new LogicHost(logic, hooks, host.snapshot());
    }
    tell();
  }
  return [...lines, `= ${all[0]} ${all[1]} ${all[0]} ${all[1]}`];
}

function compare(compiler: 'gcc' | 'clang', played: readonly Played[]): string[] {
  const folder = folderOf({ 'machine.c': driver(played.map(({ table }) => table)) });
  const program = compile(compiler, folder, ['machine.c'], ['-O1', '-Wconversion', '-Wshadow']);
  const { lines, status } = play(program, [], input(played));
  const wanted = expected(played);
  expect({ status, same: lines.join() === wanted.join() || { lines, wanted } }).toEqual({ status: 0, same: true });
  return wanted;
}

describe.skipIf(NO_COMPILERS)('the machine in C', () => {
  const TABLES = LONG ? 600 : 80;
  const PER_PROGRAM = 20;
  const PER_TABLE = LONG ? 10_000 : 4000;
  const tables = fc.sample(randomTable, { numRuns: TABLES, seed: 41 });
  const programs = Array.from({ length: TABLES / PER_PROGRAM }, (_, p) => p);

  test.each(programs)(`${PER_PROGRAM} random tables, ${PER_TABLE} instants each: program %i`, (p) => {
    const stream = Stream.root('c99').nth(p);
    const played = tables
      .slice(p * PER_PROGRAM, (p + 1) * PER_PROGRAM)
      .map((table, i) => ({ table, instants: randomInstants(table, PER_TABLE, stream.nth(i)) }));
    const told = compare(p % 2 === 0 ? 'gcc' : 'clang', played);
    expect(told.length).toBeGreaterThan(PER_PROGRAM * 100);
  });

  test('the built-in logics as tables, with timeouts of the scenario', () => {
    const played = [
      { use: 'first-broken' },
      { use: 'first-broken', timeout_ms: 2_000_000 },
      { use: 'four-level' },
      { use: 'four-level', timeout_ms: 333.333 },
      { use: 'hold-off' },
      { use: 'hold-off', timeout_ms: 1, hold_off_ms: 100_000 },
    ].map((choice, i) => {
      const table = tableOf(logicSchema.parse(choice), {})!;
      return { table, instants: randomInstants(table, LONG ? 300_000 : 30_000, Stream.root('built-in').nth(i)) };
    });
    for (const compiler of ['gcc', 'clang'] as const) compare(compiler, played);
  });

  test('one table of the largest size there is', () => {
    const beams = 8;
    const masks = Array.from({ length: 256 }, (_, mask) => mask);
    const table: Table = {
      name: 'large',
      beams: masks.slice(0, beams).map((i) => `B${i}`),
      start: 's0',
      defeated_by: null,
      states: Array.from({ length: 200 }, (_, s) => ({
        name: `s${s}`,
        place: { line: 1, column: 1 },
        rules: masks.map((mask) => ({
          kind: 'on' as const,
          patterns: [Array.from({ length: beams }, (_b, i) => (mask >> i) & 1).join('')],
          go: `s${(7 * s + mask) % 200}`,
          tallies: (s + mask) % 5 === 0 ? (['forward'] as const) : [],
          place: { line: 1, column: 1 },
        })),
      })),
    };
    expect(tableBytes(table)).toBe(200 * (512 + 6));
    compare('gcc', [{ table, instants: randomInstants(table, 20_000, Stream.root('large')) }]);
  });
});
