/** The likelihood filter: taught by a few hundred watched walks, it counts the next ones. */
import { describe, expect, test } from 'vitest';
import { LogicHost } from '../../../src/counter/host.js';
import { hiddenMarkov } from '../../../src/counter/hidden-markov/hidden-markov.js';
import { learn } from '../../../src/counter/hidden-markov/learn.js';
import { EMPTY, STATES, WAYS, stateOf } from '../../../src/counter/hidden-markov/states.js';
import { playInstants } from '../helpers.js';

/** A walk of 24 ticks of 20 ms: A, both, B. */
const walk = (masks: readonly [number, number, number]): number[] =>
  masks.flatMap((mask) => Array.from({ length: 8 }, () => mask));
const VISITS = [
  ...Array.from({ length: 300 }, () => ({ way: 0, masks: walk([1, 3, 2]) })),
  ...Array.from({ length: 300 }, () => ({ way: 1, masks: walk([2, 3, 1]) })),
  ...Array.from({ length: 40 }, () => ({ way: 2, masks: walk([1, 3, 1]) })),
  ...Array.from({ length: 40 }, () => ({ way: 3, masks: walk([2, 3, 2]) })),
];
const model = learn(VISITS, [1_000_000, 0, 0, 0], 20_000, 2);
const filter = hiddenMarkov({ sure: 0.95 }, model);
const at = (...steps: readonly [ms: number, mask: number][]) =>
  steps.map(([ms, mask]) => ({ time_us: ms * 1000, mask }));
const said = (...steps: readonly [ms: number, mask: number][]): string[] =>
  playInstants(filter, at(...steps)).map(([, direction]) => direction);

describe('what is learnt', () => {
  test('is a model whose rows are probabilities, none of what is seen impossible', () => {
    for (const row of [...model.transition, ...model.emission])
      expect(row.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
    expect(model.transition).toHaveLength(STATES);
    for (const row of model.emission) for (const one of row) expect(one).toBeGreaterThan(0);
  });

  // Jeffreys' posterior mean of 300 of 680 starts in 1,000,000 idle ticks; a third of 24 ticks is 8.
  test('says how often each way is begun and how long its stages last', () => {
    expect(model.transition[EMPTY]![stateOf(0, 0)]).toBeCloseTo(300.5 / (1_000_000 + 0.5 * (WAYS.length + 1)), 12);
    expect(model.transition[stateOf(0, 0)]![stateOf(0, 0)]).toBeCloseTo(1 - 1 / 8, 12);
  });
});

describe('the filter', () => {
  test('counts walks both ways, and whoever turns back not at all', () => {
    expect(said([0, 1], [160, 3], [320, 2], [480, 0])).toEqual(['forward']);
    expect(said([0, 2], [160, 3], [320, 1], [480, 0])).toEqual(['backward']);
    expect(said([0, 1], [160, 3], [320, 1], [480, 0])).toEqual([]);
  });

  test('makes the best of an edge that was lost, where the four-level walk gives up', () => {
    // Both broken at once: from A or from B? That B clears last says forward.
    expect(said([0, 3], [320, 2], [480, 0])).toEqual(['forward']);
  });

  test('takes a short spurious break for what it is', () => {
    expect(said([0, 1], [20, 0])).toEqual([]);
  });

  test('sleeps while nobody is there', () => {
    let steps = 0;
    const counted = { ...filter, step: (...given: Parameters<typeof filter.step>) => (steps++, filter.step(...given)) };
    const host = new LogicHost(counted, { onTally: () => undefined });
    host.inputMask(0, 1);
    host.inputMask(160_000, 3);
    host.inputMask(320_000, 2);
    host.inputMask(480_000, 0);
    host.finish(3_600_000_000);
    expect(steps).toBeLessThan(20);
    expect(host.snapshot().resting).toBe(true);
  });

  test('two bodies side by side are one to it: that defeats it', () => {
    expect(said([0, 1], [100, 3], [400, 2], [560, 0])).toEqual(['forward']);
  });
});
