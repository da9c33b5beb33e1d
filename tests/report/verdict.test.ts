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
  expect(plainly(v.worst)).toContain(
    'Adults lingering at door garden-door go wrong most: 86 (95 % interval 75 to 97) per 100 visits of that kind, from 124 visits.',
  );
  // 70 ± 7.2 reaches over 75, 69 ± 4.4 does not: only the first is named as a rival.
  expect(plainly(v.worst)).toContain('The interval of adults with an infant going through at door garden-door');
  expect(v.worst).not.toContain('two abreast');
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
    doors: metrics.doors.map((d) => ({ ...d, by_kind: d.by_kind.map((k) => ({ ...k, wrong_per_100_visits: e })) })),
  });
  expect(verdictOf(inventedDesign(), kinds(unknown('no visit'))).worst).toContain('No kind of passage has a number');
  expect(verdictOf(inventedDesign(), kinds(est(0, 0.1))).worst).toContain('No kind of passage went wrong at all');
});

test('a kind seen only a few times is never called the worst', () => {
  const metrics = inventedMetrics();
  const door = metrics.doors[0];
  if (door === undefined) throw new Error('the fixture has doors');
  door.by_kind.push({
    who: 'child',
    kind: 'linger',
    visits: 2,
    person_crossings: 2,
    missed: 2,
    reversed: 0,
    extra: 0,
    invented: 0,
    wrong_per_100_visits: est(100, 0, 2),
    visits_per_week: est(2, 1, 2),
    wrong_per_week: est(2, 1, 2),
    net_error_per_week: est(0, 1, 2),
    first_wrong_median_days: est(2, 1, 2),
  });
  const { worst } = verdictOf(inventedDesign(), { ...metrics, doors: [door] });
  expect(plainly(worst)).toMatch(/^Adults lingering/);
  expect(worst).not.toContain('children lingering');
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
    by_kind: d.by_kind.map((k) => ({ ...k, wrong_per_100_visits: est(50, 20) })),
  }));
  expect(plainly(verdictOf(inventedDesign(), { ...metrics, doors }).worst)).toMatch(
    /The intervals of [^,]+, [^,]+, [^,]+ and others reach as high/,
  );
});
