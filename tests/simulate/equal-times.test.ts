/** Events of the same microsecond, taken in another order: what a run gives must not hang on it. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseScenario } from '../../src/scenario/parse.js';
import { simulate } from '../../src/simulate/simulate.js';
import * as library from '../../src/index.js';
import { textsOf } from '../acceptance/fingerprint.js';
import { hashesOf } from '../acceptance/hashes.js';
import { type Ties, withTies } from '../engine/other-ties.js';
import { LONG } from '../how-many.js';

/** All scenarios; the table that lies beside them is none. */
const LESSONS = readdirSync('scenarios').filter((file) => file.endsWith('.yaml') && file !== 'my-logic.yaml');
const OTHERS: readonly Ties[] = LONG ? ['last first', 'shuffled'] : ['last first'];

function runOf(file: string, hours: number) {
  const readFile = (name: string): string => readFileSync(`scenarios/${name}`, 'utf8');
  const { design, issues } = parseScenario(readFile(file), file, { readFile });
  if (!design) throw new Error(JSON.stringify(issues));
  const rows: string[] = [];
  const keep = (replicate: number, row: object): void => void rows.push(`${replicate} ${JSON.stringify(row)}`);
  const { metrics, figures } = simulate(
    { ...design, hours, replicates: 1 },
    { passage: keep, tally: keep, edge: keep, reading: keep },
  );
  return { metrics, figures, rows };
}

const all = () => hashesOf(textsOf(library));
const usual = all();

test('the queue that is put in the place of the other gives the same as it', () => {
  expect(withTies('as put', all).result).toEqual(usual);
});

describe.each(OTHERS)('equal times %s', (ties) => {
  test('doors of every kind, rangers that share a controller, all logics and ledgers', () => {
    const { result, tied } = withTies(ties, all);
    expect(tied).toBeGreaterThan(0);
    expect(result).toEqual(usual);
  });

  test.each([
    ['starter.yaml', LONG ? 4 : 2],
    ['two-doors.yaml', LONG ? 4 : 2],
    // In the first half of it nothing is tied.
    ['potters-studio.yaml', 12],
    ['guesthouse.yaml', LONG ? 24 : 12],
  ])('%s', (file, hours) => {
    const { result, tied } = withTies(ties, () => runOf(file, hours));
    expect(tied).toBeGreaterThan(0);
    expect(result).toEqual(runOf(file, hours));
  });

  // In some of them nothing is tied.
  test.each(LONG ? LESSONS : [])('four hours of %s', (file) => {
    expect(withTies(ties, () => runOf(file, 4)).result).toEqual(runOf(file, 4));
  });
});
