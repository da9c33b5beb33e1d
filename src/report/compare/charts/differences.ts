/** How far runs are from the reference: dots with intervals about nothing, a row a number and run. */
import type { Chart } from '../../charts/chart.js';
import { type RankedRow, rankedDots, rankedRow } from '../../charts/ranked-dots.js';
import { capital, plural } from '../../words.js';
import { difference, judged } from '../differences.js';
import { type CompareMeasure, placeWords } from '../measures.js';
import { type CompareRun, labelWords } from '../runs.js';
import { pairingWords, pointsWords, signedWords } from '../words.js';

const LONGEST = 44;
/** Letters of a run's name beside the number's. */
const LABEL = 20;
const MOST_ROWS = 15;

/** @param measures of one unit @param title 'all doors' or what else they are of @param where whether rows name their place */
export function differencesChart(
  id: string,
  measures: readonly CompareMeasure[],
  runs: readonly CompareRun[],
  title: string,
  where = false,
): Chart | null {
  const [reference, ...others] = runs;
  const as = measures[0]?.as ?? 'number';
  const all = measures
    .flatMap((measure) => others.map((run) => ({ measure, run, found: difference(measure, run, reference!, 1) })))
    .filter(({ found }) => found.own.value !== null);
  // What is nothing in every replicate only takes room.
  const some = all.filter(({ found: { own } }) => own.value !== 0 || (own.high ?? 0) > 0);
  const shown = some.slice(0, MOST_ROWS);
  if (shown.length === 0) return null;
  const times = as === 'share' ? 100 : 1;
  const scaled = (x: number | null): number | null => (x === null ? null : x * times);
  const rows = shown.map(({ measure, run, found }, i): RankedRow => {
    const { value, low, high } = found.own;
    const what = where ? placeWords(measure.place) : measure.words;
    const label = run.label.length > LABEL ? `${run.label.slice(0, LABEL - 1)}…` : run.label;
    const name = capital(others.length > 1 ? `${what}, ${labelWords({ label })}` : what);
    return rankedRow(
      i,
      name,
      { ...found.own, value: scaled(value), low: scaled(low), high: scaled(high) },
      {
        note: found.apart === null ? `n ${found.replicates[0]}` : 'not paired',
        worst: judged(measure, found.own) === 'worse',
        longest: LONGEST,
      },
    );
  });
  const bottom = Math.min(0, ...rows.map(({ low }) => low));
  const top = Math.max(0, ...rows.map(({ high }) => high));
  const told = all.filter(({ measure, found }) => !['unsure', 'alike'].includes(judged(measure, found.own)));
  const unit = as === 'share' ? 'percentage points' : 'per 100 crossings';
  const whose =
    others.length === 1
      ? `${labelWords(others[0]!)} minus ${labelWords(reference!)}`
      : `each run minus ${labelWords(reference!)}`;
  return {
    id,
    title:
      told.length === 0
        ? `${title}: no difference is told from chance`
        : `${title}: ${told.length} of ${plural(all.length, 'difference')} ${told.length === 1 ? 'is' : 'are'} told from chance`,
    summary: all
      .map(({ measure, run, found }) => {
        const { value, range } = signedWords(found.own, as);
        return `${placeWords(measure.place)}, ${measure.words}, ${labelWords(run)}: ${value ?? 'not known'}${pointsWords(as)} (${range ?? 'no interval'}), ${pairingWords(found)}.`;
      })
      .join(' '),
    key: `${capital(whose)}, ${unit}; right of the grey line there is more of it. Lines: 95\u00a0% intervals, each for itself; n: replicates compared pair by pair. Red diamonds: worse than ${labelWords(reference!)}, and told from chance.${some.length < all.length ? ` Not drawn: ${plural(all.length - some.length, 'difference')} without anything to differ.` : ''}${some.length > shown.length ? ` The first ${MOST_ROWS} of ${some.length} are drawn.` : ''}`,
    ...rankedDots(rows, top === bottom ? bottom + 1 : top, `difference, ${unit}`, bottom),
  };
}
