/** Lines over a factor's values, each with points and a band: curves of designs, and of kinds of body. */
import type { Chart } from '../../charts/chart.js';
import { shownAs } from '../../charts/live.js';
import type { Known } from '../view.js';

export interface Line {
  readonly name: string;
  /** In the order of x; null where there is no number, which breaks the line. */
  readonly points: readonly { readonly x: number; readonly estimate: Known | null }[];
}

/** Told apart by colour, dashes and shape of points; no more lines than these in a picture. */
export const LOOKS = [
  { color: 'var(--a)', strokeDash: [1, 0], shape: 'circle', told: 'solid with circles' },
  { color: 'var(--b)', strokeDash: [7, 3], shape: 'square', told: 'dashed with squares' },
  { color: 'var(--good)', strokeDash: [2, 3], shape: 'triangle-up', told: 'dotted with triangles' },
  { color: 'var(--bad)', strokeDash: [8, 3, 2, 3], shape: 'diamond', told: 'dash and dot with diamonds' },
] as const;

/** Values marked at the axis, at most. */
const MOST_TICKS = 9;

/** 'solid with circles: barrier; dashed with squares: ranger'. */
export const lineKey = (lines: readonly Line[]): string =>
  lines.map(({ name }, i) => `${LOOKS[i]!.told}: ${name}`).join('; ');

export function linesSpec(
  lines: readonly Line[],
  { x: xTitle, y: yTitle, zero }: { readonly x: string; readonly y: string; readonly zero: boolean },
): Pick<Chart, 'height' | 'margin' | 'spec' | 'table' | 'places' | 'series'> {
  const values = [...new Set(lines.flatMap(({ points }) => points.map(({ x }) => x)))].sort((a, b) => a - b);
  const ticks = values.length <= MOST_TICKS ? { values } : { tickCount: { signal: 'width / 50' } };
  const x = {
    field: 'x',
    type: 'quantitative',
    scale: { domain: domainOf(values), nice: false, zero: false },
    // As many digits as a level has: without a precision 0.65 would be rounded to the steps of the axis.
    axis: { title: xTitle, format: '.6~f', grid: false, ...ticks },
  };
  const y = (field: string): object => ({
    field,
    type: 'quantitative',
    scale: { zero, nice: true },
    axis: { title: yTitle, tickCount: 5, format: '~f' },
  });
  const layers = lines.map(({ points }, i) => {
    const { color, strokeDash, shape } = LOOKS[i]!;
    const rows = points.map(({ x: at, estimate }) => ({
      x: at,
      value: estimate?.value ?? null,
      low: estimate?.low ?? null,
      high: estimate?.high ?? null,
    }));
    const banded = rows.some(({ low }) => low !== null);
    return [
      ...(banded
        ? [
            {
              data: { values: rows.filter(({ low, high }) => low !== null && high !== null) },
              mark: { type: 'rule', color, strokeWidth: 1, opacity: shownAs(i, 0.8) },
              encoding: { x, y: y('low'), y2: { field: 'high' } },
            },
            {
              data: { values: rows },
              mark: { type: 'area', color, opacity: shownAs(i, 0.14), line: false },
              encoding: { x, y: y('low'), y2: { field: 'high' } },
            },
          ]
        : []),
      {
        data: { values: rows },
        mark: { type: 'line', strokeWidth: 2, color, strokeDash, opacity: shownAs(i, 1) },
        encoding: { x, y: y('value') },
      },
      {
        data: { values: rows.filter(({ value }) => value !== null) },
        mark: { type: 'point', filled: true, size: 50, opacity: shownAs(i, 1), color, shape },
        encoding: { x, y: y('value') },
      },
    ];
  });
  return {
    height: 200,
    margin: { left: 60, right: 16, top: 10, bottom: 42 },
    table: {
      columns: [
        { title: xTitle },
        ...lines.flatMap(({ name }, series) =>
          [yTitle, '95 % low', '95 % high'].map((what) => ({ title: `${name}: ${what}`, series })),
        ),
      ],
      rows: values.map((at) => [
        at,
        ...lines.flatMap(({ points }) => {
          const e = points.find(({ x: one }) => one === at)?.estimate;
          return [e?.value ?? null, e?.low ?? null, e?.high ?? null];
        }),
      ]),
    },
    places: { along: 'x', at: values },
    series: lines.map(({ name }, i) => ({ name, color: LOOKS[i]!.color, strokeDash: LOOKS[i]!.strokeDash })),
    spec: { layer: layers.flat() },
  };
}

/** A little room beside the first and the last value, so that their points are whole. */
function domainOf(values: readonly number[]): [number, number] {
  const [low, high] = [values[0] ?? 0, values[values.length - 1] ?? 1];
  const room = high > low ? (high - low) * 0.03 : Math.max(Math.abs(low) * 0.1, 0.1);
  return [low - room, high + room];
}
