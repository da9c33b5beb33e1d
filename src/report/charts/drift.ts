/** How far a door's count runs away over the clock: bands over replicates. */
import type { DriftBands } from '../../score/figures.js';
import { named } from '../words.js';
import type { Chart } from './chart.js';
import { thinned } from './thin.js';

/** Persons the y axis shows, so that a door's logics stand side by side on one scale. */
export type Extent = readonly [number, number];

export function driftExtent(bands: readonly DriftBands[]): Extent {
  const all = bands.flatMap((b) => [...b.q05, ...b.q95]).filter(Number.isFinite);
  return [Math.min(-1, ...all), Math.max(1, ...all)];
}

/** Persons, signed: '+3', '−12', '0'. */
export const signed = (x: number): string => {
  const text = Math.abs(x) < 10 && !Number.isInteger(x) ? Math.abs(x).toFixed(1) : String(Math.round(Math.abs(x)));
  return Number(text) === 0 ? '0' : `${x > 0 ? '+' : '\u2212'}${text}`;
};

export function driftChart(id: string, bands: DriftBands, extent: Extent): Chart | null {
  const last = bands.clock_h.length - 1;
  const [end, lowest, highest, middle] = [bands.clock_h[last], bands.q05[last], bands.q95[last], bands.q50[last]];
  if (end === undefined || lowest === undefined || highest === undefined || middle === undefined) return null;
  const rows = thinned(bands.clock_h.length, 160).map((i) => ({
    h: bands.clock_h[i],
    q05: bands.q05[i],
    q25: bands.q25[i],
    q50: bands.q50[i],
    q75: bands.q75[i],
    q95: bands.q95[i],
  }));
  const hours = `${Number(end.toFixed(2))} h`;
  const direction =
    lowest > 0
      ? 'runs too far forward'
      : highest < 0
        ? 'falls behind'
        : Math.abs(middle) < 0.5
          ? 'scatters round the truth'
          : 'drifts, with truth inside the band';
  const x = {
    field: 'h',
    type: 'quantitative',
    axis: { title: 'hours since the start', tickCount: { signal: 'width / 70' } },
  };
  const y = (field: string): object => ({
    field,
    type: 'quantitative',
    scale: { domain: extent, nice: true },
    axis: { title: 'counted minus true, persons', tickCount: 5 },
  });
  return {
    id,
    title: `Door ${named(bands.door)}, ${named(bands.logic)}: the count ${direction}`,
    summary: `After ${hours} the net count forward minus the truth lies between ${signed(lowest)} and ${signed(highest)} persons in nine of ten replicates; the median is ${signed(middle)}.`,
    key: `After ${hours}: median ${signed(middle)}, nine of ten replicates between ${signed(lowest)} and ${signed(highest)} persons. Thick line: median; dark band: middle half; light band with dashed edges: nine of ten replicates.`,
    height: 190,
    margin: { left: 56, right: 12, top: 8, bottom: 42 },
    spec: {
      data: { values: rows },
      encoding: { x },
      layer: [
        {
          mark: { type: 'area', interpolate: 'step-after', color: 'var(--a)', opacity: 0.16 },
          encoding: { y: y('q05'), y2: { field: 'q95' } },
        },
        {
          mark: { type: 'area', interpolate: 'step-after', color: 'var(--a)', opacity: 0.34 },
          encoding: { y: y('q25'), y2: { field: 'q75' } },
        },
        ...(['q05', 'q95'] as const).map((q) => ({
          mark: { type: 'line', interpolate: 'step-after', color: 'var(--a)', strokeWidth: 1, strokeDash: [4, 3] },
          encoding: { y: y(q) },
        })),
        { mark: { type: 'rule', color: 'var(--ink)', strokeWidth: 1 }, encoding: { x: null, y: { datum: 0 } } },
        {
          mark: { type: 'line', interpolate: 'step-after', color: 'var(--a)', strokeWidth: 2.5 },
          encoding: { y: y('q50') },
        },
      ],
    },
  };
}
