/**
 * Whatever stands in a file, the program takes it or says what is wrong with it: never a fault of its own, never words that
 * aren't for users, never without end. The same thousands of inputs each time; `npm run fuzz` tries others.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { round } from './rounds.js';
import { TARGETS } from './targets/index.js';
import { trial } from './trial.js';
import { howMany } from '../how-many.js';

const SEED = 20_240_501;
const INPUTS = howMany(1000, 10_000);

const home = mkdtempSync(join(tmpdir(), 'jambeam-hostile-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

describe.each(TARGETS)('$name', (target) => {
  test('a valid file is taken, or what it lacks is told', async () => {
    const outcomes: string[] = [];
    for (const seed of new Set(target.seeds().map((one) => one.toString('latin1'))))
      outcomes.push((await trial(target, Buffer.from(seed, 'latin1'), home)).outcome);
    // Its digests are made up.
    if (target.name !== 'run-marker') expect(outcomes[0]).toBe('taken');
  });

  test('whatever else it holds, it is taken or refused in words', { timeout: 3_600_000 }, async () => {
    const { inputs, finding } = await round(target, INPUTS, SEED, home);
    if (finding)
      throw new Error(`${JSON.stringify(finding.recipe)}\n${finding.bytes.toString('latin1').slice(0, 2000)}`, {
        cause: finding.error,
      });
    expect(inputs).toBeGreaterThanOrEqual(Math.round(INPUTS * target.share));
  });
});
