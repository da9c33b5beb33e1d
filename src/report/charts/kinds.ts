/** Who does what, ranked by how often it is counted wrong: dot and interval per kind of passage. */
import type { DoorMetrics } from '../../score/metrics-schema.js';
import { html } from '../html.js';
import { capital, count, formatEstimate, plural } from '../words.js';
import { doingWords, type WhoWords } from '../who-words.js';
import { FEW, highOf, lowOf, worstKinds } from '../worst.js';
import type { Chart } from './chart.js';

const ROW = 42;
/** Longer names are cut in the picture; the table beneath has them whole. */
const LONGEST = 42;
/** Kinds drawn; the table has all. */
const MOST = 14;

export function kindsChart(id: string, door: DoorMetrics, who: WhoWords): Chart | null {
  const ranked = worstKinds([door]);
  if (ranked.length === 0) return null;
  const rows = ranked.slice(0, MOST).map(({ rate }, i) => {
    const e = rate.wrong_per_100_visits;
    const name = capital(doingWords(who, rate.who, rate.kind));
    return {
      row: i,
      name: name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name,
      value: e.value,
      low: lowOf(e),
      high: highOf(e),
      visits: `n ${count(rate.visits)}`,
      worst: i === 0 && (e.value ?? 0) > 0,
    };
  });
  // A kind of a visit or two must not squeeze the others: its line is cut at the edge.
  const many = ranked.filter((k) => k.rate.visits >= FEW);
  const leading = many.length > 0 ? many : ranked;
  const top = Math.max(1, ...leading.map((k) => highOf(k.rate.wrong_per_100_visits)), ...rows.map((r) => r.value ?? 0));
  const cut = rows.some((r) => r.high > top);
  const y = {
    field: 'row',
    type: 'quantitative',
    scale: { domain: [-0.7, rows.length - 0.5], reverse: true, nice: false },
    axis: null,
  };
  const x = {
    field: 'value',
    type: 'quantitative',
    scale: { domain: [0, top], nice: true },
    axis: { title: 'wrong per 100 visits of that kind', tickCount: { signal: 'width / 60' }, format: '~f' },
  };
  const worst = { test: 'datum.worst', value: 'var(--bad)' };
  const colour = { condition: worst, value: 'var(--a)' };
  const first = ranked[0]?.rate;
  const zero = first?.wrong_per_100_visits.value === 0;
  return {
    id,
    title:
      first === undefined || zero
        ? 'No kind of passage went wrong'
        : `Wrong most often: ${doingWords(who, first.who, first.kind)}`,
    summary: ranked
      .map(
        ({ rate }) =>
          `${capital(doingWords(who, rate.who, rate.kind))}: ${formatEstimate(rate.wrong_per_100_visits)} wrong per 100 visits, ${plural(rate.visits, 'visit')}.`,
      )
      .join(' '),
    key: html`Dot: estimate; line: 95 % interval; n: visits of that kind. The diamond marks the kind that goes wrong
most.${ranked.some((k) => k.rate.visits < FEW) && ` Kinds with fewer than ${FEW} visits come last${cut ? ' and may reach beyond the edge' : ''}.`}${ranked.length > MOST && ` The ${MOST} most wrong of ${ranked.length} kinds are drawn.`}`,
    height: ROW * rows.length,
    margin: { left: 8, right: 70, top: 4, bottom: 42 },
    spec: {
      data: { values: rows },
      layer: [
        {
          mark: { type: 'rule', strokeWidth: 2, clip: true },
          encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' }, y, color: colour },
        },
        {
          mark: { type: 'point', filled: true, size: 90, opacity: 1 },
          encoding: { x, y, color: colour, shape: { condition: { ...worst, value: 'diamond' }, value: 'circle' } },
        },
        {
          mark: { type: 'text', align: 'left', dy: -15 },
          encoding: { x: { value: 0 }, y, text: { field: 'name' } },
        },
        {
          mark: { type: 'text', align: 'left', dx: 8, color: 'var(--soft)' },
          encoding: { x: { value: { expr: 'width' } }, y, text: { field: 'visits' } },
        },
      ],
    },
  };
}
