/** The picture beside a profile: it stands alone, and holds what it says it holds. */
import { expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { fitBench } from '../../src/fitting/fit.js';
import { readBench } from '../../src/fitting/readings.js';
import { benchChart } from '../../src/report/charts/bench.js';
import { benchCsv } from './bench-data.js';

const fitOf = (rows: number) => {
  const truth = {
    distances_m: [0.2, 0.5, 1, 1.5],
    rows,
    stray_share: 0.1,
    dropout_share: 0.1,
    range_m: [0.1, 4],
    reads: (d: number) => d,
    sd: () => 0.004,
    write: (m: number) => m.toFixed(4),
  } as const;
  const csv = benchCsv('true_m,reading_m', truth, Stream.root('chart'));
  return fitBench(readBench(csv, 'b.csv').bench!, { kind: 'time-of-flight-ranger', adc_bits: 10, adc_reference_v: 5 })!;
};

test('readings, strays, curve, residuals and means are in it; colours and letters need nothing from outside', async () => {
  const fit = fitOf(30);
  const svg = await benchChart(fit);
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
  expect(svg).not.toMatch(/var\(|href="|<script|<style|url\(http|NaN|undefined|\[object/);
  expect(svg).toContain('<title>Readings of a time-of-flight-ranger at true distances');
  expect(svg).toContain(`${fit.strays} strays, ${fit.silent} without echo`);
  for (const words of ['true distance, m', 'reading, m', 'reading less curve, m']) expect(svg).toContain(`>${words}<`);
  // Each kept reading twice, each stray once, each mean once.
  const marks = svg.match(
    /<path [^>]*aria-roledescription="point"|<path [^>]*transform="translate\([^"]*"[^>]*d="M/g,
  )!.length;
  const echoes = fit.rows - fit.silent;
  expect(marks).toBe(2 * (echoes - fit.strays) + fit.strays + 4);
});

test('many readings are thinned to a picture of bounded size', async () => {
  expect((await benchChart(fitOf(3000))).length).toBeLessThan(700_000);
});
