/** Wrong by stature, drawn upright like the doorway: stature is the height axis and the beams are drawn across. */
import type { DesignDoor } from '../../scenario/schema.js';
import type { DoorMetrics } from '../../score/metrics-schema.js';
import { html } from '../html.js';
import { count, formatEstimate, joined, metres, plural } from '../words.js';
import { FEW, highOf, lowOf } from '../worst.js';
import type { Chart } from './chart.js';

export function statureChart(id: string, door: DoorMetrics, design: DesignDoor | undefined): Chart | null {
  const bands = door.by_stature.filter((b) => b.wrong_per_100_visits.value !== null);
  if (bands.length === 0) return null;
  const rows = bands.map((b) => ({
    at: (b.from_m + b.to_m) / 2,
    value: b.wrong_per_100_visits.value,
    low: lowOf(b.wrong_per_100_visits),
    high: highOf(b.wrong_per_100_visits),
    visits: `n ${count(b.visits)}`,
  }));
  // A band of a visit or two must not squeeze the others: its line is cut at the edge.
  const many = bands.filter((b) => b.visits >= FEW);
  const leading = many.length > 0 ? many : bands;
  const furthest = Math.max(1, ...leading.map((b) => highOf(b.wrong_per_100_visits)), ...rows.map((r) => r.value ?? 0));
  const cut = rows.some((r) => r.high > furthest);
  const bottom = Math.min(...bands.map((b) => b.from_m));
  const top = Math.max(...bands.map((b) => b.to_m));
  // Only a thin level beam passes over whoever is shorter: a ranger looks into a cone, or down from the lintel.
  const beams = (design?.beams ?? [])
    .filter((b) => b.far_height_m === b.height_m)
    .filter((b) => b.height_m >= bottom && b.height_m <= top)
    .map((b) => ({ at: b.height_m, name: b.name }));
  // Beams at one height share a line and its label.
  const lines = [...new Set(beams.map((b) => b.at))].map((at) => ({
    at,
    label: `beam ${beams
      .filter((b) => b.at === at)
      .map((b) => b.name)
      .join(', ')}`,
  }));
  const x = {
    field: 'value',
    type: 'quantitative',
    scale: { domain: [0, furthest], nice: true },
    axis: { title: 'wrong per 100 visits', tickCount: { signal: 'width / 60' }, format: '~f' },
  };
  const y = {
    field: 'at',
    type: 'quantitative',
    scale: { domain: [bottom, top], nice: false, zero: false },
    axis: { title: 'stature, m', format: '.1f', tickCount: Math.min(12, Math.round((top - bottom) / 0.1) + 1) },
  };
  return {
    id,
    title: finding(bands),
    summary: bands
      .map(
        (b) =>
          `${span(b)}: ${formatEstimate(b.wrong_per_100_visits)} wrong per 100 visits, ${plural(b.visits, 'visit')}.`,
      )
      .join(' '),
    key: html`Dot: estimate for a band of stature; line: 95 % interval; n: visits.${
      cut && ` Bands of fewer than ${FEW} visits may reach beyond the edge.`
    }${
      lines.length > 0
        ? ` Dashed: height of ${joined(lines.map((l) => `${l.label} (${metres(l.at)})`))}; whoever is shorter passes beneath.`
        : ''
    }`,
    height: Math.max(160, 28 * bands.length),
    margin: { left: 52, right: 70, top: 10, bottom: 42 },
    door: door.door,
    table: {
      columns: [
        { title: 'stature from, m' },
        { title: 'to, m' },
        { title: 'wrong per 100 visits' },
        { title: '95 % low' },
        { title: '95 % high' },
        { title: 'visits' },
      ],
      rows: bands.map(({ from_m, to_m, visits, wrong_per_100_visits: e }) => [
        from_m,
        to_m,
        e.value,
        e.low,
        e.high,
        visits,
      ]),
    },
    places: { along: 'y', at: rows.map((r) => r.at) },
    spec: {
      layer: [
        {
          data: { values: lines },
          mark: { type: 'rule', strokeDash: [6, 4], color: 'var(--b)' },
          encoding: { y },
        },
        {
          data: { values: lines },
          mark: { type: 'text', align: 'right', dx: -2, dy: -7, color: 'var(--b)' },
          encoding: { x: { value: { expr: 'width' } }, y, text: { field: 'label' } },
        },
        {
          data: { values: rows },
          mark: { type: 'rule', strokeWidth: 2, color: 'var(--a)', clip: true },
          encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' }, y },
        },
        {
          data: { values: rows },
          mark: { type: 'point', filled: true, size: 80, opacity: 1, color: 'var(--a)' },
          encoding: { x, y },
        },
        {
          data: { values: rows },
          mark: { type: 'text', align: 'left', dx: 8, color: 'var(--soft)' },
          encoding: { x: { value: { expr: 'width' } }, y, text: { field: 'visits' } },
        },
      ],
    },
  };
}

type Band = DoorMetrics['by_stature'][number];
const span = (b: Band): string => `${metres(b.from_m)} to ${metres(b.to_m)} tall`;

/** Says a band stands out only when its interval lies clear of the least wrong one's. */
function finding(bands: readonly Band[]): string {
  const sorted = bands
    .filter((b) => b.visits >= FEW)
    .sort((a, b) => (b.wrong_per_100_visits.value ?? 0) - (a.wrong_per_100_visits.value ?? 0));
  const [most, least] = [sorted[0], sorted[sorted.length - 1]];
  if (most === undefined || least === undefined) return 'Too few visits to tell statures apart';
  if (most.wrong_per_100_visits.value === 0) return 'Nobody of any stature was counted wrong';
  if (lowOf(most.wrong_per_100_visits) <= highOf(least.wrong_per_100_visits)) return 'No stature stands out';
  return `Walkers ${span(most)} are counted wrong most often`;
}
