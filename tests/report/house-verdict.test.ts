// What the verdict says of a household: every expected number is worked out by hand from the invented ones.
import { describe, expect, test } from 'vitest';
import { cautionsFor } from '../../src/report/cautions.js';
import { crossingsPerDay } from '../../src/report/household-words.js';
import { summaryText } from '../../src/report/summary.js';
import { verdictOf, verdictParagraphs } from '../../src/report/verdict.js';
import type { Metrics } from '../../src/score/metrics-schema.js';
import { est } from './fixture.js';
import { activity, houseDesign, houseMetrics } from './house-fixture.js';

const plainly = (text: string): string => text.replace(/[\u2068\u2069]/g, '').replace(/\u00a0/g, ' ');
const said = (design = houseDesign(), metrics = houseMetrics(), runs = activity(0.1, 0.1)): string =>
  plainly(verdictParagraphs(verdictOf(design, metrics, runs)).join('\n'));

/** The fixture's only target, and its number, as if they had come out another way. */
function outcome(exact: number, half: number, word: Metrics['targets'][number]['outcome']): Metrics {
  const metrics = houseMetrics();
  const [first, ...others] = metrics.houses;
  if (first === undefined) throw new Error('the fixture has houses');
  return {
    ...metrics,
    houses: [{ ...first, exact_share: est(exact, half, 10) }, ...others],
    targets: metrics.targets.map((t) => ({ ...t, outcome: word })),
  };
}

describe('should I build this?', () => {
  test('no: with the number that missed, its interval, and what was asked', () => {
    const { headline } = verdictOf(houseDesign(), houseMetrics());
    expect(headline).toBe('No, not like this.');
    expect(said()).toContain('The one target set is missed.');
    expect(said()).toContain(
      'All rooms at once: share of the time exactly right is 10 % (95 % interval 6 to 14 %), where at least 50 % was asked: missed.',
    );
  });

  test('yes, and not decided', () => {
    const yes = outcome(0.7, 0.05, 'met');
    expect(verdictOf(houseDesign(), yes).headline).toBe('Yes, on these assumptions.');
    expect(said(houseDesign(), yes)).toContain(
      'is 70 % (95 % interval 65 to 75 %), where at least 50 % was asked: met.',
    );
    const open = outcome(0.5, 0.1, 'undecided');
    expect(verdictOf(houseDesign(), open).headline).toBe('Not decided yet.');
    expect(said(houseDesign(), open)).toContain('where at least 50 % was asked: not decided.');
  });

  test('the worst door is the one with most wrong counts a week, and the worst kind is one of that door', () => {
    // 20 per 100 of 1,500 crossings in ten weeks: 30 a week; the front door has 4 per 100 of 500: 2 a week.
    expect(said()).toContain(
      'Most goes wrong at door kitchen-door: about 30 wrong counts a week, 20 (95 % interval 17 to 23) per 100 crossings.',
    );
    expect(said()).toContain(
      'Worst there: “ida” carrying an infant, going through, with 20.0 (95 % interval 19.0 to 21.0) of them, the first after a median of 3 days (95 % interval 2 to 4 days).',
    );
  });

  test('kinds whose intervals meet that of the worst are named, so that no order is made up', () => {
    const metrics = houseMetrics();
    const second = metrics.doors[1]?.by_kind[0];
    if (second === undefined) throw new Error('the fixture has kinds');
    second.wrong_per_week = est(18, 2);
    expect(said(houseDesign(), metrics)).toContain('The interval of “ida” going through reaches as high');
  });

  test('the room that leaves people in the dark most, with how often, how long, and the ledger', () => {
    expect(said()).toContain('With the ledger raw sum, room kitchen leaves people in the dark most often');
    expect(said()).toContain('3.40 (95 % interval 3.30 to 3.50) times a day');
    expect(said()).toContain('is 47 min (95 % interval 35 to 59 min) on average, and 93 min in the worst');
  });

  test('what is rarer than once a day is told by the week', () => {
    const metrics = houseMetrics();
    const rooms = metrics.rooms.map((r) => ({ ...r, empty_while_occupied_per_day: est(0.4, 0.2) }));
    // 0.4 ± 0.2 a day, times 7.
    expect(said(houseDesign(), { ...metrics, rooms })).toContain('2.8 (95 % interval 1.4 to 4.2) times a week');
  });
});

describe('another ledger on the same tallies', () => {
  test('does better where the intervals are apart, and by how much', () => {
    expect(said()).toContain(
      'On the same tallies the ledger conserved persons does better: all rooms are right at once 60 % (95 % interval 56 to 64 %) of the time, instead of 10 % (95 % interval 6 to 14 %) of the time.',
    );
  });

  test('only may do better where they meet, and nothing is claimed where the first is the best', () => {
    const metrics = houseMetrics();
    const wide = metrics.houses.map((h) => ({ ...h, exact_share: { ...h.exact_share, low: 0, high: 0.9 } }));
    expect(said(houseDesign(), { ...metrics, houses: wide })).toContain('may do better');
    const best = [...metrics.houses].reverse();
    expect(said(houseDesign(), { ...metrics, houses: best })).toContain('No other ledger of this run does better');
  });

  test('who only needs to know whether anyone is there is told by dark and left on', () => {
    expect(said(houseDesign('anyone'))).toContain(
      'all rooms together are dark 3.8 (95 % interval 3.3 to 4.3) and left on 4.0 (95 % interval 3.0 to 5.0) times a day',
    );
  });
});

describe('half and double the activity', () => {
  test('the answer stands where all three say the same', () => {
    expect(said()).toContain('“all rooms at once: share of the time exactly right” stays missed.');
  });

  test('and does not where one of them differs', () => {
    expect(said(houseDesign(), houseMetrics(), activity(0.6, 0.5))).toContain(
      'is met and not decided, where this run says missed',
    );
  });

  test('says nothing where it was not run', () => {
    expect(verdictOf(houseDesign(), houseMetrics()).activity).toBeNull();
  });
});

describe('what the numbers hold for', () => {
  test('who lives here, without a sentence on a mix', () => {
    expect(said()).toContain('Here live ida (41 years) and baby (1 year, carried).');
    expect(said()).toContain('With them lives rex (dog-medium).');
    expect(said()).toContain('party, 10 guests on Saturday from 15:00');
    expect(said()).not.toMatch(/With \d+(\.\d+)? %/);
  });

  test('crossings per person and day: of the household, with what they carry, apart from guests', () => {
    const { household } = houseDesign();
    if (household === undefined) throw new Error('the fixture has a household');
    // ida 300 + 1,000, with the baby 400: 1,700 by two people in ten weeks of 7 days; guests 200.
    const { each, others } = crossingsPerDay(houseDesign(), household, houseMetrics());
    expect(each).toBeCloseTo(1700 / 2 / 70, 12);
    expect(others).toBeCloseTo(200 / 70, 12);
    expect(said()).toContain('12 crossings of a door per person and day, besides 2.9 a day by guests: an assumption');
  });

  test('the other route is told to who only needs to know whether anyone is there', () => {
    expect(said()).not.toContain('presence sensor');
    const anyone = said(houseDesign('anyone'));
    expect(anyone).toContain('The other way to that is a presence sensor in the room');
    expect(anyone).toContain('misses people who keep still');
    expect(anyone).toContain('neither is for safety');
  });
});

describe('animals that hear the sensors', () => {
  const withRangers = (): ReturnType<typeof houseDesign> => {
    const design = houseDesign();
    const beams = (design.doors[0]?.beams ?? []).map((b) => ({ ...b, sensor: 'ultrasonic-ranger' }));
    return { ...design, doors: design.doors.map((d) => ({ ...d, beams: beams as typeof d.beams })) };
  };

  test('are named in the verdict and first of all cautions', () => {
    expect(said(withRangers())).toContain('Mind the animals: rex can hear the ultrasonic rangers, which send 40 kHz');
    expect(cautionsFor(withRangers())[0]?.title).toBe('Sound and animals');
  });

  test('and not where there are only light barriers, or no animals', () => {
    expect(said()).not.toContain('Mind the animals');
    const design = withRangers();
    const alone = { ...design, household: { ...design.household!, pets: [] } };
    expect(said(alone)).not.toContain('Mind the animals');
  });
});

test('the terminal says the same sentences as the page', () => {
  const runs = activity(0.1, 0.1);
  const text = summaryText(houseDesign('anyone'), houseMetrics(), { colour: false, activity: runs }).replace(
    /\s+/g,
    ' ',
  );
  for (const paragraph of verdictParagraphs(verdictOf(houseDesign('anyone'), houseMetrics(), runs)))
    expect(text).toContain(plainly(paragraph));
});
