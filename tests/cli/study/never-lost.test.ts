/** What is done is never lost, never done again, never counted twice: by killing what runs, for real. */
import { spawnSync } from 'node:child_process';
import { appendFileSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { LAUNCHER, jambeam, start } from '../jambeam.js';
import { cellsIn, folderWithStudy, resultsOf, studyText } from './folder.js';
import { howMany } from '../../how-many.js';

const KILLS = howMany(3, 50);
const CELLS = 36;
/** Two stop early, one late. */
const UNTIL = '{ until: house.wrong_per_100, half_width: 0.9, batch: 2, at_least: 4, at_most: 16 }';

/** Waits until a study has as many cells. */
async function cells(folder: string, count: number): Promise<void> {
  for (let i = 0; i < 6000 && cellsIn(folder) < count; i++) await wait(20);
  expect(cellsIn(folder)).toBeGreaterThanOrEqual(count);
}

describe('kill -9', () => {
  test(`${KILLS} times at random, on one worker or two: the very bytes of an uninterrupted study`, async () => {
    const cwd = folderWithStudy({ replicates: '12' });
    expect(
      await jambeam(['study', 'study.yaml', '--out', 'whole', '--quiet', '--workers', '1'], { cwd }),
    ).toMatchObject({
      code: 0,
    });
    const draws = Stream.root('kills');
    let during = 0;
    for (let k = 0; k < KILLS; k++) {
      const before = cellsIn(join(cwd, 'cut'));
      const again = readdirSync(cwd).includes('cut') ? ['--resume'] : [];
      const workers = String(1 + (k % 2));
      const { child, ended } = start(
        ['study', 'study.yaml', '--out', 'cut', '--quiet', '--workers', workers, ...again],
        cwd,
      );
      // Sometimes before the first cell, mostly among them. What is left is parted over the kills to come.
      const share = (CELLS - before) / (KILLS - k + 1);
      const target = before + Math.floor(2 * share * draws.at(k));
      for (let i = 0; i < 6000 && cellsIn(join(cwd, 'cut')) < target; i++) await wait(10);
      await wait(60 * draws.at(1000 + k));
      child.kill('SIGKILL');
      await ended;
      const now = cellsIn(join(cwd, 'cut'));
      expect(now).toBeGreaterThanOrEqual(before);
      if (now > 0 && now < CELLS) during++;
    }
    expect(during).toBeGreaterThan(KILLS / 2);
    const { code, err } = await jambeam(
      ['study', 'study.yaml', '--out', 'cut', '--quiet', '--workers', '1', '--resume'],
      { cwd },
    );
    expect({ code, err: err.replace(/note: 1 records .*\n/, '') }).toEqual({ code: 0, err: '' });
    expect(resultsOf(join(cwd, 'cut'))).toEqual(resultsOf(join(cwd, 'whole')));
    // Nothing was done twice: each cell has one line.
    const lines = readFileSync(join(cwd, 'cut', 'journal.jsonl'), 'utf8')
      .trim()
      .split('\n');
    const names = lines
      .map((line) => JSON.parse(line.slice(9)) as { d: string; r: number })
      .map(({ d, r }) => `${d} ${r}`);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toHaveLength(CELLS);
  }, 900_000);
});

describe('Ctrl-C and a time limit', () => {
  test('Ctrl-C ends with 130, keeps what is done, and says how to go on; the line it says does go on', async () => {
    const cwd = folderWithStudy({ replicates: '400' });
    const { child, ended } = start(['study', 'study.yaml', '--out', 'my study'], cwd);
    await cells(join(cwd, 'my study'), 3);
    child.kill('SIGINT');
    const { code, err } = await ended;
    expect(code).toBe(130);
    const done = cellsIn(join(cwd, 'my study'));
    expect(err).toContain(`stopped: ${done} of 1200 replicates are done and kept in my study\n`);
    const [, line] = /go on with: jambeam (.*)\n/.exec(err)!;
    expect(readdirSync(join(cwd, 'my study')).sort()).toEqual(['jambeam-study.json', 'journal.jsonl']);
    const again = spawnSync('bash', ['-c', `${process.execPath} ${LAUNCHER} ${line!} --time-limit 1s --quiet`], {
      cwd,
      encoding: 'utf8',
    });
    expect(again.status).toBe(0);
    expect(again.stderr).toMatch(/^paused: \d+ of 1200 replicates/);
    expect(cellsIn(join(cwd, 'my study'))).toBeGreaterThanOrEqual(done);
  });
});

describe('while a study runs', () => {
  test('its report says so and changes no cell; a second one in the same folder is refused', async () => {
    const cwd = folderWithStudy({ replicates: '400' });
    const args = ['study', 'study.yaml', '--out', 'out', '--quiet', '--workers', '1'];
    const { child, ended } = start(args, cwd);
    await cells(join(cwd, 'out'), 13);
    const { code, out } = await jambeam(['report', 'out'], { cwd });
    const second = await jambeam([...args, '--resume'], { cwd });
    child.kill('SIGTERM');
    expect((await ended).code).toBe(143);
    expect(code).toBe(0);
    expect(out).toMatch(/^The study is not finished: \d+ of 1200 replicates are done\n/);
    expect(readFileSync(join(cwd, 'out', 'report.html'), 'utf8')).toMatch(/not finished|unfinished/i);
    expect(second).toMatchObject({
      code: 2,
      err: 'error: out: another jambeam is at this study\n  hint: wait until it has ended, or stop it\n',
    });
  });
});

describe('what is in the way', () => {
  test('a record that was torn or damaged is told and done again', async () => {
    const cwd = folderWithStudy({ replicates: '4' });
    const args = ['study', 'study.yaml', '--out', 'out', '--quiet', '--workers', '1'];
    expect(await jambeam(args, { cwd })).toMatchObject({ code: 0 });
    const before = resultsOf(join(cwd, 'out'));
    const journal = join(cwd, 'out', 'journal.jsonl');
    const text = readFileSync(journal);
    text[100]! ^= 1;
    writeFileSync(journal, text);
    appendFileSync(journal, 'torn');
    const { code, err } = await jambeam([...args, '--resume'], { cwd });
    expect({ code, err }).toEqual({
      code: 0,
      err: 'note: 2 records of out were torn or damaged; their cells are done again\n',
    });
    expect(resultsOf(join(cwd, 'out'))).toEqual(before);
  });
});

describe('on any number of workers', () => {
  test('with a rule of when to stop, three workers and one give the same bytes', async () => {
    const cwd = folderWithStudy({ replicates: UNTIL });
    // Longer replicates hold more people: their interval is narrow after fewer of them.
    writeFileSync(
      join(cwd, 'study.yaml'),
      studyText({ replicates: UNTIL }).replace(/- \{ key.*\}/, '- { key: hours, values: [0.5, 2] }'),
    );
    for (const workers of ['1', '3'])
      expect(
        await jambeam(['study', 'study.yaml', '--out', workers, '--quiet', '--workers', workers], { cwd }),
      ).toMatchObject({ code: 0 });
    expect(resultsOf(join(cwd, '3'))).toEqual(resultsOf(join(cwd, '1')));
    const { designs } = JSON.parse(readFileSync(join(cwd, '1', 'study.json'), 'utf8')) as {
      designs: { replicates: number }[];
    };
    expect(new Set(designs.map(({ replicates }) => replicates)).size).toBeGreaterThan(1);
  });
});
