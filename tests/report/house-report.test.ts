// The report of a household over a week: sections, tables and pictures carry the numbers they were given.
import { describe, expect, test } from 'vitest';
import { causesOf, wrongPerWeek } from '../../src/report/causes.js';
import { drawCharts } from '../../src/report/charts/chart.js';
import { hourlyChart, perHour } from '../../src/report/charts/hourly.js';
import { roomDriftChart } from '../../src/report/charts/room-drift.js';
import { survivalChart } from '../../src/report/charts/survival.js';
import { renderReport } from '../../src/report/report.js';
import { MOST_ROWS } from '../../src/report/sections/week.js';
import { durationWords, waitWords } from '../../src/report/wait-words.js';
import { whoIn } from '../../src/report/who-words.js';
import { est, inventedInput, unknown } from './fixture.js';
import { hourly, houseDesign, houseInput, houseMetrics, kind } from './house-fixture.js';

const textOf = (page: string): string =>
  page
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/[\u2068\u2069]/g, '')
    .replace(/\u00a0/g, ' ')
    .replace(/\s+/g, ' ');
const section = (page: string, id: string): string =>
  textOf(new RegExp(`<section aria-labelledby="${id}">.*?</section>`, 's').exec(page)?.[0] ?? '');

describe('the report of a household', async () => {
  const page = await renderReport(houseInput());

  test('has the hours, the week and the activity, in order', () => {
    const ids = [...page.matchAll(/<h2 id="([a-z]+)"/g)].map((m) => m[1]);
    const order =
      'verdict unwise seen answer doorways confusion rooms hours whom week logics effort cautions activity sources limits reproduce words';
    expect(ids).toEqual(order.split(' '));
  });

  test('speaks of no mix', () => {
    expect(textOf(page)).not.toContain('If the mix were another');
    expect(textOf(page)).not.toContain('the mix does not give');
    expect(section(page, 'sources')).not.toContain('shares of arriving parties');
    expect(section(page, 'sources')).toContain('Their habits, when they sleep');
  });

  test('tells each room with each ledger: right, dark, longest, left on, first wrong', () => {
    expect(section(page, 'rooms')).toContain(
      // Exactly right, dark a day, longest with the most, left on a day, longest, first wrong.
      'raw sum 31 % 26 to 36 % 0.40 0.30 to 0.50 47 min 35 to 59 min at most 93 min 6.0 5.0 to 7.0 5 h 4 to 6 h at most 8 h 7.4 h 5.4 to 9.4 h',
    );
  });

  test('tells all rooms at once', () => {
    expect(section(page, 'rooms')).toContain(
      'floor at zero 35 % 31 to 39 % 0.50 0.30 to 0.70 3.8 3.3 to 4.3 8.0 7.0 to 9.0 6.1 h 5.1 to 7.1 h',
    );
  });

  test('tells the week: door, who does what, passages, wrong, the wait, what it does to the rooms', () => {
    expect(section(page, 'week')).toContain(
      'kitchen-door “ida” carrying an infant, going through 20 + 400 extra visits 20.0 19.0 to 21.0 3 days 2 to 4 days kitchen +1.5 and hall −1.5 1.0 to 2.0',
    );
    // Nobody keeps a count of outside.
    expect(section(page, 'week')).toContain('hall +1.5 1.0 to 2.0');
    expect(section(page, 'week')).not.toContain('outside');
  });

  test('tells half, as assumed and double', () => {
    expect(section(page, 'activity')).toMatch(/Half 15 12 to 18 60 % 55 to 65 % 6 h 4 to 8 h/);
    expect(section(page, 'activity')).toMatch(/As assumed .* Double 15/);
  });

  test('draws hours, how long counts stay right, and how far they run away: one picture a door or room', () => {
    const count = (id: string): number =>
      page.match(new RegExp(`<figure class="chart" id="${id}-\\d+"`, 'g'))?.length ?? 0;
    expect([count('hourly'), count('right'), count('room-drift')]).toEqual([2, 2, 2]);
  });

  test('never prints a number that is none', () => {
    expect(textOf(page)).not.toMatch(/\bNaN\b|Infinity|undefined|\[object|\bnull\b/);
  });

  test('has unique ids, and is the same each time', async () => {
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
    expect(await renderReport(houseInput())).toBe(page);
  });
});

test('more kinds than a reader looks at are folded, none lost', async () => {
  const input = houseInput();
  const [door] = input.metrics.doors;
  if (door === undefined) throw new Error('the fixture has doors');
  door.by_kind = Array.from({ length: 40 }, (_, i) => kind(`guest-${i}`, 'through', 50, i));
  const doors = [door];
  const page = await renderReport({ ...input, metrics: { ...input.metrics, doors } });
  const week = /<section aria-labelledby="week">.*?<\/section>/s.exec(page)?.[0] ?? '';
  const [open = '', folded = ''] = week.split('<details');
  expect(open.match(/guest-/g)).toHaveLength(MOST_ROWS);
  expect(folded.match(/guest-/g)).toHaveLength(40 - MOST_ROWS);
  // The most wrong is the first.
  expect(open.indexOf('guest-39')).toBeLessThan(open.indexOf('guest-38'));
});

test('a house of six doors, three ledgers, many guests stays below the limit of its size', async () => {
  const input = houseInput();
  const names = Array.from({ length: 6 }, (_, i) => `door-${i}`);
  const [door] = input.design.doors;
  const [metrics] = input.metrics.doors;
  if (door === undefined || metrics === undefined) throw new Error('the fixture has doors');
  const by_kind = Array.from({ length: 60 }, (_, i) => kind(`somebody-of-the-house-${i}`, 'through', 50 + i, i));
  const page = await renderReport({
    ...input,
    design: { ...input.design, doors: names.map((name) => ({ ...door, name })) },
    metrics: { ...input.metrics, doors: names.map((name) => ({ ...metrics, door: name, by_kind })) },
    figures: { ...input.figures, hourly: names.map(hourly) },
  });
  expect(Buffer.byteLength(page)).toBeLessThan(1_500_000);
});

test('a run of traffic has neither hours nor activity unless it is a day long', async () => {
  const input = inventedInput();
  expect(await renderReport(input)).not.toContain('id="hours"');
  const figures = { ...input.figures, hourly: [hourly('hall-door')] };
  const day = textOf(await renderReport({ ...input, figures, metrics: { ...input.metrics, hours: 24 } }));
  // Traffic is the same on all days: none of them is named.
  expect(day).toContain('Door hall-door: most go through from 15:00 to 16:00');
  expect(day).not.toContain('Saturday');
});

describe('pictures', () => {
  test('persons an hour are both ways over the hours that clocks spent there', () => {
    // Saturday 15:00: 300 each way over 10 hours; with Sunday's 5 each way, 610 over 20.
    expect(perHour(hourly('front'), [5], 15)).toBe(60);
    expect(perHour(hourly('front'), [5, 6], 15)).toBe(30.5);
    expect(perHour(hourly('front'), [], 15)).toBeNull();
  });

  test('the party shows, and so does the night', async () => {
    const chart = hourlyChart('h', hourly('front'), true);
    expect(chart?.title.replace(/[\u2068\u2069]/g, '')).toBe(
      'Door front: most go through on Saturdays from 15:00 to 16:00',
    );
    expect(chart?.summary).toContain('Hardly anybody from 22:00 to 07:00');
    expect(chart && (await drawCharts([chart], 3))[0]?.text).toContain('<svg');
  });

  test('a door nobody uses says so', () => {
    const silent = { ...hourly('front'), forward: hourly('front').forward.map(() => 0) };
    expect(hourlyChart('h', { ...silent, backward: silent.forward }, true)?.title).toContain('nobody goes through');
  });

  test('how long a count stays right: the finding is the half, of all ledgers or of those that fall', () => {
    const { survival } = houseInput().figures;
    const curves = survival.filter(({ room }) => room === 'kitchen');
    expect(survivalChart('s', curves)?.title).toContain(
      'wrong within 7\u00a0h with raw sum, within 9\u00a0h with conserved persons',
    );
    const lasting = curves.map((c, i) => (i === 2 ? { ...c, share: c.share.map(() => 1) } : c));
    expect(survivalChart('s', lasting)?.title).toContain('only conserved persons stays right');
    expect(survivalChart('s', [])).toBeNull();
  });

  test('how far a count runs away: both ledgers, in the title, at the end of the clock', () => {
    const bands = houseInput().figures.room_drift.filter(
      ({ room, ledger }) => room === 'kitchen' && ledger !== 'floor',
    );
    // −168 / 20 × 2 rounds to −17.
    expect(roomDriftChart('d', bands, 10)?.title).toContain('off by −17 with raw sum, 0 with conserved persons');
  });
});

describe('small pieces', () => {
  test('causes rank by wrong counts a week, without a number last', () => {
    const [, door] = houseMetrics().doors;
    if (door === undefined) throw new Error('the fixture has doors');
    door.by_kind.unshift(kind('nobody', 'through', 1, 0, { wrong_per_week: unknown('no time') }));
    expect(causesOf([door]).map(({ rate }) => rate.who)).toEqual(['ida-infant', 'ida', 'rex', 'nobody']);
  });

  test('wrong counts a week of a door without a crossing are those for nobody', () => {
    const [door] = houseMetrics().doors;
    if (door === undefined) throw new Error('the fixture has doors');
    const uncrossed = {
      ...door,
      person_crossings: 0,
      wrong_per_100: unknown('no crossings'),
      invented_per_hour: est(0.5, 0.1),
    };
    expect(wrongPerWeek(uncrossed, { replicates: 10, hours: 168 })).toBe(84);
  });

  test('times are in the unit that suits them, and an interval may be open', () => {
    expect(durationWords(0.5, 'h')).toBe('30\u00a0min');
    expect(durationWords(3, 'days')).toBe('3\u00a0days');
    expect(durationWords(90, 'h')).toBe('3.8\u00a0days');
    expect(durationWords(0, 'min')).toBe('0\u00a0min');
    expect(waitWords({ ...est(6, 1), high: null }, 'h')).toBe('6\u00a0h (95\u00a0% interval 5\u00a0h or longer)');
    expect(waitWords({ ...est(6, 1), value: null, high: null }, 'h')).toBe('5\u00a0h or longer');
    expect(waitWords(unknown('none seen'), 'h')).toBe('not known (none seen)');
  });

  test('names of a household say what is carried and whose guests they are', () => {
    const who = (name: string): string => whoIn(houseDesign())(name).replace(/[\u2068\u2069]/g, '');
    expect(who('ida-pram')).toBe('“ida” with a pram');
    expect(who('party-child')).toBe('children of “party”');
    expect(who('rex')).toBe('“rex”');
  });
});
