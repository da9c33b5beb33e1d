/** What the numbers don't allow to be concluded, as far as it applies to these runs; the weightiest first. */
import { FEW_REPLICATES } from '../few-replicates.js';
import { decimal, headlineLogic, joined, named, plural } from '../words.js';
import { builtDifferences } from './keys.js';
import { type CompareMeasure, measureGroups } from './measures.js';
import { APART_WORDS, type Apart, type CompareRun, apart, headlineLedger, labelWords } from './runs.js';

const TOLD = 3;

/** 3 to 5 lines for the top of the page. */
export function unwise(runs: readonly CompareRun[]): string[] {
  const own = specific(runs).slice(0, TOLD);
  return [...own, ...general(runs).slice(0, own.length === 0 ? 3 : 2)];
}

/** All of them. */
export function compareLimits(runs: readonly CompareRun[]): string[] {
  return [...specific(runs), ...general(runs)];
}

function specific(runs: readonly CompareRun[]): string[] {
  return [...crowds(runs), few(runs), extents(runs), heads(runs), several(runs)].filter((line) => line !== null);
}

/** Pairs with the reference that met different crowds, by reason. */
function crowds(runs: readonly CompareRun[]): string[] {
  const [reference, ...others] = runs;
  const why = new Map<Apart, CompareRun[]>();
  for (const run of others) {
    const reason = apart(run, reference!);
    if (reason !== null) why.set(reason, [...(why.get(reason) ?? []), run]);
  }
  return [...why].map(([reason, those]) =>
    reason === 'old'
      ? `That ${joined(those.map(labelWords))} and ${labelWords(reference!)} differ at all: ${APART_WORDS.old}.`
      : `That a difference between ${labelWords(reference!)} and ${joined(those.map(labelWords))} is due to the design: they met different people, for ${APART_WORDS[reason]}. Such a difference carries the chance of both crowds${reason === 'crowd' ? ' and what is not the same about who comes' : ''}.`,
  );
}

function few(runs: readonly CompareRun[]): string | null {
  const those = runs.filter(({ metrics }) => metrics.replicates < FEW_REPLICATES);
  if (those.length === 0) return null;
  const each = those.map((run) => `${labelWords(run)} has ${plural(run.metrics.replicates, 'replicate')}`);
  return `That an interval which just leaves out nothing settles it: ${joined(each)}, which is few (we say so below ${FEW_REPLICATES}). Such intervals rest on replicates being spread about normally, which so few can’t show.`;
}

function extents(runs: readonly CompareRun[]): string | null {
  const hours = runs.map(({ metrics }) => metrics.hours);
  if (new Set(hours).size === 1) return null;
  return `That rooms are better or worse because of the design: clocks of ${joined(runs.map((run) => `${decimal(run.metrics.hours, 2)}\u00a0h (${labelWords(run)})`))} are compared, and a count drifts further the longer the clock.`;
}

function heads(runs: readonly CompareRun[]): string | null {
  const of = (run: CompareRun): string =>
    `${named(headlineLogic(run.design))}${run.design.rooms.length > 0 ? ` and ${named(headlineLedger(run.design))}` : ''}`;
  const each = runs.map(of);
  if (new Set(each).size === 1) return null;
  return `That beams alone make the difference: each run is judged by its own first logic${runs.some(({ design }) => design.rooms.length > 0) ? ' and ledger' : ''}, and these are not the same (${runs.map((run, i) => `${labelWords(run)}: ${each[i]}`).join('; ')}).`;
}

function several(runs: readonly CompareRun[]): string | null {
  const keys = builtDifferences(runs);
  if (keys.length < 2) return null;
  return `That one change made the difference: ${keys.length} keys of the designs differ (listed under “What differs”), and two runs can’t tell which of them did it. Change one at a time, or run a study.`;
}

function general(runs: readonly CompareRun[]): string[] {
  const all = measureGroups(runs).flatMap(({ measures }): readonly CompareMeasure[] => measures);
  const many = all.length * (runs.length - 1);
  return [
    `That every difference told from chance below is real: ${plural(many, 'difference')} ${many === 1 ? 'is' : 'are'} looked at, and each interval of 95\u00a0% is for itself; about one in 20 misses the truth${many >= 20 ? `, of these about ${Math.round(many / 20)}` : ''}.`,
    'That the built house will do as well as the better run: all runs share the model’s assumptions, and what is wrong in them is wrong for all alike.',
    'That the difference would be as large with other people: who comes, how often and what they do is as the scenarios assume it.',
  ];
}
