/** docs/own-logic.md says what the code does. */
import { expect, test } from 'vitest';
import { TALLIES_AHEAD, TALLY_LIMIT } from '../../src/counter/host-check.js';
import { LIMIT_S } from '../../src/plugins/code.js';
import { KEYS } from '../../src/plugins/definition.js';
import { MOST_PROCESSES } from '../../src/plugins/heart.js';
import { MOST_REMEMBERED } from '../../src/plugins/process-host.js';
import { LONGEST_ANSWER } from '../../src/plugins/program.js';
import { helloText, programAbout, programSaid } from '../../src/plugins/protocol.js';
import { REHEARSED, THEN_EVERY } from '../../src/plugins/rehearsal.js';
import { blocks, codes, flat, page, rowsOf } from '../acceptance/markdown.js';
import { DOOR, driven, moduleCode } from './built.js';

const text = page('docs/own-logic.md');
const shown = blocks(text, '');

test('the module it shows counts', async () => {
  const module = shown.find((block) => block.includes('defineLogic')) ?? '';
  expect((await driven(moduleCode(module))).tallies).toEqual(['forward 1300000']);
});

test('every key of a module is in its table', () => {
  const named = rowsOf(text).map(([first = '']) => /^`(\w+)/.exec(first)?.[1]);
  expect(named).toEqual(expect.arrayContaining(KEYS.filter((key) => key !== 'name')));
});

test('the lines it shows are those of the protocol', () => {
  for (const line of helloText({ ...DOOR, name: 'NAME', beams: [{ name: 'NAME', kind: 'KIND' }] })
    .trim()
    .split('\n'))
    expect(text).toContain(`\`${line}\``);
  const greeting = [
    'jambeam-logic 1',
    'latency_us 1',
    'readings yes',
    'tick_us 2',
    'longest_timeout_us 3',
    'state LABEL',
  ];
  expect(programAbout(greeting)).toMatchObject({ latency_us: 1, readings: true, tick_us: 2, state: 'LABEL' });
  for (const line of greeting) expect(codes(text)).toContain(line.replace(/\d$/, line.startsWith('jam') ? '1' : 'N'));
  const answer = shown.find((block) => block.startsWith('forward')) ?? '';
  expect(programSaid(answer.split('\n')[0]!)).toEqual({ what: 'tally', time_us: 83_456_644, direction: 'forward' });
});

test('the limits it names are those of the code', () => {
  const words = flat(text);
  expect(words).toContain(
    `the first ${REHEARSED} steps of a module, and after that one of every ${THEN_EVERY}, are done twice`,
  );
  expect(words).toContain(`at most ${MOST_REMEMBERED} lines from the beams`);
  expect(words).toContain(`takes longer than ${LIMIT_S} s ends the run`);
  expect(words).toContain(
    `More than ${TALLY_LIMIT} tallies at one instant, or over ${TALLIES_AHEAD} more tallies than inputs`,
  );
  expect(words).toContain(`more than ${LONGEST_ANSWER / 1_048_576} MB without its \`flush\``);
  expect(words).toContain(`At most ${MOST_PROCESSES} programs run at once`);
});
