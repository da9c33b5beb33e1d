/** How long a room's count stays right: share of replicates in which it has not been wrong yet, a line for each ledger. */
import type { SurvivalCurve } from '../../score/figures.js';
import { capital, joined, named, percent } from '../words.js';
import { durationWords } from '../wait-words.js';
import type { Chart } from './chart.js';
import { shownAs } from './live.js';
import { thinned } from './thin.js';
import { ledgerWords } from '../ledger-words.js';

const MOST_POINTS = 120;
const MOST_ROWS = 150;
/** Where all curves end at 0 the picture ends soon after the last. */
const ROOM_AFTER = 1.25;
const HALF = 0.5 + 1e-12;
const LOOKS = [
  { color: 'var(--a)', strokeDash: [1, 0], told: 'solid' },
  { color: 'var(--b)', strokeDash: [8, 3], told: 'dashed' },
  { color: 'var(--good)', strokeDash: [2, 3], told: 'dotted' },
  { color: 'var(--bad)', strokeDash: [8, 3, 2, 3], told: 'dash and dot' },
  { color: 'var(--ink)', strokeDash: [14, 4], told: 'long dashes' },
  { color: 'var(--soft)', strokeDash: [4, 6], told: 'wide dots' },
  { color: 'var(--a)', strokeDash: [8, 3, 2, 3, 2, 3], told: 'dash and two dots' },
] as const;

/** @param curves one room's, one a ledger; the interval is drawn of the first */
export function survivalChart(id: string, curves: readonly SurvivalCurve[]): Chart | null {
  const shown = curves.slice(0, LOOKS.length);
  const [first] = shown;
  if (first === undefined || first.time_h.length === 0) return null;
  const clock = Math.max(...shown.map((c) => c.time_h[c.time_h.length - 1] ?? 0));
  const end = Math.min(clock, Math.max(...shown.map(goneBy)) * ROOM_AFTER);
  const said = shown.map((c) => ({
    name: ledgerWords(c.ledger),
    half: halfAt(c),
    left: c.share[c.share.length - 1] ?? 1,
  }));
  const summary = said.map(({ name, half, left }) =>
    half === null
      ? `${capital(name)}: still right in ${percent(Math.round(left * 1000) / 1000)} of the replicates after ${durationWords(clock, 'h')}.`
      : `${capital(name)}: wrong in half of the replicates within ${durationWords(half, 'h')}.`,
  );
  const { words: title, times, unit } = axisFor(end);
  const x = (field: string): object => ({
    field,
    type: 'quantitative',
    scale: { domain: [0, end * times], nice: false },
    axis: { title: unit, tickCount: { signal: 'width / 70' } },
  });
  const y = (field: string): object => ({
    field,
    type: 'quantitative',
    scale: { domain: [0, 1], nice: false },
    axis: { title, tickCount: 5, format: '%' },
  });
  const rows = (c: SurvivalCurve): object[] =>
    thinned(c.time_h.length, MOST_POINTS).map((i) => ({
      t: c.time_h[i]! * times,
      share: c.share[i],
      low: c.low[i],
      high: c.high[i],
    }));
  const moments = momentsOf(shown.map((c) => thinned(c.time_h.length, MOST_POINTS).map((i) => c.time_h[i]!)));
  return {
    id,
    title: `Room ${named(first.room)}: ${finding(said, clock)}`,
    summary: `Share of replicates in which the count of the room has never been wrong for 10 s or longer. ${summary.join(' ')}`,
    key: `${capital(said.map(({ name }, i) => `${LOOKS[i]!.told}: ${name}`).join('; '))}. Band: 95\u00a0% interval of ${said[0]!.name}.${curves.length > shown.length ? ` The first ${shown.length} ledgers are drawn.` : ''}`,
    height: 170,
    margin: { left: 76, right: 12, top: 8, bottom: 42 },
    room: first.room,
    clock_h: 1 / times,
    table: {
      columns: [
        { title: unit },
        ...said.map(({ name }, series) => ({ title: `${name}: share ${title}`, series })),
        { title: `${said[0]!.name}: 95 % low`, series: 0 },
        { title: '95 % high', series: 0 },
      ],
      rows: moments.map((h) => [
        h * times,
        ...shown.map((c) => c.share[heldAt(c.time_h, h)]!),
        first.low[heldAt(first.time_h, h)]!,
        first.high[heldAt(first.time_h, h)]!,
      ]),
    },
    places: { along: 'x', at: moments.map((h) => h * times), steps: true },
    series: said.map(({ name }, i) => {
      const { color, strokeDash } = LOOKS[i]!;
      return { name, color, strokeDash };
    }),
    spec: {
      layer: [
        {
          data: { values: rows(first) },
          mark: { type: 'area', interpolate: 'step-after', color: 'var(--a)', opacity: shownAs(0, 0.18), clip: true },
          encoding: { x: x('t'), y: y('low'), y2: { field: 'high' } },
        },
        ...shown.map((c, i) => {
          const { color, strokeDash } = LOOKS[i]!;
          return {
            data: { values: rows(c) },
            mark: {
              type: 'line',
              interpolate: 'step-after',
              strokeWidth: 2,
              color,
              strokeDash,
              clip: true,
              opacity: shownAs(i, 1),
            },
            encoding: { x: x('t'), y: y('share') },
          };
        }),
      ],
    },
  };
}

/** All moments at which any of the curves steps, in order. */
const momentsOf = (curves: readonly (readonly number[])[]): number[] => {
  const all = [...new Set(curves.flat())].sort((a, b) => a - b);
  return thinned(all.length, MOST_ROWS).map((i) => all[i]!);
};

/** Place of the value that holds at a time; the first before the first. */
function heldAt(time_h: readonly number[], h: number): number {
  const after = time_h.findIndex((one) => one > h);
  return after < 0 ? time_h.length - 1 : Math.max(0, after - 1);
}

/** Hours until none is left right; without end where some are. */
function goneBy({ time_h, share }: SurvivalCurve): number {
  return time_h[share.findIndex((left) => left === 0)] ?? Infinity;
}

/** Hours until no more than half are left; null: never. */
function halfAt({ time_h, share }: SurvivalCurve): number | null {
  return time_h[share.findIndex((left) => left <= HALF)] ?? null;
}

/** In hours up to two days, then in days. */
function axisFor(end_h: number): { words: string; times: number; unit: string } {
  const words = 'not wrong yet';
  return end_h <= 48
    ? { words, times: 1, unit: 'hours since the start' }
    : { words, times: 1 / 24, unit: 'days since the start' };
}

function finding(said: readonly { readonly name: string; readonly half: number | null }[], end_h: number): string {
  const lasting = said.filter(({ half }) => half === null);
  if (lasting.length === said.length)
    return `right for ${durationWords(end_h, 'h')} in more than half of the replicates`;
  if (lasting.length > 0)
    return `only ${joined(lasting.map(({ name }) => name))} stays right in more than half of the replicates`;
  const inOrder = said.map(({ name, half }) => ({ name, half: half! })).sort((a, b) => a.half - b.half);
  const [soonest, latest] = [inOrder[0]!, inOrder[inOrder.length - 1]!];
  const [a, b] = [durationWords(soonest.half, 'h'), durationWords(latest.half, 'h')];
  const opening = `half of the replicates are wrong within ${a}`;
  return a === b ? opening : `${opening} with ${soonest.name}, within ${b} with ${latest.name}`;
}
