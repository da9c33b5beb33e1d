import { expect, test } from 'vitest';
import { HOPELESS_PER_100, verdictOf } from '../../src/report/verdict.js';
import type { Metrics } from '../../src/score/metrics-schema.js';
import { est, inventedDesign, inventedMetrics, unknown } from './fixture.js';

type Outcome = Metrics['targets'][number]['outcome'];
const withOutcomes = (...outcomes: Outcome[]): Metrics => ({
  ...inventedMetrics(),
  targets: outcomes.map((outcome) => ({ metric: 'house.wrong_per_100', at_most: 5, outcome, more_replicates: null })),
});
const plainly = (text: string): string => text.replace(/[\u2068\u2069]/g, '').replace(/\u00a0/g, ' ');

test('one missed target is a no, whatever the others say', () => {
  expect(verdictOf(inventedDesign(), withOutcomes('met', 'undecided', 'missed')).headline).toBe('No, not like this.');
});

test('all met is a yes; anything open keeps it open', () => {
  expect(verdictOf(inventedDesign(), withOutcomes('met', 'met')).answer).toBe('yes');
  expect(verdictOf(inventedDesign(), withOutcomes('met', 'undecided')).answer).toBe('undecided');
  expect(verdictOf(inventedDesign(), withOutcomes('met', 'unknown')).answer).toBe('undecided');
});

test('without targets it says neither, unless the numbers are hopeless beyond chance', () => {
  const metrics = withOutcomes();
  const at = (low: number): Metrics => ({
    ...metrics,
    house: { ...metrics.house, wrong_per_100: est(low + 3, 3) },
  });
  expect(verdictOf(inventedDesign(), at(HOPELESS_PER_100 - 1)).answer).toBe('unjudged');
  expect(verdictOf(inventedDesign(), at(HOPELESS_PER_100)).answer).toBe('no');
  expect(verdictOf(inventedDesign(), at(HOPELESS_PER_100)).because).toContain('threshold of ours');
});

test('the verdict names the mix, each door with its interval, and the kind that goes wrong most', () => {
  const v = verdictOf(inventedDesign(), inventedMetrics());
  const doors = plainly(v.doors.join(' '));
  expect(doors).toContain('With 62 % adults going through, 24 % children going through, 6 % adults two abreast');
  expect(doors).toContain('9.3 (95 % interval 7.9 to 10.7) at door hall-door');
  expect(doors).toContain('13.0 (95 % interval 11.6 to 14.5) at door garden-door');
  // 9.31 and 13.03 wrong per 100 of 4,120 and 1,985 crossings: the first door makes more of them in the same hours.
  expect(plainly(v.worst)).toContain('Most goes wrong at door hall-door: about 403 wrong counts in 168 hours');
  expect(plainly(v.worst)).toContain('9.3 (95 % interval 7.9 to 10.7) per 100 crossings');
  // 1.05 × 494 visits a week × 49.2 wrong per 100.
  expect(plainly(v.worst)).toContain('Worst there: adults two abreast, with 255 (95 % interval 251 to 260) of them');
  expect(v.rivals).toBeNull();
});

test('doors with mixes of their own get a sentence each', () => {
  const design = inventedDesign();
  const [first, second] = design.doors;
  if (first === undefined || second === undefined) throw new Error('the fixture has two doors');
  second.traffic.mix = [{ who: 'child', kind: 'through', share: 1 }];
  const sentences = verdictOf(design, inventedMetrics()).doors.map(plainly);
  expect(sentences).toHaveLength(3);
  expect(sentences[1]).toMatch(/^With 100 % children going through, .* at door garden-door\.$/);
  expect(sentences[2]).toContain('each with its mix');
});

test('a kind without a number is not ranked, and a run without any wrong says so', () => {
  const metrics = inventedMetrics();
  const kinds = (e: Metrics['house']['wrong_per_100']): Metrics => ({
    ...metrics,
    doors: metrics.doors.map((d) => ({
      ...d,
      invented_per_hour: e,
      wrong_per_100: e,
      by_kind: d.by_kind.map((k) => ({ ...k, wrong_per_100_visits: e, wrong_per_week: e })),
    })),
  });
  expect(verdictOf(inventedDesign(), kinds(unknown('no visit'))).worst).toContain('No kind of passage has a number');
  expect(verdictOf(inventedDesign(), kinds(est(0, 0.1))).worst).toContain('Nothing was counted wrong at any door');
});

test('a door nobody went through tells what it counted an hour, one that nobody came to says so', () => {
  const design = inventedDesign();
  const none = unknown('no crossings');
  const [first, ...others] = inventedMetrics().doors;
  if (first === undefined) throw new Error('the fixture has doors');
  const uncrossed = { ...first, person_crossings: 0, wrong_per_100: none, invented_per_hour: est(28, 6) };
  const said = (door: typeof first): string =>
    plainly(verdictOf(design, { ...inventedMetrics(), doors: [door, ...others] }).doors.join('\n'));
  expect(said(uncrossed)).toMatch(/nobody went through door hall-door .* an hour: 28 \(95 % interval 22 to 34\)\./);
  expect(said({ ...uncrossed, visits: 0, tallies: 0 })).toContain('Nobody came to door hall-door in this run');
  expect(said(first)).not.toMatch(/nobody/i);
});

test('parties that could not set out are told where they are more than a few', () => {
  const metrics = inventedMetrics();
  const unmet = (parties: number): string => {
    const doors = metrics.doors.map((d) => (d.door === 'hall-door' ? { ...d, unmet_parties: parties } : d));
    return plainly(verdictOf(inventedDesign(), { ...metrics, doors }).doors.join('\n'));
  };
  expect(unmet(0)).not.toContain('did not come');
  expect(unmet(1)).not.toContain('did not come');
  expect(unmet(411)).toContain('At door hall-door 411 parties did not come');
});

test('rivals beyond three are others', () => {
  const metrics = inventedMetrics();
  const doors = metrics.doors.map((d) => ({
    ...d,
    by_kind: d.by_kind.map((k) => ({ ...k, wrong_per_week: est(50, 20) })),
  }));
  expect(plainly(verdictOf(inventedDesign(), { ...metrics, doors }).rivals ?? '')).toMatch(
    /^The intervals of [^,]+, [^,]+, [^,]+ and others reach as high/,
  );
});
