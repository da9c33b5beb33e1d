/** Ranked rows, each a name over a dot with its interval: the body that charts of kinds and of causes share. */
import { highOf, lowOf } from '../worst.js';
import type { Estimate } from '../../score/metrics-schema.js';
import type { Chart } from './chart.js';

const ROW = 42;

export interface RankedRow {
  readonly row: number;
  /** As drawn. */
  readonly name: string;
  /** Not cut. */
  readonly whole: string;
  readonly estimate: Estimate;
  readonly value: number | null;
  readonly low: number;
  readonly high: number;
  /** At the right edge: how many it rests on. */
  readonly note: string;
  /** Marked by colour and by a diamond. */
  readonly worst: boolean;
}

/** @param longest letters of a name; longer ones are cut in the picture, for the table beneath has them whole */
export function rankedRow(
  row: number,
  name: string,
  estimate: Estimate,
  { note, worst, longest }: Pick<RankedRow, 'note' | 'worst'> & { readonly longest: number },
): RankedRow {
  return {
    row,
    whole: name,
    estimate,
    name: name.length > longest ? `${name.slice(0, longest - 1)}…` : name,
    value: estimate.value,
    low: lowOf(estimate),
    high: highOf(estimate),
    note,
    worst,
  };
}

/** @param top end of the axis: lines beyond it are cut at the edge @param title of the axis @param bottom its other end */
export function rankedDots(
  rows: readonly RankedRow[],
  top: number,
  title: string,
  bottom = 0,
): Pick<Chart, 'height' | 'margin' | 'spec' | 'table' | 'places'> {
  const y = {
    field: 'row',
    type: 'quantitative',
    scale: { domain: [-0.7, rows.length - 0.5], reverse: true, nice: false },
    axis: null,
  };
  const x = {
    field: 'value',
    type: 'quantitative',
    scale: { domain: [bottom, top], nice: true },
    // Signs make labels wider, and the one at the edge is moved inwards.
    axis: { title, tickCount: { signal: bottom < 0 ? 'width / 85' : 'width / 60' }, format: '~f' },
  };
  const worst = { test: 'datum.worst', value: 'var(--bad)' };
  const colour = { condition: worst, value: 'var(--a)' };
  return {
    height: ROW * rows.length,
    margin: { left: 8, right: 70, top: 4, bottom: 42 },
    table: {
      columns: [{ title: 'name' }, { title }, { title: '95 % low' }, { title: '95 % high' }, { title: 'rests on' }],
      rows: rows.map(({ whole, estimate: e, note }) => [whole, e.value, e.low, e.high, note]),
    },
    places: { along: 'y', at: rows.map(({ row }) => row) },
    spec: {
      data: {
        values: rows.map(({ row, name, value, low, high, note, worst: isWorst }) => ({
          row,
          name,
          value,
          low,
          high,
          note,
          worst: isWorst,
        })),
      },
      layer: [
        ...(bottom < 0 ? [{ mark: { type: 'rule', color: 'var(--soft)' }, encoding: { x: { datum: 0 } } }] : []),
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
          encoding: { x: { value: { expr: 'width' } }, y, text: { field: 'note' } },
        },
      ],
    },
  };
}
