/** Persons in a room over the first replicate: the truth, and what the ledger said. */
import type { RoomTrace } from '../../score/figures.js';
import { ledgerWords } from '../ledger-words.js';
import { named, plural } from '../words.js';
import type { Chart } from './chart.js';
import { signed } from './drift.js';
import { SPAN, shownAs } from './live.js';
import { thinnedSteps } from './thin.js';

const MOST_STEPS = 400;
/** Of what is not drawn at first. */
const MOST_LATER = 800;

const SERIES = [
  { name: 'truth', color: 'var(--a)' },
  { name: 'counted', color: 'var(--b)', strokeDash: [5, 3] },
];

/** Longer clocks are too dense to read: their first two days are drawn. */
const LONGEST_H = 72;
const SHOWN_H = 48;

export function roomChart(id: string, all: RoomTrace, clock_h: number): Chart | null {
  const hours = clock_h > LONGEST_H ? SHOWN_H : clock_h;
  const trace = clock_h > LONGEST_H ? upTo(all, SHOWN_H) : all;
  const last = trace.time_h.length - 1;
  const [truth, counted] = [trace.truth[last], trace.counted[last]];
  if (truth === undefined || counted === undefined) return null;
  // What isn't drawn at first is there for who asks for another span.
  const rows = [
    ...rowsOf(trace, MOST_STEPS, hours),
    ...(trace === all ? [] : rowsOf(after(all, SHOWN_H), MOST_LATER, clock_h)),
  ];
  const off = counted - truth;
  const x = {
    field: 'h',
    type: 'quantitative',
    axis: { title: 'hours since the start', tickCount: { signal: 'width / 70' } },
  };
  const y = (field: string): object => ({
    field,
    type: 'quantitative',
    axis: { title: 'persons', tickCount: 5, format: 'd' },
  });
  return {
    id,
    title: `Room ${named(trace.room)}, ${ledgerWords(trace.ledger)}: ${hours < clock_h ? `after ${SHOWN_H}\u00a0h` : 'ends'} ${off === 0 ? 'right' : `${plural(Math.abs(off), 'person')} too ${off > 0 ? 'high' : 'low'}`}`,
    summary: `${hours < clock_h ? `After ${SHOWN_H} hours` : 'At the end'} of the first replicate ${plural(truth, 'person')} ${truth === 1 ? 'is' : 'are'} in the room and the ledger says ${counted} (${signed(off)}), by the logic ${named(trace.logic)}.`,
    key: `First replicate${hours < clock_h ? `, its first ${SHOWN_H} hours` : ''}, logic ${named(trace.logic)}. Solid: truth; dashed: counted.${trace.time_h.length > MOST_STEPS ? ' Thinned for drawing: highs and lows kept.' : ''}`,
    height: 190,
    margin: { left: 56, right: 12, top: 8, bottom: 42 },
    room: trace.room,
    clock_h: 1,
    table: {
      columns: [
        { title: 'hours since the start' },
        { title: 'truth, persons', series: 0 },
        { title: 'counted, persons', series: 1 },
      ],
      rows: rows.map(({ h, truth: is, counted: said }) => [h, is, said]),
    },
    places: { along: 'x', at: rows.map(({ h }) => h), steps: true },
    series: SERIES,
    spec: {
      data: { values: rows },
      transform: [{ filter: `${SPAN} !== null || datum.h <= ${hours}` }],
      encoding: { x },
      layer: SERIES.map(({ name, ...look }, i) => ({
        mark: { type: 'line', interpolate: 'step-after', strokeWidth: 2.5 - 0.75 * i, ...look, opacity: shownAs(i, 1) },
        encoding: { y: y(name) },
      })),
    },
  };
}

/** Steps of a trace, thinned. The last value holds to the end of the clock; visits under way may end after it. */
function rowsOf(
  { time_h, truth, counted }: RoomTrace,
  most: number,
  end_h: number,
): { readonly h: number; readonly truth: number; readonly counted: number }[] {
  const rows = thinnedSteps([truth, counted], most).map((i) => ({
    // To a third of a second: more digits only make the page larger.
    h: Math.round(time_h[i]! * 1e4) / 1e4,
    truth: truth[i]!,
    counted: counted[i]!,
  }));
  const last = rows.at(-1);
  return last === undefined ? [] : [...rows, { ...last, h: Math.max(end_h, last.h) }];
}

const upTo = (trace: RoomTrace, h: number): RoomTrace => part(trace, 0, placeAfter(trace, h));
const after = (trace: RoomTrace, h: number): RoomTrace => part(trace, placeAfter(trace, h), trace.time_h.length);

/** Place of the first step after a time. */
const placeAfter = ({ time_h }: RoomTrace, h: number): number => time_h.filter((one) => one <= h).length;

const part = (trace: RoomTrace, from: number, to: number): RoomTrace => ({
  ...trace,
  time_h: trace.time_h.slice(from, to),
  truth: trace.truth.slice(from, to),
  counted: trace.counted.slice(from, to),
});
