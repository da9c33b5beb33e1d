// What a reader sees first: the question, what not to conclude, and who stands in the doorway. The expected words are worked
// out by hand from the invented numbers.
import { describe, expect, test } from 'vitest';
import { askedWords } from '../../src/report/asked.js';
import { peopleDrawn } from '../../src/report/drawing/people.js';
import { renderReport } from '../../src/report/report.js';
import { FEW_REPLICATES } from '../../src/report/few-replicates.js';
import { unwiseOf } from '../../src/report/unwise.js';
import { namedOnce } from '../../src/report/words.js';
import type { Silhouette } from '../../src/score/figures.js';
import type { Metrics } from '../../src/score/metrics-schema.js';
import { est, inventedDesign, inventedInput, inventedMetrics } from './fixture.js';
import { activity, houseDesign, houseMetrics } from './house-fixture.js';

const plainly = (text: string): string => text.replace(/[\u2068\u2069]/g, '').replace(/\u00a0/g, ' ');
const lines = (metrics: Metrics, design = inventedDesign(), figures = {}): string[] =>
  unwiseOf(design, metrics, figures).map(({ that, why, section }) => plainly(`${that}: ${why} #${section}`));

describe('what was asked, in one sentence', () => {
  test('of doors with a mix: sensors, frames, logics, who comes, how long', () => {
    expect(plainly(askedWords(inventedDesign(), inventedMetrics(), {}))).toBe(
      'Five light barriers in the frames of two doors, read by the logic four-level (two more are compared). ' +
        'An assumed crowd of adults, children and adults with an infant, over 20 replicates of 8 h from 08:00.',
    );
  });

  test('of a house: its people, animals and guests, and days', () => {
    const asked = plainly(askedWords(houseDesign(), houseMetrics(), {}));
    expect(asked).toContain('An assumed household of 2 people, 1 pet and guests (one carried)');
    expect(asked).toMatch(/of 7 days from [A-Z]\w+day \d\d:\d\d\.$/);
  });
});

describe('what would be unwise to conclude', () => {
  test('the crowd is assumed, first; no life may hang on it, last; four lines at most', () => {
    const said = lines(inventedMetrics());
    expect(said[0]).toMatch(/^your door would do the same: Who comes and what they do is assumed/);
    expect(said.at(-1)).toMatch(/^a life may hang on it: .* #cautions$/);
    expect(said.length).toBeLessThanOrEqual(4);
  });

  test('an undecided target, with how many replicates would decide', () => {
    expect(lines(inventedMetrics()).join('\n')).toContain(
      'door hall-door: missed per 100 crossings\u201d is undecided. About 31 more replicates would decide.',
    );
    expect(lines({ ...inventedMetrics(), targets: [] }).join('\n')).not.toContain('undecided');
  });

  test('few replicates, and only few', () => {
    const of = (replicates: number): string => lines({ ...inventedMetrics(), replicates }).join('\n');
    expect(of(FEW_REPLICATES - 1)).toContain('They stand on 9 replicates');
    expect(of(FEW_REPLICATES)).not.toContain('They stand on');
  });

  test('a zero is not a never', () => {
    const metrics = { ...inventedMetrics(), targets: [] };
    const none = { ...est(0, 0), low: 0, high: 0.9 };
    const said = lines({ ...metrics, house: { ...metrics.house, wrong_per_100: none } }).join('\n');
    expect(said).toContain('is 0 here, with up to 0.9 inside its interval');
    expect(lines(metrics).join('\n')).not.toContain('is 0 here');
  });

  test('of one door, what half and double of a share would make of the headline', () => {
    const {
      doors: [door],
      ...design
    } = inventedDesign();
    const metrics = inventedMetrics();
    const one = { ...metrics, doors: metrics.doors.filter((d) => d.door === door?.name) };
    // The fixture's door has 8.2 at half and 11.6 at double of every share.
    expect(lines(one, { ...design, doors: door ? [door] : [] })[0]).toContain(
      'the 9.3 wrong per 100 become 8.2 to 11.6.',
    );
  });

  test('of a house, what half and double of its activity gave', () => {
    const runs = activity(0.1, 0.1).map((run) => ({
      ...run,
      wrong_per_100: est(run.what === 'double' ? 7.5 : 2.5, 0.5),
    }));
    const said = lines(houseMetrics(), houseDesign(), { activity: runs })[0];
    expect(said).toMatch(
      /half the activity gives 2\.5\d* wrong per 100, double gives 7\.5\d*, this run [\d.]+\. #activity$/,
    );
    expect(lines(houseMetrics(), houseDesign())[0]).toMatch(/assumed, not surveyed\. #sources$/);
  });

  test('a kind with fewer than ten visits, where nothing presses more', () => {
    const metrics = { ...inventedMetrics(), targets: [], rooms: [], hours: 48 };
    const doors = metrics.doors.map((d) => ({
      ...d,
      by_kind: d.by_kind.map((k, i) => (i === 0 ? { ...k, visits: 9 } : k)),
    }));
    expect(lines({ ...metrics, doors }).join('\n')).toMatch(/came fewer than 10 times.* #whom/);
    expect(lines(metrics).join('\n')).not.toContain('fewer than 10');
  });

  test('of a log no crowd was assumed', () => {
    const replayed = { rows: 10, edges: 10, readings: 0, span_h: 3, repairs: [] };
    expect(lines(inventedMetrics(), inventedDesign(), { replayed }).join('\n')).not.toContain('assumed');
  });
});

describe('who stands in the doorway', () => {
  const [adult, child] = inventedInput().figures.silhouettes as [Silhouette, Silhouette];
  const rex: Silhouette = { ...child, who: 'rex', is: 'pet', stature_m: 0.6 };
  const withAnimals = async (...animals: Silhouette[]): Promise<string> => {
    const input = inventedInput();
    return renderReport({ ...input, figures: { ...input.figures, silhouettes: [adult, child, ...animals] } });
  };

  test('a grown-up, a child, and an animal where the run has one', () => {
    const who = (silhouettes: Silhouette[]): string[] => peopleDrawn({ silhouettes }).map((one) => one.who);
    expect(who([adult, child])).toEqual(['adult', 'child']);
    expect(who([adult, { ...adult, who: 'second' }, rex, child])).toEqual(['adult', 'child', 'rex']);
    const named: Silhouette[] = [
      { ...adult, who: 'ida', is: 'adult' },
      { ...child, who: 'leo', is: 'child' },
    ];
    expect(who(named)).toEqual(['ida', 'leo']);
    expect(who([{ ...adult, who: 'rod', is: 'other' }])).toEqual(['rod']);
  });

  test('each outline is drawn once and set into every door', async () => {
    const [without, with_] = [await withAnimals(), await withAnimals(rex)];
    expect(without.match(/<use /g)).toHaveLength(2 * 2);
    expect(without).not.toContain('id="who-2"');
    expect(with_.match(/<use /g)).toHaveLength(2 * 3);
    expect(with_.match(/id="who-2"/g)).toHaveLength(1);
    expect(plainly(with_)).toContain('“rex” of 0.60 m');
  });
});

test('in a paragraph only the first interval is called one', () => {
  const said = '3.9 (95\u00a0% interval 3.2 to 4.7), then 98 (95\u00a0% interval 66 to 129).';
  expect(namedOnce(said)).toBe('3.9 (95\u00a0% interval 3.2 to 4.7), then 98 (66 to 129).');
  expect(namedOnce('nothing here')).toBe('nothing here');
});
