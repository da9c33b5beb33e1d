/**
 * The tutorials are true: what they say to type is typed in an empty folder, with the files they say to write.
 *
 * What they quote of the output is a change detector: it is our own output, and whoever changes a number on purpose
 * changes the page. Whether the output means what the sentences say of it is checked after each.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readRun } from '../../src/cli/read-run.js';
import type { Estimate, Metrics } from '../../src/score/metrics-schema.js';
import type { StudySummary } from '../../src/study/summary-schema.js';
import { Reader } from '../browser/live-page.js';
import { folder, jambeam } from '../cli/jambeam.js';
import { withoutChromium } from '../needs.js';
import { blocks, flat, page } from './markdown.js';
import { follow, numbersFromNowhere } from './tutorial.js';
import { LONG } from '../how-many.js';

const TYPING_MS = 300_000;

describe('a number in a sentence', () => {
  const quoted = '```sh\nnpx jambeam run\n```\n\n```text\nwrong 8.3\n```\n';

  test('comes from nowhere unless it was typed, written or quoted before', () => {
    expect(numbersFromNowhere(`${quoted}It is 8.3, not 8.4. See [page 9](x9.md) and \`--hours 7\`.`)).toEqual([
      '8.4',
      '9',
    ]);
    expect(numbersFromNowhere(`It will be 8.3.\n\n${quoted}`)).toEqual(['8.3']);
  });

  test('in a page of results that is written, too', () => {
    expect(numbersFromNowhere(`${quoted}\`answer.md\`:\n\n\`\`\`markdown\n8.3 of 100\n\`\`\`\n`)).toEqual(['100']);
  });
});

describe('designer.md', () => {
  const text = page('docs/tutorials/designer.md');
  const cwd = folder();
  const metrics = (run: string): Metrics => readRun(join(cwd, run)).metrics;
  const at = (run: string, logic: string) => metrics(run).doors.find((door) => door.logic === logic)!;

  test('every number in it was typed, written or quoted', () => {
    expect(numbersFromNowhere(text)).toEqual([]);
  });

  test('is followed from the first file to the source for the controller', () => follow(text, cwd), TYPING_MS);

  test('the passage it looks at is judged right by the changed table, with the beams where they were', async () => {
    const as = ['--set', 'doors.*.pair.height_m=0.6', '--logic', 'first-try.yaml', '--logic', 'whole-way.yaml'];
    const passage = ['passage', 'yard.yaml', '--kind', 'turn-back', '--number', '12', ...as];
    const { out } = await jambeam(passage, { cwd });
    expect(out).toMatch(/^wrong +first-try .*\nright +whole-way/m);
  });

  test('the height lowers the error, and so does the table, each by more than chance', () => {
    const before = at('yard.run', 'first-try').wrong_per_100;
    const higher = at('second.run', 'first-try').wrong_per_100;
    expect(higher.high).toBeLessThan(before.low!);
    const { ranking } = metrics('second.run');
    const [best, ...others] = ranking.filter(({ door }) => door === null);
    expect(best!.logic).toBe('whole-way');
    for (const { more_than_best_per_100: more } of others) expect(more!.low).toBeGreaterThan(0);
    expect([metrics('yard.run').targets[0]!.outcome, metrics('second.run').targets[0]!.outcome]).toEqual([
      'missed',
      'met',
    ]);
  });

  test('the cleverer idea does what it was made for, and misses those it was not made for', () => {
    const table = at('second.run', 'whole-way');
    const clever = at('second.run', 'hold-back');
    expect(clever.invented_per_100.value).toBeLessThan(table.invented_per_100.value! * 0.6);
    expect(clever.missed_per_100.low).toBeGreaterThan(table.missed_per_100.high!);
  });
});

describe('researcher.md', () => {
  const text = page('docs/tutorials/researcher.md');
  const cwd = folder();
  const read = (...path: string[]): Buffer => readFileSync(join(cwd, ...path));
  const study = (): StudySummary => JSON.parse(read('heights.study/study.json').toString()) as StudySummary;

  test('every number in it was typed, written or quoted', () => {
    expect(numbersFromNowhere(text)).toEqual([]);
  });

  test('is followed from the question to the page of the answer', () => follow(text, cwd), TYPING_MS);

  test('stopped, resumed and extended twice, it has the bytes of a study that ran through', async () => {
    const args = ['study', 'heights.yaml', '--out', 'unbroken.study', '--quiet'];
    expect(await jambeam(args, { cwd })).toMatchObject({ code: 0 });
    for (const name of ['results.csv', 'results-doors.csv', 'results.parquet', 'results-doors.parquet', 'study.json'])
      expect({ name, same: read('heights.study', name).equals(read('unbroken.study', name)) }).toEqual({
        name,
        same: true,
      });
  });

  test('no cell was done twice', () => {
    const cells = read('heights.study/journal.jsonl').toString().trimEnd().split('\n');
    const named = cells.map((line) => JSON.stringify([/"d":"\w+"/.exec(line)![0], /"r":\d+/.exec(line)![0]]));
    expect(new Set(named).size).toBe(named.length);
    expect(named).toHaveLength(study().designs.reduce((sum, { replicates }) => sum + replicates, 0));
  });

  test('rates that are worked out from the table are those of the study', () => {
    const { designs, factors } = study();
    const worked = [...text.matchAll(/^([\d.]+) m: ([\d.]+) wrong per 100 crossings$/gm)];
    const found = designs.map(({ levels, metrics }) => [
      String(factors[0]!.levels[levels[0]!]!.value),
      metrics['house.wrong_per_100']!.value!.toFixed(2),
    ]);
    expect(worked.map(([, height, rate]) => [height, rate])).toEqual(found);
  });

  test('what looks like a difference by itself is none among all pairs', () => {
    const [, difference, error] = /^0\.85 m against .*: \+([\d.]+) .* error ([\d.]+)$/m.exec(text)!;
    expect(Number(difference)).toBeGreaterThan(2 * Number(error));
    const { ranking, designs, factors } = study();
    const perhaps = ranking.rows.filter((row) => row.perhaps_best).map((row) => designs[row.design - 1]!.levels[0]!);
    expect(new Set(perhaps.map((level) => factors[0]!.levels[level]!.value))).toEqual(new Set([0.85, 0.9, 0.95]));
  });
});

describe('reviewer.md', () => {
  const text = page('docs/tutorials/reviewer.md');
  const cwd = folder();
  const wrong = (run: string): Estimate => readRun(join(cwd, run)).metrics.house.wrong_per_100;

  test('every number in it was typed, written or quoted', () => {
    expect(numbersFromNowhere(text)).toEqual([]);
  });

  test(
    'is followed from the first screen to the answer; the report is made again to the byte',
    async () => {
      await follow(text, cwd);
      expect(readFileSync(join(cwd, 'again.run/report.html')).equals(readFileSync(join(cwd, 'report.html')))).toBe(
        true,
      );
    },
    TYPING_MS,
  );

  test('lower beams are better beyond chance, and the doubted figures leave the verdict as it is', () => {
    expect(wrong('lower.run').high).toBeLessThan(wrong('again.run').low!);
    const { doors, targets } = readRun(join(cwd, 'again.run')).metrics;
    const { half, double } = doors[0]!.by_assumed_share.find(({ who }) => who === 'child')!;
    for (const estimate of [half, double, wrong('brisk.run'), wrong('lower.run')])
      expect(estimate.low).toBeGreaterThan(targets[0]!.at_most!);
  });

  // What is asked of a report in a browser has tests of its own: this is for a release.
  const inBrowser = LONG ? describe.skipIf(withoutChromium()) : null;
  inBrowser?.('in a browser', () => {
    const reader = new Reader();
    beforeAll(() => reader.start());
    afterAll(() => reader.end());

    test('the page shows what is quoted of it, and answers what the command line answers', async () => {
      const html = await reader.open(readFileSync(join(cwd, 'report.html'), 'utf8'));
      const shown = async (place: string): Promise<string> =>
        flat((await html.locator(place).first().innerText()).replace(/[\u2068\u2069]/g, ''));
      // The verdict and what would be unwise to conclude are on the first screen, without scrolling.
      const body = await shown('body');
      for (const quote of blocks(text, 'text').slice(0, 2))
        for (const line of quote.trimEnd().split('\n')) expect(body).toContain(flat(line));
      const unwise = html.getByText('That the intervals are exact.').first();
      const box = (await unwise.boundingBox())!;
      expect(box.y + box.height).toBeLessThan(900);

      await html.locator('.ask').scrollIntoViewIfNeeded();
      await html.getByLabel('Height of its beams, metres, typed').fill('0.9');
      await html.locator('.ask').getByLabel('Replicates').selectOption('the first 8');
      await html.locator('.found:not([aria-busy]) caption', { hasText: 'the first 8 replicates of 8' }).waitFor();
      const found = await shown('.found');
      const line = /jambeam run report\.html --set .* --replicates 8/.exec(found)![0];
      expect(text).toContain(`npx ${line} --out lower.run`);
      expect(found).toMatch(/door front 3\.4 2\.4 to 4\.3 9\.9 8\.1 to 11\.6 −6\.5 −7\.8 to −5\.1/);
      expect(reader.trouble).toEqual([]);
    });
  });
});
