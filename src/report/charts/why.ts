/** Causes ranked by how many wrong visits a week are theirs: dot and interval each. */
import type { WhyMetrics } from '../../score/metrics-schema.js';
import { html } from '../html.js';
import { causeWords, roughly } from '../why-words.js';
import { capital, count, formatEstimate, percent } from '../words.js';
import { highOf, lowOf } from '../worst.js';
import type { Chart } from './chart.js';

const ROW = 42;
/** Longer names are cut in the picture; the table beneath has them whole. */
const LONGEST = 48;
/** Causes drawn; the table has all. */
const MOST = 8;

export function whyChart(id: string, why: WhyMetrics): Chart | null {
  const [first] = why.causes;
  if (first === undefined) return null;
  const rows = why.causes.slice(0, MOST).map((cause, i) => {
    const name = capital(causeWords(cause));
    return {
      row: i,
      name: name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name,
      value: cause.per_week.value ?? 0,
      low: lowOf(cause.per_week),
      high: highOf(cause.per_week),
      cases: `n ${count(cause.explained)}`,
    };
  });
  const y = {
    field: 'row',
    type: 'quantitative',
    scale: { domain: [-0.7, rows.length - 0.5], reverse: true, nice: false },
    axis: null,
  };
  const x = {
    field: 'value',
    type: 'quantitative',
    scale: { domain: [0, Math.max(...rows.map(({ high, value }) => Math.max(high, value)), 0.01)], nice: true },
    axis: { title: 'wrong visits a week', tickCount: { signal: 'width / 60' }, format: '~f' },
  };
  return {
    id,
    title: `${percent(roughly(first.share.value ?? 0))} of what went wrong: ${causeWords(first)}`,
    summary: why.causes
      .map((cause) => `${capital(causeWords(cause))}: ${formatEstimate(cause.per_week)} a week.`)
      .join(' '),
    key: html`Dot: estimate; line: 95 % interval; n: cases simulated again.${why.causes.length > MOST && ` The ${MOST} most frequent of ${why.causes.length} causes are drawn.`}`,
    height: ROW * rows.length,
    margin: { left: 8, right: 70, top: 4, bottom: 42 },
    spec: {
      data: { values: rows },
      layer: [
        {
          mark: { type: 'rule', strokeWidth: 2 },
          encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' }, y, color: { value: 'var(--a)' } },
        },
        {
          mark: { type: 'point', filled: true, size: 90, opacity: 1 },
          encoding: { x, y, color: { value: 'var(--a)' } },
        },
        {
          mark: { type: 'text', align: 'left', dy: -15 },
          encoding: { x: { value: 0 }, y, text: { field: 'name' } },
        },
        {
          mark: { type: 'text', align: 'left', dx: 8, color: 'var(--soft)' },
          encoding: { x: { value: { expr: 'width' } }, y, text: { field: 'cases' } },
        },
      ],
    },
  };
}
