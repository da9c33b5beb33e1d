// What who doesn't see a picture is told: the very numbers of metrics.json and figures.json, to the digits that are said.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { renderReport } from '../../src/report/report.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { simulate } from '../../src/simulate/simulate.js';

const text = readFileSync('scenarios/two-doors.yaml', 'utf8');
const { design } = parseScenario(text, 'two-doors.yaml', { sets: ['replicates=5', 'hours=6'] });
const { metrics, figures } = simulate(design!);
const page = await renderReport({
  design: design!,
  metrics,
  figures,
  sources: [],
  version: '0.0.0',
  design_sha256: '0'.repeat(64),
});

/** The description of a chart, its sentences apart. */
function told(id: string): string[] {
  const [, description] = new RegExp(`<desc id="${id}-d">([^<]*)</desc>`).exec(page) ?? [];
  expect(description, id).toBeDefined();
  return description!.replaceAll('&lt;', '<').split(/(?<=[a-z)]\.) (?=\S)/);
}
/** Numbers of a sentence as they are written. */
const numbers = (sentence: string): string[] =>
  sentence
    .replaceAll('\u2212', '-')
    .match(/-?\d[\d,]*(?:\.\d+)?/g)!
    .map((one) => one.replaceAll(',', ''));

/** Whether a number was said to the digits it has. */
function said(written: string, value: number): void {
  const decimals = written.split('.')[1]?.length ?? 0;
  expect(Math.abs(Number(written) - value), `${written} for ${value}`).toBeLessThanOrEqual(0.5001 / 10 ** decimals);
}

const doors = metrics.doors.filter(({ logic }) => logic === 'first-broken');

test.each([0, 1])('kinds of passage at door %i: each rate, its interval, its visits', (d) => {
  const sentences = told(`kinds-${d}`);
  const kinds = doors[d]!.by_kind.filter((k) => k.wrong_per_100_visits.low !== null);
  let found = 0;
  for (const sentence of sentences) {
    const [, ofVisits] = /([\d,]+) visits?\.$/.exec(sentence) ?? [];
    if (ofVisits === undefined) continue;
    const visits = Number(ofVisits.replaceAll(',', ''));
    const [value] = numbers(sentence.slice(sentence.indexOf(': ') + 2));
    const kind = kinds.find(
      (k) => k.visits === visits && Math.abs(k.wrong_per_100_visits.value! - Number(value)) <= 0.5,
    );
    expect(kind, sentence).toBeDefined();
    said(value!, kind!.wrong_per_100_visits.value!);
    const [, low, high] = /interval (?:< )?([\d.]+) to ([\d.]+)\)/.exec(sentence)!;
    if (!sentence.includes('< ')) said(low!, kind!.wrong_per_100_visits.low!);
    said(high!, kind!.wrong_per_100_visits.high!);
    found++;
  }
  expect(found).toBeGreaterThan(2);
});

test('statures: each band has its rate', () => {
  const bands = doors[0]!.by_stature.filter((b) => b.wrong_per_100_visits.value !== null);
  const sentences = told('stature-0');
  expect(sentences).toHaveLength(bands.length);
  bands.forEach((band, i) => {
    const [from, to, value] = numbers(sentences[i]!);
    said(from!, band.from_m);
    said(to!, band.to_m);
    said(value!, band.wrong_per_100_visits.value!);
  });
});

test('causes: so many a week', () => {
  const { causes } = metrics.why.find(({ door, logic }) => door === null && logic === 'first-broken')!;
  const sentences = told('why-chart');
  expect(sentences).toHaveLength(causes.length);
  causes.forEach((cause, i) => {
    const [value] = numbers(sentences[i]!.slice(sentences[i]!.lastIndexOf(': ') + 2));
    said(value!, cause.per_week.value!);
  });
});

test('drift: where nine of ten replicates end', () => {
  const bands = figures.drift.find(({ door, logic }) => door === 'studio-door' && logic === 'first-broken')!;
  const last = bands.clock_h.length - 1;
  const ends = told('drift-0').find((sentence) => sentence.startsWith('After'))!;
  const [hours, median, low, high] = numbers(ends);
  said(hours!, bands.clock_h[last]!);
  said(median!, bands.q50[last]!);
  said(low!, bands.q05[last]!);
  said(high!, bands.q95[last]!);
});

test('rooms: truth and count when the clock ends', () => {
  const trace = figures.rooms.find(({ room, logic }) => room === 'studio' && logic === 'first-broken')!;
  const [truth, counted, off] = numbers(told('room-0').join(' '));
  said(truth!, trace.truth.at(-1)!);
  said(counted!, trace.counted.at(-1)!);
  said(off!, trace.counted.at(-1)! - trace.truth.at(-1)!);
});

test('the three large numbers are those of the house', () => {
  const big = [...page.matchAll(/<p class="big">([^<]*)<\/p>/g)].map(([, number]) => number!.replace('\u2212', '-'));
  expect(big).toHaveLength(3);
  said(big[0]!, metrics.house.wrong_per_100.value!);
  said(big[1]!, metrics.house.drift_per_100.bias.value!);
  const dark = metrics.rooms
    .filter(({ logic }) => logic === 'first-broken')
    .map((room) => room.empty_while_occupied_share.value ?? 0);
  said(big[2]!.replace(/\s*%/, ''), 100 * Math.max(...dark));
});
