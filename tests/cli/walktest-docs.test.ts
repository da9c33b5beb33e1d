/** docs/walktest.md says what the code does. */
import { expect, test } from 'vitest';
import { TIME_COLUMNS } from '../../src/cli/log-time.js';
import { talliesOfLog } from '../../src/cli/tally-log.js';
import { HAND_COLUMNS, PLAN_COLUMNS } from '../../src/cli/walk-sheet-write.js';
import { MOST_WALKS } from '../../src/cli/walktest.js';
import { SECOND_US } from '../../src/engine/time.js';
import { ENOUGH, MOST_KINDS } from '../../src/score/walk-test/choose-kinds.js';
import { ERROR } from '../../src/score/walk-test/claim.js';
import { EARLY } from '../../src/score/walk-test/judge.js';
import { LONGEST_US, SLACK_US } from '../../src/score/walk-test/tallies-to-walks.js';
import { WALKS } from '../../src/simulate/walk-prediction.js';
import { blocks, codes, flat, page, rowsOf } from '../acceptance/markdown.js';
import { jambeam } from './jambeam.js';

const text = page('docs/walktest.md');

test('it lists every column of a sheet, in their order', () => {
  const listed = rowsOf(text).map(([first = '']) => first.replaceAll('`', ''));
  const columns: readonly string[] = [...PLAN_COLUMNS, ...HAND_COLUMNS];
  expect(listed.slice(listed.indexOf('walk')).slice(0, columns.length)).toEqual(columns);
  expect(rowsOf(text).filter(([, meaning = '']) => meaning.startsWith('yours:'))).toHaveLength(HAND_COLUMNS.length);
});

test('its log is one that is read, and its columns of times are those that are known', () => {
  const { tallies, issues } = talliesOfLog(blocks(text, 'csv')[0]!.split('\n'), 'docs', {
    door: 'front',
    logic: 'any',
  });
  expect(issues).toEqual([]);
  expect(tallies).toEqual([
    { time_us: 68_650 * SECOND_US, direction: 'forward' },
    { time_us: 68_671 * SECOND_US, direction: 'backward' },
  ]);
  const row = rowsOf(text).find(([first = '']) => first.includes('time_us'))!;
  expect([...codes(row[0]!)].sort()).toEqual(Object.keys(TIME_COLUMNS).sort());
});

test('its numbers are those of the code', () => {
  const flatText = flat(text);
  for (const words of [
    `${WALKS.barriers} times with light barriers and ${WALKS.rangers} times with rangers`,
    `shorter than ${MOST_WALKS} walks`,
    `make ${100 * ENOUGH} % of the wrong counts`,
    `${MOST_KINDS} at most`,
    `${SLACK_US / SECOND_US} seconds of slack`,
    `${LONGEST_US / SECOND_US} seconds at most`,
    `tested at ${ERROR} / k`,
  ])
    expect(flatText).toContain(words);
  expect([EARLY, ERROR]).toEqual([50, 1 / 20]);
});

test('every option it shows is one', async () => {
  const { out } = await jambeam(['help', 'walktest'], { cwd: '.' });
  for (const [option] of text.matchAll(/--[a-z][a-z-]*/g)) expect(out).toContain(option);
});
