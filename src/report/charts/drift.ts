/** How far a door's count runs away over the clock: bands over replicates. */
import type { DriftBands } from '../../score/drift-bands.js';
import { named } from '../words.js';
import type { Chart } from './chart.js';
import { shownAs } from './live.js';
import { thinned } from './thin.js';

/** Persons the y axis shows, so that a door's logics stand side by side on one scale. */
export type Extent = readonly [number, number];

export function driftExtent(bands: readonly Pick<DriftBands, 'q05' | 'q95'>[]): Extent {
  const all = bands.flatMap((b) => [...b.q05, ...b.q95]).filter(Number.isFinite);
  return [Math.min(-1, ...all), Math.max(1, ...all)];
}

/** Persons, signed: '+3', '−12', '0'. */
export const signed = (x: number): string => {
  const text = Math.abs(x) < 10 && !Number.isInteger(x) ? Math.abs(x).toFixed(1) : String(Math.round(Math.abs(x)));
  return Number(text) === 0 ? '0' : `${x > 0 ? '+' : '\u2212'}${text}`;
};

export function driftChart(id: string, bands: DriftBands, extent: Extent, replicates: number): Chart | null {
  const last = bands.clock_h.length - 1;
  const [end, lowest, highest, middle] = [bands.clock_h[last], bands.q05[last], bands.q95[last], bands.q50[last]];
  if (end === undefined || lowest === undefined || highest === undefined || middle === undefined) return null;
  const shown = thinned(bands.clock_h.length, 160);
  // Steps need a point only where one of the drawn quantiles changes, and one at the end.
  const rows = (...quantiles: Quantile[]): object[] =>
    shown
      .filter((i, k) => k === 0 || i === last || quantiles.some((q) => bands[q][i] !== bands[q][shown[k - 1] ?? 0]))
      .map((i) => ({ h: bands.clock_h[i], ...Object.fromEntries(quantiles.map((q) => [q, bands[q][i]])) }));
  const hours = `${Number(end.toFixed(2))} h`;
  const ends =
    replicates === 1
      ? `After ${hours}: ${signed(middle)} persons in the only replicate.`
      : `After ${hours}: median ${signed(middle)}, nine of ten replicates between ${signed(lowest)} and ${signed(highest)} persons.`;
  const direction =
    lowest > 0
      ? 'runs too far forward'
      : highest < 0
        ? 'falls behind'
        : lowest === 0 && highest === 0
          ? 'ends right'
          : Math.abs(middle) < 0.5
            ? 'scatters round the truth'
            : `leans ${middle > 0 ? 'forward' : 'backward'}, truth still inside the band`;
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
    summary: `The net count forward minus the truth. ${ends}`,
    key: `${ends}${replicates === 1 ? '' : ' Thick line: median; dark band: middle half; light band with dashed edges: nine of ten replicates.'}`,
    height: 190,
    margin: { left: 72, right: 12, top: 8, bottom: 42 },
    door: bands.door,
    clock_h: 1,
    table: {
      columns: [
        { title: 'hours since the start' },
        { title: 'median, persons', series: 0 },
        ...(replicates === 1
          ? []
          : [
              { title: 'lower quarter', series: 1 },
              { title: 'upper quarter', series: 1 },
              { title: 'one replicate in 20 is below', series: 2 },
              { title: 'one in 20 is above', series: 2 },
            ]),
      ],
      rows: shown.map((i) => [
        bands.clock_h[i]!,
        bands.q50[i]!,
        ...(replicates === 1 ? [] : [bands.q25[i]!, bands.q75[i]!, bands.q05[i]!, bands.q95[i]!]),
      ]),
    },
    places: { along: 'x', at: shown.map((i) => bands.clock_h[i]!), steps: true },
    series:
      replicates === 1
        ? [{ name: 'the replicate', color: STEPS.color }]
        : [
            { name: 'median', color: STEPS.color },
            { name: 'middle half', color: STEPS.color, opacity: 0.6 },
            { name: 'nine of ten', color: STEPS.color, opacity: 0.2, strokeDash: [4, 3] },
          ],
    spec: {
      encoding: { x },
      layer: [
        ...(replicates === 1
          ? []
          : [
              band(rows('q05', 'q95'), shownAs(2, 0.2), y('q05'), 'q95'),
              band(rows('q25', 'q75'), shownAs(1, 0.4), y('q25'), 'q75'),
              line(rows('q05'), y('q05'), { strokeWidth: 1, strokeDash: [4, 3], opacity: shownAs(2, 1) }),
              line(rows('q95'), y('q95'), { strokeWidth: 1, strokeDash: [4, 3], opacity: shownAs(2, 1) }),
            ]),
        {
          data: { values: [{}] },
          mark: { type: 'rule', color: 'var(--ink)', strokeWidth: 1 },
          encoding: { x: null, y: { datum: 0 } },
        },
        line(rows('q50'), y('q50'), { strokeWidth: 2.5, opacity: shownAs(0, 1) }),
      ],
    },
  };
}

type Quantile = 'q05' | 'q25' | 'q50' | 'q75' | 'q95';

const STEPS = { interpolate: 'step-after', color: 'var(--a)' };

const band = (values: object[], opacity: object, y: object, to: Quantile): object => ({
  data: { values },
  mark: { ...STEPS, type: 'area', opacity },
  encoding: { y, y2: { field: to } },
});

const line = (values: object[], y: object, stroke: object): object => ({
  data: { values },
  mark: { ...STEPS, type: 'line', ...stroke },
  encoding: { y },
});
