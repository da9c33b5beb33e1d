/** Causes ranked by how many wrong visits a week are theirs: dot and interval each. */
import type { WhyMetrics } from '../../score/metrics-schema.js';
import { html } from '../html.js';
import { causeWords, roughly } from '../why-words.js';
import { capital, count, formatEstimate, percent } from '../words.js';
import type { Chart } from './chart.js';
import { rankedDots, rankedRow } from './ranked-dots.js';

/** Longer names are cut in the picture; the table beneath has them whole. */
const LONGEST = 48;
/** Causes drawn; the table has all. */
const MOST = 8;

export function whyChart(id: string, why: WhyMetrics): Chart | null {
  const [first] = why.causes;
  if (first === undefined) return null;
  const rows = why.causes.slice(0, MOST).map((cause, i) =>
    rankedRow(i, capital(causeWords(cause)), cause.per_week, {
      note: `n ${count(cause.explained)}`,
      worst: false,
      longest: LONGEST,
    }),
  );
  const top = Math.max(0.01, ...rows.map(({ high, value }) => Math.max(high, value ?? 0)));
  return {
    id,
    title: `${percent(roughly(first.share.value ?? 0))} of what went wrong: ${causeWords(first)}`,
    summary: why.causes
      .map((cause) => `${capital(causeWords(cause))}: ${formatEstimate(cause.per_week)} a week.`)
      .join(' '),
    key: html`Dot: estimate; line: 95 % interval; n: cases simulated again.${why.causes.length > MOST && ` The ${MOST} most frequent of ${why.causes.length} causes are drawn.`}`,
    ...rankedDots(rows, top, 'wrong visits a week'),
  };
}
