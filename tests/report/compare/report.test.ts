// The page that compares runs: what it says at the top, what it says of runs that can't be paired, and that it is whole.
import { beforeAll, describe, expect, test } from 'vitest';
import { renderCompareReport } from '../../../src/report/compare/report.js';
import type { CompareRun } from '../../../src/report/compare/runs.js';
import { compareSummaryText } from '../../../src/report/compare/summary-text.js';
import { unwise } from '../../../src/report/compare/unwise.js';
import { compareVerdict } from '../../../src/report/compare/verdict.js';
import { expectWholeByItself } from '../whole.js';
import { HIGH, LOW, runOf } from './runs.js';

const plain = runOf('plain', ['replicates=8']);
const high = runOf('high', ['replicates=8', HIGH]);
const reseeded = runOf('reseeded', ['replicates=8', 'seed=6']);
const low = runOf('low', ['replicates=8', LOW]);

const text = (page: string): string =>
  page
    .replace(/<style>.*<\/style>/s, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/[\u2068\u2069]/g, '')
    .replace(/\u00a0/g, ' ')
    .replaceAll('&lt;', '<')
    .replace(/\s+/g, ' ');
const render = (runs: readonly CompareRun[], more = {}): Promise<string> =>
  renderCompareReport(runs, { version: '0.0.0', ...more });
const bare = (words: string): string => words.replace(/[\u2068\u2069]/g, '').replace(/\u00a0/g, ' ');

describe('two runs under the same crowds', () => {
  let page = '';
  beforeAll(async () => {
    page = await render([plain, high]);
  });

  test('the page is whole by itself, the same each time, and holds a heading for each part in order', async () => {
    expectWholeByItself(page);
    expect(await render([plain, high])).toBe(page);
    const headings = [...page.matchAll(/<h2[^>]*id="([a-z]+)"/g)].map(([, id]) => id);
    expect(headings).toEqual([
      'verdict',
      'unwise',
      'numbers',
      'differs',
      'differences',
      'whom',
      'why',
      'drift',
      'effort',
      'cautions',
      'limits',
      'method',
      'reproduce',
      'words',
    ]);
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('the verdict names the better run, by how much, and the key that makes the difference', () => {
    const { headline, told, paragraphs } = compareVerdict([plain, high]);
    expect(bare(headline)).toBe('“plain” is wrong least often.');
    expect(told).toBe(true);
    expect(bare(paragraphs[0]!)).toBe(
      'The designs differ in one key: doors.*.beams.*.height_m (“plain” 0.95, “high” 1.3).',
    );
    expect(bare(paragraphs[1]!)).toMatch(
      /“high” is wrong more often, by [\d.]+ \(95 % interval [\d.]+ to [\d.]+\) per 100 crossings/,
    );
    for (const words of paragraphs) expect(text(page)).toContain(bare(words));
  });

  test('which run is named first changes what is compared with what, not which is better', () => {
    expect(compareVerdict([high, plain]).headline).toBe(compareVerdict([plain, high]).headline);
  });

  test('what would be unwise to conclude is said near the top, in three to five lines', () => {
    const lines = unwise([plain, high]);
    expect(lines.length).toBeGreaterThanOrEqual(3);
    expect(lines.length).toBeLessThanOrEqual(5);
    expect(page.indexOf('id="unwise"')).toBeLessThan(page.indexOf('id="numbers"'));
    expect(text(page)).not.toContain('not paired,');
  });

  test('everything there is to run again is on it, for each run', () => {
    expect(page.match(/jambeam run scenario\.yaml --seed 5 --replicates 8 --hours 3/g)).toHaveLength(2);
    expect(page).toContain('height_m: 1.3');
    expect(page).toContain('height_m: 0.95');
  });
});

describe('runs that met different people', () => {
  test('the page says so at the top, in the list of what is unwise, and beside each number', async () => {
    const page = text(await render([plain, reseeded]));
    expect(page).toContain('not the same: nothing is paired');
    expect(page).toContain('they met different people, for they have different seeds');
    expect(page.match(/not paired/g)!.length).toBeGreaterThan(5);
    expect(page).toContain('The designs are the same');
    expect(page).not.toMatch(/paired, 8 replicates(?! each)/);
  });

  test('the same design under other people can’t be told apart, and is told how many replicates it would take', () => {
    const { headline, told, paragraphs } = compareVerdict([plain, reseeded]);
    expect(told).toBe(false);
    expect(bare(headline)).toMatch(/can’t be told apart by how often they are wrong\.$/);
    expect(bare(paragraphs[1]!)).toMatch(/roughly [\d,]+ replicates of each would tell it|No sensible number/);
  });
});

test('a run and itself: alike in every replicate, nothing is told apart', async () => {
  const twice = [plain, { ...plain, label: 'again' }];
  expect(bare(compareVerdict(twice).headline)).toBe('“plain” and “again” are wrong equally often.');
  const page = text(await render(twice));
  expect(page).toContain('Nothing: the designs are the same in every key');
  expect(page).not.toMatch(/yes, (?:better|worse)/);
});

test('three runs: each against the first, intervals also for all at once, the verdict for all pairs', async () => {
  const runs = [plain, high, low];
  const page = text(await render(runs));
  expect(page).toContain('all at once:');
  expect(page).toContain('hold for all pairs of runs at once');
  expect(bare(compareVerdict(runs).headline)).toBe('“plain” is wrong least often.');
  expect(page).toContain('“plain” 0.95, “high” 1.3, “low” 0.3');
});

test('different doors: only those that all have are compared, and the page says so', async () => {
  const design = { ...plain.design, doors: plain.design.doors.slice(0, 1) };
  const { simulate } = await import('../../../src/simulate/simulate.js');
  const fewer: CompareRun = { label: 'fewer', design, ...simulate(design) };
  const page = text(await render([plain, fewer]));
  expect(page).toContain('Not all runs have the same doors');
  expect(page).toContain('doors.back there not there');
  expect(page).toMatch(/Door front what/);
  expect(page).not.toMatch(/Door back what/);
});

test('a run made before replicates were kept: values, no intervals, and “run it again”', async () => {
  const { replicates: _, ...figures } = high.figures;
  const page = text(await render([plain, { ...high, figures }]));
  expect(page).toContain('run it again');
  expect(page).toContain('no replicates kept');
  expect(page).not.toMatch(/yes, (?:better|worse)/);
});

test('different logics in the headline are told', async () => {
  const first = runOf('first', ['replicates=8', 'logics=[first-broken]']);
  expect(unwise([plain, first]).join(' ')).toContain('first logic');
  const page = text(await render([plain, first]));
  expect(page).toContain('logics.first-broken not there there');
});

test('hostile labels, title and author are text and nothing else', async () => {
  const evil = '"><script>alert(1)</script><img src=x onerror=alert(1)>';
  const turned = '\u202eevil\u0000</style>';
  const page = await render(
    [
      { ...plain, label: evil },
      { ...high, label: turned },
    ],
    { title: '</title><script>', prepared_by: '<b>me' },
  );
  expect(page).not.toMatch(/<script|<img|<b>me/);
  expect(page).not.toContain('\u202e');
  expect(page).not.toContain('\u0000');
  expect(page.match(/<\/style>/g)).toHaveLength(1);
  expect(text(page)).toContain('Prepared by');
});

test('no run alone, no two of one name', async () => {
  await expect(render([plain])).rejects.toThrow(RangeError);
  await expect(render([plain, { ...high, label: 'plain' }])).rejects.toThrow(RangeError);
});

test('the terminal gets the verdict in a few lines, without marks of direction', () => {
  const lines = compareSummaryText([plain, high]);
  expect(lines).toMatch(
    /^“plain” is wrong least often\.\n“high” against “plain”: [\d.]+ \([\d.]+ to [\d.]+\) wrong per 100 crossings more\n/,
  );
  expect(lines).not.toMatch(/[\u2066-\u2069]/);
  expect(lines.trimEnd().split('\n').length).toBeLessThanOrEqual(9);
});
