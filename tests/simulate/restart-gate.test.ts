import { describe, expect, test } from 'vitest';
import { RestartGate } from '../../src/simulate/restart-gate.js';

/** A gate with restarts at given times, and what comes through it. */
function gateAt(...times: [number, number][]): { gate: RestartGate; heard: string[] } {
  const heard: string[] = [];
  const left = [...times, [Infinity, Infinity] as [number, number]];
  const restarts = {
    get start_us() {
      return left[0]![0];
    },
    get end_us() {
      return left[0]![1];
    },
    next: () => left.shift(),
  };
  const gate = new RestartGate(restarts as never, {
    levels: (time, mask, before) => heard.push(`${time}: ${before}→${mask}`),
    down: (time) => heard.push(`down, timers to ${time}`),
    up: (time, mask, before) => heard.push(`up ${time}: ${before}→${mask}`),
  });
  return { gate, heard };
}

describe('while its controller restarts a door', () => {
  test('sees nothing, and afterwards finds the levels as they are', () => {
    const { gate, heard } = gateAt([100, 200]);
    gate.input(50, 1);
    gate.input(120, 3);
    gate.input(150, 2);
    gate.input(250, 0);
    expect(heard).toEqual(['50: 0→1', 'down, timers to 99', 'up 200: 1→2', '250: 2→0']);
  });

  test('misses a change at the very start, and sees one at the very end', () => {
    const { gate, heard } = gateAt([100, 200]);
    gate.input(100, 1);
    gate.input(200, 3);
    expect(heard).toEqual(['down, timers to 99', 'up 200: 0→1', '200: 1→3']);
  });

  test('goes down and up without any change, again and again', () => {
    const { gate, heard } = gateAt([10, 20], [20, 30], [50, 60]);
    gate.until(55);
    expect(heard).toEqual([
      'down, timers to 9',
      'up 20: 0→0',
      'down, timers to 19',
      'up 30: 0→0',
      'down, timers to 49',
    ]);
    expect(gate.down).toBe(true);
  });
});
