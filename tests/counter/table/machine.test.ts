/** What docs/tables.md promises of rules and timers. */
import { describe, expect, test } from 'vitest';
import { readFileSync } from 'node:fs';
import type { Logic } from '../../../src/counter/logic.js';
import { compileTable } from '../../../src/counter/table/compile.js';
import { playBits, playInstants } from '../helpers.js';

function compiled(text: string): Logic {
  const { logic, issues } = compileTable(text, 'test.yaml');
  expect(issues).toEqual([]);
  return logic as Logic;
}

/** Tallies when the door has been busy for a second, counted from entering or from the last change. */
function busyTable(rule: string): string {
  return `format: 1
name: busy
beams: [A, B]
start: rest
states:
  rest:
    - { stay: "00" }
    - { on: other, go: busy }
  busy:
    - { on: "00", go: rest }
    - ${rule}
    - { after_ms: 1000, go: wait, tally: forward }
  wait:
    - { on: "00", go: rest }
    - { stay: other }
`;
}
const flutter = [1, 3, 1, 3, 2, 0].map((mask, i) => ({ time_us: 100_000 + i * 300_000, mask }));

describe('timers', () => {
  test('run on while the state stays', () => {
    expect(playInstants(compiled(busyTable('{ stay: other }')), flutter)).toEqual([[1_100_000, 'forward']]);
  });

  test('start again when the state is entered again', () => {
    expect(playInstants(compiled(busyTable('{ on: other, go: busy }')), flutter)).toEqual([]);
    const stands = flutter.slice(0, 2);
    expect(playInstants(compiled(busyTable('{ on: other, go: busy }')), stands)).toEqual([[1_400_000, 'forward']]);
  });

  test('go before a change at the same instant', () => {
    const logic = compiled(busyTable('{ stay: other }'));
    const leaves = (after_us: number) => [
      { time_us: 0, mask: 1 },
      { time_us: after_us, mask: 0 },
    ];
    expect(playInstants(logic, leaves(999_999))).toEqual([]);
    expect(playInstants(logic, leaves(1_000_000))).toEqual([[1_000_000, 'forward']]);
  });

  test('say how late a tally can come', () => {
    expect(compiled(busyTable('{ stay: other }')).latency_us).toBe(1_000_000);
  });
});

describe('rules', () => {
  test('x is either level, other is the rest, a rule may tally several', () => {
    const logic = compiled(`format: 1
name: two heights
beams: [low, high, far]
start: rest
states:
  rest:
    - { on: "11x", go: tall }
    - { stay: other }
  tall:
    - { on: "001", go: rest, tally: [forward, forward] }
    - { on: "000", go: rest, tally: backward }
    - { stay: other }
`);
    expect(logic.beams).toBe(3);
    expect(playBits(logic, '100-111-011-001-000')).toEqual(['forward', 'forward']);
    expect(playBits(logic, '100-110-100-000')).toEqual(['backward']);
  });

  test('the example of the documentation compiles and counts', () => {
    const page = readFileSync(new URL('../../../docs/tables.md', import.meta.url), 'utf8');
    const example = /```yaml\n([\s\S]*?)```/.exec(page)?.[1] ?? '';
    const logic = compiled(example);
    expect(playBits(logic, '00-10-11-01-00-01-11-10-00')).toEqual(['forward']);
  });
});
