// The report of a study, made from summaries that are invented: what a reader finds, whatever the study came to.
import { describe, expect, test } from 'vitest';
import { renderStudyReport } from '../../../src/report/study/report.js';
import { type StudyFactor, studySummarySchema } from '../../../src/study/summary-schema.js';
import { HEIGHT, SENSOR, SPACING, inventedStudy, knownResponse } from './invented-study.js';
import { expectWholeByItself } from '../whole.js';

const textOf = (page: string): string =>
  page
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/[\u2068\u2069]/g, '')
    .replace(/\u00a0/g, ' ')
    .replace(/&#39;/g, "'")
    .replace(/\s+/g, ' ');

const titles = (page: string): string[] =>
  [...page.matchAll(/<figcaption><h3>(.*?)<\/h3>/g)].map(([, title]) => textOf(title!).trim());

const section = (page: string, id: string): string =>
  new RegExp(`<section aria-labelledby="${id}".*?</section>`, 's').exec(page)?.[0] ?? '';

describe('of a study whose truth is known: best at 0.9 m, a slow ranger worse by 6', async () => {
  const page = await renderStudyReport(inventedStudy());
  const text = textOf(page);

  test('it is whole by itself: no script, nothing to fetch, no link', () => {
    expectWholeByItself(page);
    expect(page).toContain('default-src &#39;none&#39;');
  });

  test('nothing in it is undefined, NaN, infinite or an object', () => {
    expect(text).not.toMatch(/undefined|NaN|Infinity|\[object|\bnull\b/);
    expect(page).not.toMatch(/="[^"]*(?:NaN|undefined|Infinity)/);
  });

  test('the titles of the curves tell where the response is best and worst', () => {
    expect(titles(page)).toEqual(
      expect.arrayContaining([
        'Height: best at 0.9 m, worst at 0.5 m',
        'Sensor: best at barrier, worst at slow ranger',
      ]),
    );
    // Truly 0.6 apart, which the intervals of single designs do not show.
    expect(
      titles(page).find((title) => title.startsWith('Spacing: no level') || title.startsWith('Spacing: seems')),
    ).toBeDefined();
  });

  test('children are told to go wrong most where the height is worst', () => {
    expect(titles(page)).toContain('Height: children counted wrong most at 0.5 m, least at 0.9 m');
  });

  test('the heat map has a number for each pair of the two heaviest factors', () => {
    const heat = section(page, 'heat');
    expect(textOf(heat)).toContain('Height against sensor');
    expect(heat.match(/<td class="num/g)).toHaveLength(HEIGHT.levels.length * SENSOR.levels.length);
    expect(heat.match(/<td class="num best"/g)).toHaveLength(1);
    expect(heat).not.toContain('class="none"');
  });

  test('the picture of cost names the cheap design and the best one', () => {
    expect(titles(page).find((title) => title.startsWith('Cost:'))).toMatch(
      /^Cost: from 41.50 crowns \(design \d+, [\d.]+\) to 88.00 crowns \(the best\)$/,
    );
    // The cheap ones all have the ranger, which is the worse one: the front has both ends.
    expect(textOf(section(page, 'effort'))).toMatch(/sensor slow ranger 41.50 crowns.*sensor barrier 88.00 crowns/);
  });

  test('the ranking has a row for each design, the best first, none of them better than the best', () => {
    const rows = section(page, 'ranking').match(/<tr><th scope="row">/g);
    expect(rows).toHaveLength(24);
    expect(textOf(section(page, 'ranking'))).toMatch(/replicates 15 [\d.]+ [\d. to]+ 0.9 m 0.06 m barrier – – perhaps/);
  });

  test('the largest step is the one that the response has', () => {
    // By hand: 60·(0.4² − 0.2²) = 7.2 from 0.5 m to 0.7 m; the ranger 6; 2.4 from 0.7 m to 0.9 m.
    expect(titles(page)).toContain('Largest step: height: from 0.5 m to 0.7 m');
    expect(knownResponse({ height_m: '0.5' }) - knownResponse({ height_m: '0.7' })).toBeCloseTo(7.2, 10);
  });

  test('methods are named with their sources', () => {
    const method = textOf(section(page, 'method'));
    for (const source of ['Nelson', 'Holm', 'Welch', 'Bonferroni', 'ackknife']) expect(method).toContain(source);
  });

  test('cautions are in it, and how to run it again', () => {
    const cautions = textOf(section(page, 'cautions'));
    for (const word of ['fire door', 'Mains', 'eye-safe', 'dogs and cats', 'personal data', 'a life may hang'])
      expect(cautions).toContain(word);
    expect(textOf(section(page, 'reproduce'))).toContain('jambeam study STUDY.yaml');
    expect(textOf(section(page, 'reproduce'))).not.toContain('--resume');
  });

  test('the same summary gives the same page', async () => {
    expect(await renderStudyReport(inventedStudy())).toBe(page);
  });
});

describe('of a study that is not finished', async () => {
  const summary = inventedStudy({
    unfinished: { 3: 4, 8: 0 },
    failed: { 5: 'the pair is wider than the <jamb> is deep' },
    leftOut: (words) => words['height_m'] === '1.1' && words['sensor'] === 'slow ranger',
  });
  const page = await renderStudyReport(summary);
  const text = textOf(page);

  test('the first screen says so plainly, with designs and cells', () => {
    const cells = summary.designs.reduce((sum, { replicates }) => sum + replicates, 0);
    expect(text.indexOf('not finished: 18 of 21 designs')).toBeLessThan(200);
    expect(text).toContain(`This study is not finished: 18 of 21 designs are done, and ${cells} of at most 420 cells.`);
    expect(text).toContain('So far: design');
    expect(text).toContain('jambeam study STUDY.yaml --resume');
  });

  test('the failed design stands with its error, and in no comparison', () => {
    expect(text).toContain('1 design failed and is in no comparison.');
    expect(page).toContain('the pair is wider than the &lt;jamb&gt; is deep');
    expect(section(page, 'ranking').match(/<table class="ranking">.*?<\/table>/s)?.[0]).not.toMatch(/"row">5</);
  });

  test('combinations left out are counted, and missing in the heat map', () => {
    expect(text).toContain('3 combinations did not meet them and were left out.');
    expect(section(page, 'heat')).toContain('<td class="none">left out</td>');
    expect(textOf(section(page, 'heat'))).toContain('Hatched: 1 pair without a number.');
  });

  test('limits name what is open', () => {
    const limits = textOf(section(page, 'limits'));
    expect(limits).toContain('The study is not finished: 2 designs of 21 may still change');
    expect(limits).toContain('1 design failed.');
    expect(limits).toContain('4 replicates in common are few');
  });
});

describe('of studies of other kinds', () => {
  test('an axis has the levels as they are, not rounded to its steps', async () => {
    const levels = [0.3, 0.65, 0.95, 1.25].map((value) => ({ label: String(value), value }));
    const page = await renderStudyReport(inventedStudy({ factors: [{ ...HEIGHT, levels }] }));
    const curve = /<figure class="chart" id="curve-0">.*?<\/figure>/s.exec(page)![0];
    const labels = [...curve.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text);
    expect(labels).toEqual(expect.arrayContaining(['0.3', '0.65', '0.95', '1.25']));
  });

  test('one factor only: a curve, and no heat map', async () => {
    const page = await renderStudyReport(inventedStudy({ factors: [HEIGHT] }));
    expect(titles(page)).toContain('Height: best at 0.9 m, worst at 0.5 m');
    expect(section(page, 'heat')).toBe('');
    expect(textOf(page)).not.toContain('Factors that act on each other');
  });

  test('no factor is a number: dots instead of curves, and the table of bodies alone', async () => {
    const page = await renderStudyReport(inventedStudy({ factors: [SENSOR] }));
    expect(textOf(page)).toContain('No factor is a number, so there are no curves');
    expect(titles(page)).toContain('Sensor: best at barrier, worst at slow ranger');
    expect(page).not.toContain('id="bodies-');
    expect(textOf(section(page, 'bodies'))).toContain('children');
  });

  test('one replicate: numbers without intervals, and no design called the best', async () => {
    const page = await renderStudyReport(inventedStudy({ replicates: 1 }));
    const text = textOf(page);
    expect(text).toContain('comes first of 24, perhaps by chance.');
    expect(text).toContain('All designs share one replicate only');
    expect(text).toContain('One replicate gives no interval and no test');
    expect(text).not.toMatch(/told from it: with 95 %|is the best of|NaN|\bnull\b/);
    expect(titles(page).filter((title) => / best at /.test(title) && !title.includes('seems best at'))).toEqual([]);
  });

  test('nothing is there yet: it says so, and has no comparison', async () => {
    const unfinished = Object.fromEntries(Array.from({ length: 24 }, (_, i) => [i + 1, 0]));
    const text = textOf(await renderStudyReport(inventedStudy({ unfinished })));
    expect(text).toContain('No design has a number yet.');
    expect(text).toContain('0 of 24 designs are done, and 0 of at most 480 cells');
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('all designs failed: each with its error', async () => {
    const failed = Object.fromEntries([1, 2].map((number) => [number, `reason ${number}`]));
    const text = textOf(await renderStudyReport(inventedStudy({ factors: [SENSOR], failed })));
    expect(text).toContain('No design has a number yet.');
    expect(text).toContain('2 designs failed and are in no comparison.');
    expect(text).toMatch(/reason 1.*reason 2/);
  });

  test('much is good: the best has the most, and a share is a percentage', async () => {
    const least = inventedStudy();
    const metric = 'house.exact_share';
    // Of a share that is 1 − wrong/100, all differences turn round.
    const turned = (x: number | null): number | null => (x === null ? null : 1 - x / 100);
    const difference = (d: { value: number; low: number | null; high: number | null }, sign: 1 | -1) => ({
      value: (sign * d.value) / 100,
      low: d.low === null || d.high === null ? null : (sign * (sign === 1 ? d.low : d.high)) / 100,
      high: d.low === null || d.high === null ? null : (sign * (sign === 1 ? d.high : d.low)) / 100,
    });
    const summary = studySummarySchema.parse({
      ...least,
      rank_by: { metric, unit: 'share of time', best: 'most' },
      designs: least.designs.map((design) => {
        const e = design.metrics['house.wrong_per_100']!;
        return {
          ...design,
          metrics: { [metric]: { ...e, value: turned(e.value), low: turned(e.high), high: turned(e.low) } },
        };
      }),
      ranking: {
        ...least.ranking,
        rows: least.ranking.rows.map((row) => ({
          ...row,
          worse_than_best: row.worse_than_best && difference(row.worse_than_best, 1),
        })),
      },
      effects: {
        ...least.effects,
        main: least.effects.main.map((step) => ({ ...step, change: difference(step.change, -1) })),
        interactions: [],
      },
    });
    const page = await renderStudyReport(summary);
    expect(titles(page)).toContain('Height: best at 0.9 m, worst at 0.5 m');
    expect(textOf(page)).toMatch(/comes to 97.\d % \(95 % interval 96.\d to 97.\d %\), from .*; more is better/);
    expect(textOf(page)).not.toContain('less is better');
  });

  test('no plan and no prices: no cable, no cost, and it says so', async () => {
    const effort = () => ({ holes: 4, cable_m: null, hours: 2, cost: null });
    const page = await renderStudyReport(inventedStudy({ effort }));
    const text = textOf(page);
    expect(text).toContain('nothing to weigh: cost not known, cable not known and holes 4.');
    expect(text).toContain('Without a plan of the house there are no lengths of cable');
    expect(text).toContain('Without prices in the scenario there is no cost.');
    expect(section(page, 'ranking')).not.toMatch(/<th scope="col">(?:cost|cable)/);
  });

  test('factors that change the crowd are told as such, and their differences too', async () => {
    const summary = inventedStudy({ factors: [HEIGHT, { ...SENSOR, unpaired: true }] });
    const rows = summary.ranking.rows.map((row, i) => ({ ...row, paired: i % 2 === 0 }));
    const text = textOf(await renderStudyReport({ ...summary, ranking: { ...summary.ranking, rows } }));
    expect(text).toContain('sensor changes the crowd itself, so its levels met different people');
    expect(text).toContain('other crowds');
  });

  test('a study that stops by itself: which designs ended by a budget', async () => {
    const summary = inventedStudy();
    const designs = summary.designs.map((design, i) => ({
      ...design,
      ended: i < 5 ? ('replicates' as const) : i < 7 ? ('passages' as const) : ('narrow' as const),
    }));
    const replicates = {
      fixed: null,
      until: 'house.wrong_per_100',
      half_width: 0.5,
      batch: 4,
      at_least: 8,
      at_most: 20,
      most_passages: 90_000,
    };
    const text = textOf(await renderStudyReport({ ...summary, designs, replicates }));
    expect(text).toContain('7 designs ended because a budget was used up, not because the interval was narrow: ±0.5');
    expect(text).toContain(
      'A design gets replicates until the interval of all doors: wrong per 100 crossings is no wider than ±0.5',
    );
    expect(text.match(/budget used up(?!,)/g)?.length).toBe(7);
  });
});

describe('whatever names are like', () => {
  const EVIL = '"><script>alert(1)</script>\u202e\u0000&amp;';

  test('markup in them is shown, not run; marks that cannot be printed are replaced', async () => {
    const evil = (factor: StudyFactor): StudyFactor => ({
      ...factor,
      name: `${EVIL}${factor.name}`,
      keys: [EVIL],
      unit: factor.unit === null ? null : EVIL,
      levels: factor.levels.map(({ label, value }) => ({ label: `${label}${EVIL}`, value })),
    });
    const summary = inventedStudy({ factors: [HEIGHT, SENSOR] });
    const page = await renderStudyReport({
      ...summary,
      name: EVIL,
      scenario: EVIL,
      seed: EVIL,
      jambeam: EVIL,
      currency: EVIL,
      doors: [EVIL],
      where: [EVIL],
      factors: summary.factors.map(evil),
      designs: summary.designs.map((design, i) => ({
        ...design,
        ...(i === 1 && { state: 'failed' as const, error: EVIL }),
        by_who: design.by_who.map((one) => ({ ...one, who: `${EVIL}${one.who}` })),
      })),
    });
    expect(page).not.toContain('<script');
    // oxlint-disable-next-line no-control-regex
    expect(page).not.toMatch(/[\u0000\u202e]/);
    expect(page).toContain('&lt;script&gt;');
  });

  test('a path that names no known metric stands as it is', async () => {
    const summary = inventedStudy({ factors: [SENSOR] });
    const metric = '<b>strange</b>.path';
    const page = await renderStudyReport({
      ...summary,
      rank_by: { ...summary.rank_by, metric },
      designs: summary.designs.map((design) => ({
        ...design,
        metrics: { [metric]: design.metrics['house.wrong_per_100']! },
      })),
    });
    expect(page).toContain('&lt;b&gt;strange&lt;/b&gt;.path');
    expect(page).not.toContain('<b>strange');
  });
});

describe('of large studies', () => {
  const many = (count: number, step: number): StudyFactor['levels'] =>
    Array.from({ length: count }, (_, i) => {
      const value = Number((0.3 + i * step).toFixed(3));
      return { label: String(value), value };
    });

  test('200 designs stay below 3 MB, with no more than 12 pictures', async () => {
    const factors = [{ ...HEIGHT, levels: many(25, 0.05) }, { ...SPACING, levels: many(4, 0.03) }, SENSOR];
    const page = await renderStudyReport(inventedStudy({ factors, replicates: 8 }));
    expect(section(page, 'ranking').match(/<tr><th scope="row">/g)).toHaveLength(200);
    expect(Buffer.byteLength(page)).toBeLessThan(3_000_000);
    expect(titles(page).length).toBeLessThanOrEqual(12);
  });

  test('of more than 200 the first 200 are shown, and it says so', async () => {
    const factors = [
      { ...HEIGHT, levels: many(70, 0.01) },
      { ...SPACING, levels: many(3, 0.03) },
    ];
    const page = await renderStudyReport(inventedStudy({ factors, replicates: 3 }));
    expect(section(page, 'ranking').match(/<tr><th scope="row">/g)).toHaveLength(200);
    expect(textOf(page)).toContain('The first 200 of 210 designs are shown');
  });

  test('twelve factors: no more than 12 pictures, and levels in one cell', async () => {
    const factors = Array.from(
      { length: 12 },
      (_, f): StudyFactor => ({
        ...(f < 8 ? HEIGHT : SENSOR),
        name: `factor${f}`,
        levels: (f < 8 ? HEIGHT : SENSOR).levels.slice(0, f < 6 ? 2 : 1),
      }),
    );
    const page = await renderStudyReport(
      inventedStudy({ factors, replicates: 4, response: (words) => 5 + 50 * Number(words['factor0']) }),
    );
    expect(titles(page).length).toBeLessThanOrEqual(12);
    expect(titles(page)).toContain('Factor0: best at 0.5 m, worst at 0.7 m');
    expect(section(page, 'ranking')).toContain('<th scope="col">levels</th>');
  });
});
