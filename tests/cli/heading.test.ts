/** A heading of one's own: who prepared the page and what it is called, in the page and in no number. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { folderWithDoor, jambeam } from './jambeam.js';

const read = (...parts: readonly string[]): string => readFileSync(join(...parts), 'utf8');
const bare = (page: string): string => page.replace(/[\u2068\u2069]/g, '');
const NUMBERS = ['passages.csv', 'tallies.csv', 'metrics.json', 'figures.json'];

describe('of a run', () => {
  const cwd = folderWithDoor();
  beforeAll(async () => {
    expect(await jambeam(['run', 'door.yaml', '--out', 'plain.run'], { cwd })).toMatchObject({ code: 0 });
    const titled = read(cwd, 'door.yaml').replace(/^name: .*/m, '$&\ntitle: Way in\nprepared_by: A. & B. <Builders>');
    writeFileSync(join(cwd, 'titled.yaml'), titled);
    expect(await jambeam(['run', 'titled.yaml'], { cwd })).toMatchObject({ code: 0 });
  });

  test('stands in title, title block and footer, the name of the scenario beneath', () => {
    const page = bare(read(cwd, 'titled.run/report.html'));
    expect(page).toContain('<title>Way in: doorway report</title>');
    expect(page).toContain('<h1>Way in</h1>');
    expect(page).toContain('<dt>Scenario</dt><dd>Front door</dd>');
    expect(page).toContain('<dt>Prepared by</dt><dd>A. &amp; B. &lt;Builders&gt;</dd>');
    expect(page).toMatch(/<footer><p>Way in · prepared by A\. &amp; B\. &lt;Builders&gt; · Front door · seed 1 /);
  });

  test('changes no number, and design.json by itself alone', () => {
    for (const name of NUMBERS) expect(read(cwd, 'titled.run', name), name).toBe(read(cwd, 'plain.run', name));
    const { title, prepared_by, ...design } = JSON.parse(read(cwd, 'titled.run/design.json')) as Record<
      string,
      unknown
    >;
    expect({ title, prepared_by }).toEqual({ title: 'Way in', prepared_by: 'A. & B. <Builders>' });
    expect(design).toEqual(JSON.parse(read(cwd, 'plain.run/design.json')));
    expect(read(cwd, 'plain.run/design.json')).not.toMatch(/title|prepared_by/);
    expect(read(cwd, 'plain.run/report.html')).not.toContain('Prepared by');
  });

  test('goes with the report that runs again', async () => {
    await jambeam(['run', 'titled.run/report.html', '--out', 'again.run'], { cwd });
    expect(read(cwd, 'again.run/report.html')).toBe(read(cwd, 'titled.run/report.html'));
  });

  test('may come from the command line: of a run for good, of a page for that page', async () => {
    const options = ['--title', 'Other', '--prepared-by', 'C.'];
    await jambeam(['run', 'titled.yaml', '--out', 'other.run', ...options], { cwd });
    expect(JSON.parse(read(cwd, 'other.run/design.json'))).toMatchObject({ title: 'Other', prepared_by: 'C.' });
    for (const name of NUMBERS) expect(read(cwd, 'other.run', name), name).toBe(read(cwd, 'plain.run', name));

    const before = read(cwd, 'other.run/report.html');
    expect(await jambeam(['report', 'other.run', '--title', 'Third'], { cwd })).toMatchObject({ code: 0 });
    const page = bare(read(cwd, 'other.run/report.html'));
    expect(page).toContain('<h1>Third</h1>');
    expect(page).toContain('<dt>Prepared by</dt><dd>C.</dd>');
    const block = (text: string) => /<script.*?<\/script>/s.exec(text)?.[0];
    expect(block(page)).toBe(block(before));
    await jambeam(['report', 'other.run'], { cwd });
    expect(read(cwd, 'other.run/report.html')).toBe(before);
  });

  test.each([
    [['--title', ''], '--title: expected at least 1 character'],
    [['--title', 'x'.repeat(81)], '--title: expected at most 80 characters, found 81'],
    [['--prepared-by', 'a\u202eb'], '--prepared-by: expected one line of plain text, found a control character'],
    [['--prepared-by', 'a\nb'], '--prepared-by: expected one line of plain text, found a control character'],
  ])('%j is refused', async (options, words) => {
    for (const command of [
      ['run', 'door.yaml', '--out', 'no.run'],
      ['report', 'plain.run'],
    ]) {
      const { code, err } = await jambeam([...command, ...options], { cwd });
      expect({ code, err }).toMatchObject({ code: 2 });
      expect(err).toContain(words);
    }
  });

  test('a page without any script is asked for in the same words everywhere', async () => {
    for (const command of ['run', 'report', 'replay', 'study', 'merge'])
      expect((await jambeam([command, '--help'], { cwd })).out).toMatch(/--static +write a page without any script/);
    expect(await jambeam(['report', 'plain.run', '--static'], { cwd })).toMatchObject({ code: 0 });
    const page = read(cwd, 'plain.run/report.html');
    expect(page.match(/<script[^>]*>/g)).toEqual(['<script type="application/json" id="jambeam-scenario">']);
    const ran = await jambeam(['run', 'plain.run/report.html', '--static', '--out', 'still.run'], { cwd });
    expect(ran).toMatchObject({ code: 0 });
    expect(read(cwd, 'still.run/report.html')).toBe(page);
  });
});

describe('of a study', () => {
  const cwd = folderWithDoor();
  const STUDY = `format: 1
name: heights
scenario: door.yaml
replicates: 2
factors:
  - { name: height_m, key: doors.front.beams.*.height_m, values: [0.9, 1.2] }
`;
  const run = (file: string) => jambeam(['study', file, '--quiet', '--workers', '1', '--static'], { cwd });

  test('stands in the page and in study.json; cells are the same', async () => {
    writeFileSync(join(cwd, 'plain.yaml'), STUDY);
    writeFileSync(join(cwd, 'titled.yaml'), `${STUDY}title: How high?\nprepared_by: A.\n`);
    expect(await run('plain.yaml')).toMatchObject({ code: 0 });
    expect(await run('titled.yaml')).toMatchObject({ code: 0 });
    for (const name of ['results.csv', 'results-doors.csv'])
      expect(read(cwd, 'titled.study', name)).toBe(read(cwd, 'plain.study', name));
    const { title, prepared_by, ...summary } = JSON.parse(read(cwd, 'titled.study/study.json')) as Record<
      string,
      unknown
    >;
    expect({ title, prepared_by }).toEqual({ title: 'How high?', prepared_by: 'A.' });
    expect(summary).toEqual(JSON.parse(read(cwd, 'plain.study/study.json')));
    const page = bare(read(cwd, 'titled.study/report.html'));
    expect(page).toContain('<title>How high?: report of a study</title>');
    expect(page).toContain('<h1>How high?</h1>');
    expect(page).toContain('<dt>Study</dt><dd>heights</dd>');
    expect(page).toContain('<dt>Prepared by</dt><dd>A.</dd>');
    expect(page).toMatch(/<footer><p>How high\? · prepared by A\. · heights · /);
  });

  test('is kept where cells are: a heading that is added needs none of them again', async () => {
    writeFileSync(join(cwd, 'plain.yaml'), `${STUDY}title: Later\n`);
    writeFileSync(join(cwd, 'door.yaml'), read(cwd, 'door.yaml').replace(/^name: .*/m, '$&\ntitle: Way in'));
    const journal = read(cwd, 'plain.study/journal.jsonl');
    expect(await jambeam(['study', 'plain.yaml', '--quiet', '--workers', '1', '--extend'], { cwd })).toMatchObject({
      code: 0,
    });
    expect(read(cwd, 'plain.study/journal.jsonl')).toBe(journal);
    expect(bare(read(cwd, 'plain.study/report.html'))).toContain('<h1>Later</h1>');
  });

  test('of one page alone', async () => {
    await jambeam(['report', 'titled.study', '--prepared-by', 'B.', '--static'], { cwd });
    const page = bare(read(cwd, 'titled.study/report.html'));
    expect(page).toContain('<dt>Prepared by</dt><dd>B.</dd>');
    expect(page).not.toContain('<script');
    expect(read(cwd, 'titled.study/study.json')).toContain('"prepared_by":"A."');
  });
});
