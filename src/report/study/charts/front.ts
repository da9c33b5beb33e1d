/** What less effort buys: the ranked number with its interval against cost, cable or holes, the front marked. */
import type { StudyDesign } from '../../../study/summary-schema.js';
import type { Chart } from '../../charts/chart.js';
import { shownAs } from '../../charts/live.js';
import { highOf, lowOf } from '../../worst.js';
import { capital, count, formatEstimate, joined } from '../../words.js';
import { COST_WORDS, type CostKey, costTitle, effortWords, metricAxis } from '../study-words.js';
import type { StudyView } from '../view.js';

/** Designs drawn: the front, and the first ones of the ranking. */
const MOST = 300;
const MOST_LABELS = 14;
/** Of a phone's plot area, px: labels nearer than a label's size are left out. */
const PLOT = { width: 240, height: 240 };
const LABEL = { width: 26, height: 15 };

interface Point {
  readonly number: number;
  readonly x: number;
  readonly y: number;
  readonly low: number;
  readonly high: number;
  readonly front: boolean;
}

export function frontChart(id: string, view: StudyView, key: CostKey): Chart | null {
  const { summary } = view;
  const on = new Set(summary.front.designs);
  const ranked = view.ranked.map((row) => view.design(row));
  const drawn = [...ranked.filter(({ number }) => on.has(number)), ...ranked.filter(({ number }) => !on.has(number))];
  const points = drawn.slice(0, MOST).flatMap((design) => pointOf(view, design, key, on));
  const front = points.filter(({ front: isFront }) => isFront);
  if (points.length < 2 || front.length === 0) return null;
  const labels = labelled(points, front);
  const title = `${costTitle(key, summary.currency)}${key === 'cable_m' ? ', m' : ''}`;
  const [least, most] = [Math.min(...points.map((one) => one.x)), Math.max(...points.map((one) => one.x))];
  const room = (most - least || 1) * 0.06;
  const x = {
    field: 'x',
    type: 'quantitative',
    scale: { domain: [least - room, most + room], nice: false, zero: false },
    axis: { title, tickCount: { signal: 'width / 60' }, format: '~f', ...(key === 'holes' && { tickMinStep: 1 }) },
  };
  const y = {
    field: 'y',
    type: 'quantitative',
    scale: { zero: false, nice: true },
    axis: { title: metricAxis(view), tickCount: 6, format: '~f' },
  };
  const layer = (isFront: boolean): object[] => {
    const data = { values: points.filter((one) => one.front === isFront) };
    const color = isFront ? 'var(--b)' : 'var(--a)';
    return [
      {
        data,
        mark: {
          type: 'rule',
          color,
          strokeWidth: isFront ? 1.5 : 1,
          opacity: shownAs(isFront ? 1 : 0, isFront ? 1 : 0.5),
        },
        encoding: { x, y: { ...y, field: 'low' }, y2: { field: 'high' } },
      },
      {
        data,
        mark: {
          type: 'point',
          filled: isFront,
          size: isFront ? 110 : 40,
          opacity: shownAs(isFront ? 1 : 0, 1),
          color,
          shape: isFront ? 'diamond' : 'circle',
        },
        encoding: { x, y },
      },
    ];
  };
  const all = summary.front.by;
  const others = all.filter((one) => one !== key);
  return {
    id,
    title: findingOf(view, key, front),
    summary: front
      .slice(0, MOST_LABELS)
      .map(({ number }) => {
        const design = view.numbered(number)!;
        const e = view.estimate(design);
        return `Design ${number}: ${COST_WORDS[key]} ${effortWords(design, key, summary.currency)}, ${e === null ? 'no number' : formatEstimate(e, view.as)}.`;
      })
      .join(' '),
    key: `Diamond: no other design is better in one of these without being worse in another: ${joined(['the ranked number', ...all.map((one) => COST_WORDS[one])])}; circle: some other is. Vertical lines: 95\u00a0% interval of each. Numbers are designs’; where they would cover each other, some are left out.${others.length > 0 ? ` A diamond that looks beaten here is better in ${others.map((one) => COST_WORDS[one]).join(' or ')}.` : ''}${drawn.length > MOST ? ` ${MOST} of ${count(drawn.length)} designs are drawn.` : ''}`,
    height: 240,
    margin: { left: 60, right: 20, top: 16, bottom: 42 },
    table: {
      columns: [
        { title: 'design' },
        { title },
        { title: metricAxis(view) },
        { title: '95 % low' },
        { title: '95 % high' },
        { title: 'on the front' },
      ],
      rows: points.map((one) => [one.number, one.x, one.y, one.low, one.high, one.front ? 'yes' : 'no']),
    },
    places: { along: 'both', x: points.map((one) => one.x), y: points.map((one) => one.y) },
    series: [
      { name: 'some other is better in all', color: 'var(--a)' },
      { name: 'no other is better in all', color: 'var(--b)' },
    ],
    spec: {
      layer: [
        ...layer(false),
        ...layer(true),
        // Numbers stand towards the middle, so that none is cut at an edge.
        ...(['left', 'right'] as const).map((align) => ({
          data: { values: labels.filter((one) => one.x > (least + most) / 2 === (align === 'right')) },
          mark: { type: 'text', align, dx: align === 'left' ? 8 : -8, dy: -7, opacity: shownAs(1, 1) },
          encoding: { x, y, text: { field: 'number' } },
        })),
      ],
    },
  };
}

function pointOf(view: StudyView, design: StudyDesign, key: CostKey, on: ReadonlySet<number>): Point[] {
  const e = view.drawn(view.estimate(design));
  const x = design.effort[key];
  if (e === null || x === null) return [];
  return [{ number: design.number, x, y: e.value, low: lowOf(e), high: highOf(e), front: on.has(design.number) }];
}

/** Points of the front whose numbers do not cover each other. */
function labelled(points: readonly Point[], front: readonly Point[]): Point[] {
  const scale = (all: readonly number[], px: number): number => px / (Math.max(...all) - Math.min(...all) || 1);
  const [sx, sy] = [
    scale(
      points.map(({ x }) => x),
      PLOT.width,
    ),
    scale(
      points.flatMap(({ low, high }) => [low, high]),
      PLOT.height,
    ),
  ];
  const kept: Point[] = [];
  for (const one of front) {
    const free = kept.every(
      (k) => Math.abs(k.x - one.x) * sx > LABEL.width || Math.abs(k.y - one.y) * sy > LABEL.height,
    );
    if (free && kept.length < MOST_LABELS) kept.push(one);
  }
  return kept;
}

/** The best design's effort, and the least of the front. */
function findingOf(view: StudyView, key: CostKey, front: readonly Point[]): string {
  const { currency } = view.summary;
  const cheapest = front.reduce((a, b) => (b.x < a.x ? b : a));
  const best = view.best!;
  const words = (design: StudyDesign): string => effortWords(design, key, currency);
  const what = capital(COST_WORDS[key]);
  if (best.effort[key] !== null && best.effort[key] <= cheapest.x)
    return `${what}: none takes less than the best design (${words(best)})`;
  const e = view.estimate(view.numbered(cheapest.number));
  const number = e === null ? 'no number' : formatEstimate(e, view.as).replace(/ \(.*$/, '');
  return `${what}: from ${words(view.numbered(cheapest.number)!)} (design ${cheapest.number}, ${number}) to ${words(best)} (the best)`;
}
