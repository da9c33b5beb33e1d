// Ask it something else: what the page simulates is what the command line simulates, to the last bit.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { Answer, Question } from '../../src/page/ask-messages.js';
import { estimateWords } from '../../src/report/words.js';
import type { Estimate, Metrics } from '../../src/score/metrics-schema.js';
import { folder, jambeam } from '../cli/jambeam.js';
import { withoutChromium } from '../needs.js';
import { WCAG_AND_BEST_PRACTICE, violations } from './axe.js';
import { Reader } from './live-page.js';

const missing = withoutChromium();
const cwd = folder();

async function run(scenario: string, out: string, ...more: string[]): Promise<Metrics> {
  const { code, err } = await jambeam(['run', scenario, '--out', out, '--force', ...more], { cwd });
  expect(code, err).toBe(0);
  return JSON.parse(readFileSync(join(cwd, out, 'metrics.json'), 'utf8')) as Metrics;
}
const scenario = (name: string): string => join(process.cwd(), 'scenarios', `${name}.yaml`);

describe.skipIf(missing)('a report that is asked', () => {
  const reader = new Reader();
  let page: Page;

  beforeAll(async () => {
    await run(scenario('starter'), 'door', '--hours', '3', '--replicates', '5');
    await run(scenario('birthday-party'), 'house', '--hours', '20', '--replicates', '2');
    await run(scenario('ultrasonic-in-a-hurry'), 'ranger', '--hours', '1', '--replicates', '3');
    await reader.start();
  });
  afterAll(() => reader.end());
  afterEach(async () => {
    await page.context().close();
    expect(reader.trouble.splice(0)).toEqual([]);
  });

  const open = async (out: string): Promise<void> => {
    page = await reader.open(readFileSync(join(cwd, out, 'report.html'), 'utf8'));
    await page.locator('.ask').scrollIntoViewIfNeeded();
    await answered();
  };
  /** Until the last replicate is in. */
  const answered = async (): Promise<void> => {
    await page.locator('.found:not([aria-busy])').locator('table, .refused').first().waitFor();
  };
  /** Cells of the answer's first row. */
  const cells = async (): Promise<string[]> =>
    (await page.locator('.found tbody tr').first().locator('td').allInnerTexts()).map((text) =>
      text.replace(/\s+/g, ' '),
    );
  const words = (e: Estimate): string => {
    const { value, range, note } = estimateWords(e);
    return `${value} ${range ?? note}`.replace(/\s+/g, ' ');
  };
  const command = async (): Promise<string[]> =>
    (await page.locator('.found pre').innerText()).replaceAll("'", '').split(' ').slice(1);

  test('before anything is changed it finds what the report says, replicate by replicate', async () => {
    await open('door');
    const [found, reported, change, whole] = await cells();
    expect(found).toBe(reported);
    expect(found).toBe(whole);
    expect(change).toMatch(/^0 /);
    expect(await page.locator('.found caption').innerText()).toContain(
      'Your own what-if, not part of the report: the first 5 replicates of 5',
    );
  });

  test('moved beams: the line it gives for the terminal finds the same', async () => {
    await open('door');
    await page.locator('.ask').getByLabel('Replicates').selectOption('the first 4');
    await page.getByLabel('Height of its beams, metres, typed').fill('1.3');
    await page.getByLabel('Beams apart along the walk, metres, typed').fill('0.07');
    await answered();
    const line = await command();
    expect(line.slice(0, 2)).toEqual(['run', 'report.html']);
    const metrics = await run('door/report.html', 'again', ...line.slice(2));
    expect(metrics.replicates).toBe(4);
    const [found, reported] = await cells();
    expect(found).toBe(words(metrics.doors[0]!.wrong_per_100));
    expect(found).not.toBe(reported);
    expect(await page.locator('.found .said').innerText()).toMatch(
      /1\.30.m high instead of 0\.95.m and 7.cm apart instead of 10.cm: .* That is worse than reported\./,
    );
  });

  test.each([
    ['a built-in logic that the run did not have', 'door', 'hidden-markov'],
    ['a table of the reader’s own', 'door', 'my-logic'],
    ['another logic for a ranger', 'ranger', 'first-broken'],
  ])('%s: the same as on the command line', async (_, out, logic) => {
    await open(out);
    await page.locator('.ask').getByLabel('Logic').selectOption(logic);
    await answered();
    const line = await command();
    const metrics = await run(`${out}/report.html`, 'again', ...line.slice(2));
    expect((await cells())[0]).toBe(words(metrics.doors.find((door) => door.logic === logic)!.wrong_per_100));
  });

  test('every number of every answer, in full: a house, one door of it', async () => {
    await open('house');
    const [carried] = await page.locator('#jambeam-scenario').allTextContents();
    const { scenario: text, tables } = JSON.parse(carried!) as Pick<Question, 'scenario' | 'tables'>;
    const door = 2;
    const question: Question = {
      number: 7,
      scenario: text,
      tables,
      sets: [`doors.${door + 1}.pair.height_m=1.1`],
      logic: 'four-level',
      door,
      replicates: 2,
      reported: null,
    };
    // In the page: the very worker that it has, asked directly.
    const answers = (await page.evaluate(`(async () => {
      const packed = Uint8Array.from(atob(document.getElementById('packed-ask').textContent), (c) => c.charCodeAt(0));
      const text = await new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))).text();
      const worker = new Worker(URL.createObjectURL(new Blob([text], { type: 'text/javascript' })));
      const answers = [];
      await new Promise((done) => {
        worker.onmessage = ({ data }) => (answers.push(data), (data.kind === 'refused' || data.replicates === 2) && done());
        worker.postMessage(${JSON.stringify(question)});
      });
      return answers;
    })()`)) as Extract<Answer, { kind: 'found' }>[];
    expect(answers.map(({ replicates }) => replicates)).toEqual([1, 2]);
    for (const { replicates, door: ofDoor, house } of answers) {
      const more = ['--set', question.sets[0]!, '--logic', 'four-level', '--replicates', String(replicates)];
      const metrics = await run('house/report.html', 'again', ...more);
      expect(ofDoor.found).toEqual(metrics.doors[door]!.wrong_per_100);
      expect(house.found).toEqual(metrics.house.wrong_per_100);
    }
  });

  test('what can’t be built is refused in the words of the command line, and nothing is lost', async () => {
    await open('door');
    await page.getByLabel('Height of its beams, metres, typed').fill('2.4');
    await answered();
    expect(await page.locator('.found').innerText()).toMatch(
      /can’t be built[^]*expected at most 2 metres, the height of the opening, found 2.4/,
    );
    await page.getByRole('button', { name: 'As reported' }).click();
    await answered();
    expect(await page.getByLabel('Height of its beams, metres, typed').inputValue()).toBe('0.95');
    expect(await page.locator('.found .said').innerText()).toContain('Nothing is changed yet');
  });

  test('asked and answered it breaks no rule of WCAG 2.2 AA', async () => {
    await open('house');
    expect(await violations(page, WCAG_AND_BEST_PRACTICE)).toEqual([]);
  });
});
