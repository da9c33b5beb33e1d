/** What hidden Markov logics learn: from people who are never those they are judged on, and the same every time. */
import { describe, expect, test } from 'vitest';
import { designFromJson, serialiseDesign } from '../../src/scenario/design-json.js';
import { taught } from '../../src/simulate/doorway-learning.js';
import { runReplicate } from '../../src/simulate/replicate.js';
import { doorDesign } from './designs.js';

const design = { ...doorDesign({ logics: '[hidden-markov, four-level]' }), hours: 2, replicates: 2 };

describe('learning', () => {
  const wise = taught(design);

  test('gives each door a model, which design.json holds whole', () => {
    expect(wise.learnt?.map(({ door, logic }) => [door, logic])).toEqual([['front', 'hidden-markov']]);
    const { design: again, issues } = designFromJson(serialiseDesign(wise));
    expect(issues).toEqual([]);
    expect(again?.learnt).toEqual(wise.learnt);
    // What is there is not learnt again.
    expect(taught(wise)).toBe(wise);
  });

  test('comes out the same again, and doesn’t depend on how many replicates are judged', () => {
    expect(taught({ ...design, replicates: 7 }).learnt).toEqual(wise.learnt);
  });

  test('without it nothing is counted: the logic refuses', () => {
    expect(() => runReplicate(design, 1, {})).toThrow(/has learnt nothing of this doorway/);
  });

  test('is of use: nearly everybody past beams at a good height is counted', () => {
    const [{ total }] = runReplicate(wise, 1, {}).record.doors[0]!.logics as unknown as [
      { total: { crossings: number; missed: number } },
    ];
    expect(total.crossings).toBeGreaterThan(50);
    expect(total.missed / total.crossings).toBeLessThan(0.1);
  });
});
