/**
 * Summaries of studies that never ran: names, prices and numbers are invented. Each design's wrong counts follow a given
 * response, with chance that all designs of a crowd share and some of their own; so what a report should find is known.
 */
import seedrandom from 'seedrandom';
import { ratioEstimate } from '../../../src/score/estimates.js';
import { effects } from '../../../src/study/judge/effects.js';
import { front } from '../../../src/study/judge/front.js';
import { rank } from '../../../src/study/judge/ranking.js';
import { sampleOf } from '../../../src/study/judge/samples.js';
import {
  type StudyDesign,
  type StudyFactor,
  type StudySummary,
  studySummarySchema,
} from '../../../src/study/summary-schema.js';

export const HEIGHT: StudyFactor = {
  name: 'height_m',
  keys: ['doors.*.pair.height_m'],
  unit: 'm',
  unpaired: false,
  levels: [0.5, 0.7, 0.9, 1.1].map((value) => ({ label: String(value), value })),
};
export const SPACING: StudyFactor = {
  name: 'spacing_m',
  keys: ['doors.*.pair.spacing_m'],
  unit: 'm',
  unpaired: false,
  levels: [0.03, 0.06, 0.09].map((value) => ({ label: String(value), value })),
};
export const SENSOR: StudyFactor = {
  name: 'sensor',
  keys: ['doors.*.pair.sensor'],
  unit: null,
  unpaired: false,
  levels: ['barrier', 'slow ranger'].map((label) => ({ label, value: null })),
};

/** True wrong counts per 100 crossings: least at 0.9 m; wide pairs a little worse; the ranger worse by 6. */
export function knownResponse(words: Readonly<Record<string, string>>): number {
  const height = Number(words['height_m'] ?? 0.9);
  const spacing = Number(words['spacing_m'] ?? 0.06);
  return 3 + 60 * (height - 0.9) ** 2 + 20 * Math.abs(spacing - 0.06) + (words['sensor'] === 'slow ranger' ? 6 : 0);
}

export interface Invented {
  readonly factors?: readonly StudyFactor[];
  /** True rate by the labels of the levels. */
  readonly response?: (words: Readonly<Record<string, string>>) => number;
  readonly replicates?: number;
  /** Numbers of designs that failed, and with what. */
  readonly failed?: Readonly<Record<number, string>>;
  /** Numbers of designs with fewer replicates, and how many. */
  readonly unfinished?: Readonly<Record<number, number>>;
  /** Designs left out. */
  readonly leftOut?: (words: Readonly<Record<string, string>>) => boolean;
  readonly effort?: (words: Readonly<Record<string, string>>) => StudyDesign['effort'];
  readonly change?: Partial<StudySummary>;
}

const CROSSINGS = 400;
const METRIC = 'house.wrong_per_100';
const EFFORT = (words: Readonly<Record<string, string>>): StudyDesign['effort'] =>
  words['sensor'] === 'slow ranger'
    ? { holes: 2, cable_m: 3.5, hours: 1.2, cost: 41.5 }
    : { holes: 4, cable_m: 7.25, hours: 2.1, cost: 88 };

export function inventedStudy({
  factors = [HEIGHT, SPACING, SENSOR],
  response = knownResponse,
  replicates = 20,
  failed = {},
  unfinished = {},
  leftOut = () => false,
  effort = EFFORT,
  change = {},
}: Invented = {}): StudySummary {
  const random = noise('invented');
  const drawn = Array.from({ length: replicates }, () => random());
  // Without a mean of their own, so that estimates lie about the truth.
  const mean = replicates > 1 ? drawn.reduce((a, b) => a + b, 0) / replicates : 0;
  const crowd = drawn.map((one) => one - mean);
  const combinations = factors.reduce((all, { levels }) => all * levels.length, 1);
  const made = Array.from({ length: combinations }, (_, c) => levelsOf(c, factors))
    .map((levels) => ({ levels, words: wordsOf(levels, factors) }))
    .filter(({ words }) => !leftOut(words))
    .map(({ levels, words }, d) => {
      const number = d + 1;
      const n = failed[number] === undefined ? (unfinished[number] ?? replicates) : 0;
      const rate = response(words);
      const events = crowd.slice(0, n).map((shared) => {
        // What the crowd does moves all alike; the rest is the design's own.
        const expected = (CROSSINGS * rate) / 100;
        return Math.max(0, Math.round(expected + Math.sqrt(expected) * (0.8 * shared + 0.5 * random())));
      });
      return { number, levels, words, n, events, rate };
    });
  const designs = made.map(({ number, levels, words, n, events, rate }): StudyDesign => {
    const error = failed[number];
    return {
      number,
      levels,
      crowd: 1,
      state: error === undefined ? (unfinished[number] === undefined ? 'done' : 'unfinished') : 'failed',
      ...(error !== undefined && { error }),
      replicates: n,
      passages: n * CROSSINGS,
      ended: error === undefined && unfinished[number] === undefined ? 'fixed' : null,
      metrics: n === 0 ? {} : { [METRIC]: estimate(events, CROSSINGS) },
      by_who:
        n === 0
          ? []
          : [
              {
                who: 'adult',
                visits: 300 * n,
                wrong_per_100_visits: estimate(
                  events.map((e) => 0.4 * e),
                  300,
                ),
              },
              {
                who: 'child',
                visits: 80 * n,
                wrong_per_100_visits: estimate(
                  events.map((e) => 0.55 * e),
                  80,
                ),
              },
              {
                who: 'cat',
                visits: 20 * n,
                wrong_per_100_visits: estimate(
                  events.map((_, r) => (r + rate) % 2),
                  20,
                ),
              },
            ],
      effort: effort(words),
    };
  });
  const ranked = made.filter(({ n }) => n > 0);
  const common = ranked.length === 0 ? 0 : Math.min(...ranked.map(({ n }) => n));
  const placed = ranked.map(({ number, levels, events }) => ({
    number,
    levels,
    crowd: 1,
    sample: sampleOf(
      events.slice(0, common).map((e) => ({ events: e, exposure: CROSSINGS })),
      { options: { scale: 100, nothing: 'no crossings' } },
    )!,
  }));
  const finished = designs.every(({ state }) => state !== 'unfinished');
  return studySummarySchema.parse({
    format: 1,
    jambeam: '0.0.0-invented',
    name: 'Heights of an invented door',
    scenario: 'invented cottage',
    seed: 'invented-7',
    hours: 8,
    finished,
    cells: { done: made.reduce((sum, { n }) => sum + n, 0), most: made.length * replicates },
    replicates: {
      fixed: replicates,
      until: null,
      half_width: null,
      batch: 4,
      at_least: replicates,
      at_most: replicates,
      most_passages: null,
    },
    rank_by: { metric: METRIC, unit: 'per 100 crossings', best: 'least' },
    currency: 'crowns',
    doors: ['larder'],
    logics: ['quadrature'],
    ledgers: [],
    factors,
    where: combinations > made.length ? ['a condition that is invented'] : [],
    left_out: combinations - made.length,
    designs,
    ranking: {
      replicates: common,
      rows: rank(
        placed.map((one) => ({ ...one, effort: designs[one.number - 1]!.effort })),
        'least',
      ),
    },
    effects: {
      replicates: common,
      ...effects(
        placed,
        factors.map(({ levels }) => levels.length),
        factors.map(({ levels }) => levels.every(({ value }) => value !== null)),
      ),
    },
    front: front(
      placed.map(({ number, sample }) => ({ number, value: sample.value, effort: designs[number - 1]!.effort })),
    ),
    ...change,
  } satisfies Record<string, unknown>);
}

const estimate = (events: readonly number[], exposure: number) =>
  ratioEstimate(
    events,
    events.map(() => exposure),
    { scale: 100, nothing: 'nothing' },
  );

/** The last factor varying fastest. */
function levelsOf(combination: number, factors: readonly StudyFactor[]): number[] {
  let rest = combination;
  return [...factors]
    .reverse()
    .map(({ levels }) => {
      const level = rest % levels.length;
      rest = Math.floor(rest / levels.length);
      return level;
    })
    .reverse();
}

const wordsOf = (levels: readonly number[], factors: readonly StudyFactor[]): Record<string, string> =>
  Object.fromEntries(factors.map(({ name, levels: all }, f) => [name, all[levels[f]!]!.label]));

/** About normal, always the same: sums of twelve uniform numbers less their mean. */
function noise(seed: string): () => number {
  const next = seedrandom(seed);
  return () => Array.from({ length: 12 }, () => next()).reduce((a, b) => a + b, 0) - 6;
}
